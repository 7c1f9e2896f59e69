import assert from "node:assert/strict";
import { holding, loaded, note } from "./notes";

const settled = (text: string) => holding({ n: note(text) }).record("n").settleFirst;
const shares = (text: string) =>
  settled(text).map(({ name, must }) => [
    name,
    must && must.share !== undefined ? Number(must.share.toFixed(3)) : must,
  ]);

describe("the guesses to settle first", () => {
  it("are those that move a `must` most, as a share of what it has to spare at nominal", () => {
    // I is 3 V / 390 Ω, 0.9 V below the limit: V_f at 1.8 V brings 0.2 V, the wire's 5 Ω 0.038 V, worked by hand.
    const text =
      "given supply = 5 V\nassume w = 0 .. 2 .. 4 Ω\nassume V_f = 1.8 .. 2.0 .. 2.2 V\nI = (supply - V_f) / (388 Ω + w)\nmust I <= 10 mA";
    const [nominal, limit] = [3 / 390, 0.01];
    assert.deepEqual(shares(text), [
      ["V_f", Number(((3.2 / 390 - nominal) / (limit - nominal)).toFixed(3))],
      ["w", Number(((3 / 388 - nominal) / (limit - nominal)).toFixed(3))],
    ]);
    const [first] = settled(text);
    assert.deepEqual(
      [first.line, first.shown, first.must?.line, first.must?.condition],
      [3, "1.8 .. 2 .. 2.2 V", 5, "I <= 10 mA"],
    );
    assert.equal(first.reason, "can take 22 % of what `must I <= 10 mA` has to spare");
  });

  it("count what endangers a rule, not what helps it, and the rule that they move most", () => {
    assert.deepEqual(shares("assume a = 1 .. 2 .. 9 V\nmust a >= 0 V\nmust a <= 100 V"), [["a", 0.5]]);
    assert.equal(
      settled("assume a = 1 .. 2 .. 9 V\nmust a >= 0 V\nmust a <= 4 V")[0].reason,
      "alone can break `must a <= 4 V`",
    );
  });

  it("of a rule that is false at nominal count what can help", () => {
    const [a] = settled("assume a = 4 .. 5 .. 9 V\nmust a <= 3 V");
    assert.equal(a.must?.share, 0.5);
    assert.equal(a.reason, "can make up 50 % of what `must a <= 3 V` is short");
  });

  it("are seen through what jumps", () =>
    assert.deepEqual(shares("assume n = 15 .. 16 .. 17\nboards = ceil(n / 8)\nmust boards <= 4"), [["n", 0.5]]));

  it("without limits are taken to be off by a tenth, a temperature by 10 K", () => {
    assert.deepEqual(
      settled("assume I_max = 30 mA\nassume T = 25 °C\nmust I_max >= 20 mA\nmust T <= 45 °C").map(
        ({ must, reason }) => [must?.share, reason],
      ),
      [
        [0.5, "without limits, 10 K can take 50 % of what `must T <= 45 °C` has to spare"],
        [0.3, "without limits, a tenth of it can take 30 % of what `must I_max >= 20 mA` has to spare"],
      ],
    );
  });

  it("have no bound where a limit is not known, or the rule is met just so", () => {
    const [open, exact] = settled("assume a = .. 3 .. 4 V\nassume b = 2 V ± 1 V\nmust a >= 1 V\nmust b <= 2 V");
    assert.equal(open.reason, "can decide `must a >= 1 V`");
    assert.equal(exact.reason, "can decide `must b <= 2 V`");
    assert.equal("share" in open.must! || "share" in exact.must!, false);
  });

  it("are open ones: none with a source, none that was measured; those under no `must` come last", () =>
    assert.deepEqual(
      settled(
        'assume a = 1 V from "sheet"\nassume b = 1 .. 3 V\nmeasured b = 2 V instead\nassume c = 1 .. 2 V\nassume d = 1 .. 2 V\nshould c <= 5 V\nmust a + b + d <= 9 V',
      ).map(({ name, must }) => [name, must?.condition]),
      [
        ["d", "a + b + d <= 9 V"],
        ["c", undefined],
      ],
    ));

  it("move what is summed over pieces, and what a further piece decides", () => {
    // All six at 2.8 V or 3.2 V move a stack of 18 V by 1.2 V; two pieces apart move a step of 0 V by 0.2 V each.
    const pieces = "items LED\nassume V_f = 2.8 .. 3.2 V each LED\n";
    assert.deepEqual(shares(`${pieces}stack = total(6, V_f)\nmust stack <= 24 V`), [["V_f", 0.2]]);
    assert.deepEqual(shares(`${pieces}step = V_f - another V_f\nmust step <= 1 V`), [["V_f", 0.4]]);
  });

  it("that rest on other guesses have a part of their own", () =>
    assert.deepEqual(shares("assume a = 1 .. 2 .. 3 V\nassume b = a * (1 ± 10 %)\nmust b <= 4 V"), [
      ["a", 0.5],
      ["b", 0.1],
    ]));

  it("move rules of other notes, too", async () => {
    const service = await loaded("a.calcs.md", note('use "b.calcs.md" as b\nmust b.x <= 4 V'), {
      "b.calcs.md": note("assume x = 1 .. 2 .. 3 V"),
    });
    assert.deepEqual(service.record("b.calcs.md").settleFirst[0].must, {
      path: "a.calcs.md",
      line: 2,
      condition: "b.x <= 4 V",
      share: 0.5,
    });
    assert.deepEqual(service.record("a.calcs.md").settleFirst, []);
  });
});

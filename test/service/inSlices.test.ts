import assert from "node:assert/strict";
import { finish } from "../../src/engine/slices";
import { Service } from "../../src/service";
import { libraryOf, note, SETTINGS } from "../features/notes";

const FAILING = note(`given supply = 24 V ± 5 %
assume V_f = 2.8 .. 3.0 .. 3.2 V
burden = supply - 7 * V_f
R = burden / 20 mA choose 150 Ω ± 1 % from E24
I = burden / R
must I <= 30 mA
`);

function inSlices(text: string): Service {
  const service = new Service(libraryOf({}), SETTINGS, "in slices");
  service.open("n", text);
  service.search(() => false);
  return service;
}

describe("what takes longer than a look", () => {
  it("is the same in slices: fixes that are tried", () => {
    const service = inSlices(FAILING);
    const span = { start: FAILING.indexOf("must"), end: FAILING.length - 1 };
    const atOnce = new Service(libraryOf({}), SETTINGS);
    atOnce.open("n", FAILING);
    const offered = finish(service.fixesInSlices("n", span));
    assert.ok(offered.length > 0);
    assert.deepEqual(offered, atOnce.fixes("n", span));
  });

  it("pauses between one trial and the next", () => {
    const service = inSlices(FAILING);
    const run = service.fixesInSlices("n", { start: FAILING.indexOf("must"), end: FAILING.length - 1 });
    let pauses = 0;
    while (!run.next().done) pauses++;
    // 150 Ω is four steps of E24 short of what holds, tried up and down in turn, and then each fix for its title.
    assert.ok(pauses >= 8, `${pauses}`);
  });

  it("ends without an answer once a note is edited", () => {
    const service = inSlices(FAILING);
    const run = service.fixesInSlices("n", { start: FAILING.indexOf("must"), end: FAILING.length - 1 });
    run.next();
    service.edit("n", [{ span: { start: 0, end: 0 }, text: "# Bar\n\n" }]);
    assert.deepEqual(run.next(), { done: true, value: [] });
  });

  it("is told by a hover once it was looked into: how a value is distributed", () => {
    const text = note("assume a = 0 .. 1 V\nassume b = 0 .. 1 V\ns = a + b\n");
    const service = inSlices(text);
    const at = text.indexOf("s =");
    const told = () => /^.*of builds.*$/m.exec(service.hover("n", at)!.markdown)?.[0];
    assert.equal(told(), undefined);
    finish(service.lookInto("n", at));
    // The sum of two even spreads has a triangular one: x²/2 of it below x, and a variance of 1/6.
    assert.match(
      told()!,
      /^95 % of builds 0\.22 \.\. 1 \.\. 1\.78 V about the mean, standard deviation 410 mV, by \d+ trials$/,
    );
    service.edit("n", [{ span: { start: text.length, end: text.length }, text: "    c = 2 V\n" }]);
    assert.equal(told(), undefined, "The draws are seeded from the text.");
  });

  it("is told of a rule that fails: the nearest choice with which it holds", () => {
    const service = inSlices(FAILING);
    const at = FAILING.indexOf("must");
    finish(service.lookInto("n", at));
    // 5.6 V at the most over 30 mA is 186.7 Ω, and less 1 % of it 200 Ω is the first that holds.
    assert.match(service.hover("n", at)!.markdown, /^With R 200 Ω all rules on it hold$/m);
  });

  it("is begun once, and anew where nobody went on with it", () => {
    const service = inSlices(FAILING);
    const at = FAILING.indexOf("must");
    const first = service.lookInto("n", at);
    first.next();
    assert.equal(finish(countOf(service.lookInto("n", at))), 0, "The first works on it.");
    first.return();
    assert.ok(finish(countOf(service.lookInto("n", at))) > 0);
  });

  it("draws as many builds as the settings of the note say", () => {
    const text = note("assume a = 0 .. 1 V\nassume b = 0 .. 1 V\ns = a + b\nmust s <= 1.9 V\n");
    const trials = { a: 500, b: 700 };
    const service = new Service(libraryOf({}), (path) => ({ ...SETTINGS, trials: trials[path as "a" | "b"] }));
    for (const path of ["a", "b"]) {
      service.open(path, text);
      const at = text.indexOf("s =");
      finish(service.lookInto(path, at));
      assert.match(service.hover(path, at)!.markdown, new RegExp(`by ${trials[path as "a" | "b"]} trials`));
      const rule = service.snapshot(path)!.rows[3].outcome;
      assert.ok(rule.kind === "rule" && rule.builds?.isTried);
      assert.equal(rule.builds.trials, trials[path as "a" | "b"]);
    }
  });
});

function* countOf(run: Generator<unknown>): Generator<unknown, number> {
  let count = 0;
  for (const each of run) {
    count++;
    yield each;
  }
  return count;
}

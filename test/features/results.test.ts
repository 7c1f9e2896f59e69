import assert from "node:assert/strict";
import { holding, loaded, note } from "./notes";

/** The lines with what stands beside them: `<style>` before a value that has one, `*` before what is bold. */
function beside(text: string): string[] {
  const service = holding({ "a.calcs.md": text });
  const lines = text.split(/\r?\n/);
  return service.results("a.calcs.md").map(({ line, text: words, style, isStrong, at }) => {
    assert.equal(service.snapshot("a.calcs.md")!.lines.lineAt(at), line);
    return `${lines[line].trim()} | ${isStrong ? "*" : ""}${style === "none" ? "" : `<${style}> `}${words}`;
  });
}

function check(...lines: string[]): void {
  const text = note(lines.map((line) => line.split(" | ")[0]).join("\n"));
  assert.deepEqual(
    beside(text),
    lines.filter((line) => line.includes(" | ")),
  );
}

describe("values beside lines", () => {
  it("stand in the order of a data sheet", () =>
    check(
      "given supply = 24 V ± 5 % | 22.8 .. 24 .. 25.2 V",
      "given V_f = 2.8 .. 3.2 V | 2.8 .. 3 .. 3.2 V",
      "burden = supply - 7 * V_f | 0.4 .. 3 .. 5.6 V",
    ));

  it("are left out where the line reads as its value", () =>
    check(
      "given I = 20 mA",
      "given V_f = 2.8 .. 3.0 .. 3.2 V",
      "choose n = 6",
      "order boards = 5",
      "t = 100 µs",
      "given R = 4R7 | 4.7 Ω",
      "given P = 1/4 W | 0.25 W",
      "given mask = 0x1F | 31",
      "shown [mA] = 0.02 A | 20 mA",
    ));

  it("tell by their line style where they come from, and then are always there", () =>
    check(
      "assume a = 2 V | <guess> 2 V",
      'assume b = 2 V from "sheet" | <assumed> 2 V',
      "assume c = 1 .. 3 V | <measured> 2 V, measured",
      "measured c = 2 V instead | <measured> 2 V, inside what was assumed",
    ));

  it("name what a choice was wanted to be", () =>
    check("given V = 0.4 .. 3 .. 5.6 V", "R = V / 20 mA choose 150 Ω from E24 | 150 Ω, wanted 20 .. 150 .. 280 Ω"));

  it("say how a measurement compares with what was predicted", () =>
    check(
      "given a = 1 .. 3 V | 1 .. 2 .. 3 V",
      "b = 2 * a | 2 .. 4 .. 6 V",
      "measured b = 4 V | <measured> 4 V, inside what was predicted",
      "measured b = 5 .. 7 V | <measured> 5 .. 6 .. 7 V, not inside what was predicted, 2 .. 4 .. 6 V",
      "measured b = 9 V | <measured> 9 V, outside what was predicted, 2 .. 4 .. 6 V",
      "measured a = 4 V | <measured> 4 V, outside what was given, 1 .. 2 .. 3 V",
      "measured unknown = 4 V | <measured> 4 V",
    ));

  it("are cut where a list is long", () =>
    check("x = [1, 2] * 1 V | 1 V, 2 V", "y = [1, 2, 3, 4, 5, 6, 7] * 1 V | 1 V, 2 V, 3 V, 4 V, 5 V, 6 V … 7 values"));

  it("are true, false or open", () =>
    check("given a = 1 .. 3 V | 1 .. 2 .. 3 V", "b = a < 2 V | open", "c = a < 4 V | true", "d = a > 4 V | false"));

  it("are nothing where there is no value", () =>
    check("x = y + 1 V", "z = 2 * x", "items LED", "f(a) = 2 * a", "p = q", "q = p", "broken +"));

  it("are phrases for rules, bold where one fails", () =>
    check(
      "given a = 1 .. 3 V | 1 .. 2 .. 3 V",
      "must a <= 4 V | holds, 25 % to spare",
      "must a <= 2.5 V | *fails at the limits, 25 builds in 100, 20 % short at a 3 V",
      "must a <= 1 V | *fails, 200 % short",
      "b = c",
      "must b <= 1 V | undecided, b has no value",
    ));

  it("stand at the end of a statement's last line", () => {
    const text = note("given a = 1 .. 3 V\nx = a +\n    a   # twice\nmust x <= 6 V and\n    x >= 0 V");
    assert.deepEqual(beside(text).slice(1, 2), ["a   # twice | 2 .. 4 .. 6 V"]);
    assert.deepEqual(
      holding({ n: text })
        .results("n")
        .map(({ line }) => line),
      [0, 2, 4],
    );
  });

  it("stand before the line break, be it LF or CRLF", () => {
    const text = note("x = 2 * 3 V  \ny = 2 * x").replaceAll("\n", "\r\n");
    const [first, second] = holding({ n: text }).results("n");
    assert.equal(first.at, text.indexOf("\r\n"));
    assert.equal(second.at, text.length);
  });

  it("say whether a used note was read", async () => {
    const service = await loaded("a.calcs.md", note('use "b.calcs.md" as b\nuse "c.calcs.md" as c\nx = 2 * b.y'), {
      "b.calcs.md": note("y = 2 V"),
    });
    assert.deepEqual(
      service.results("a.calcs.md").map(({ text }) => text),
      ["read", "not read", "4 V"],
    );
  });

  it("are the same object while the note stands", () => {
    const service = holding({ n: note("x = 2 * 3 V") });
    const first = service.results("n");
    assert.equal(service.results("n"), first);
    service.edit("n", [{ span: { start: 12, end: 13 }, text: "4" }]);
    assert.equal(service.results("n")[0].text, "8 V");
  });

  it("of measurements follow what they are compared with", () => {
    const text = note("given a = 1 .. 3 V\nmeasured a = 2 V");
    const service = holding({ n: text });
    assert.equal(service.results("n")[1].text, "2 V, inside what was given");
    service.edit("n", [{ span: { start: text.indexOf("3 V"), end: text.indexOf("3 V") + 1 }, text: "1.5" }]);
    assert.equal(service.results("n")[1].text, "2 V, outside what was given, 1 .. 1.25 .. 1.5 V");
  });
});

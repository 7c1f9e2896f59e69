import assert from "node:assert/strict";
import { holding, note } from "./notes";

const record = (text: string) => holding({ "n.calcs.md": note(text) }).record("n.calcs.md");

describe("the record of a note", () => {
  it("has the values in coherent SI units, in the order of the text", () =>
    assert.deepEqual(
      record(`items LED
given a = 20 mA ± 10 %
T = 25 °C
share = 5 %
n = 3 LED
x [mV] = 2 * 3 mV choose 6.2 mV ± 0.1 mV from E24
assume g = 1 .. 3 kΩ
over o = 1 .. 2 V
order boards = 5
measured x = 6 mV`).values,
      [
        {
          name: "a",
          line: 2,
          kind: "given",
          value: 0.02,
          min: 0.018,
          max: 0.022,
          unit: "A",
          shown: "18 .. 20 .. 22 mA",
        },
        { name: "T", line: 3, kind: "derived", value: 298.15, min: 298.15, max: 298.15, unit: "K", shown: "25 °C" },
        { name: "share", line: 4, kind: "derived", value: 0.05, min: 0.05, max: 0.05, unit: "1", shown: "5 %" },
        { name: "n", line: 5, kind: "derived", value: 3, min: 3, max: 3, unit: "LED", shown: "3 LED" },
        {
          name: "x",
          line: 6,
          kind: "chosen",
          value: 0.0062,
          min: 0.0061,
          max: 0.0063,
          unit: "V",
          shown: "6.1 .. 6.2 .. 6.3 mV",
        },
        { name: "g", line: 7, kind: "assumed", value: 2000, min: 1000, max: 3000, unit: "Ω", shown: "1 .. 2 .. 3 kΩ" },
        { name: "o", line: 8, kind: "over", value: 1.5, min: 1, max: 2, unit: "V", shown: "1 .. 1.5 .. 2 V" },
        { name: "boards", line: 9, kind: "order", value: 5, min: 5, max: 5, unit: "1", shown: "5" },
        { name: "x", line: 10, kind: "measured", value: 0.006, min: 0.006, max: 0.006, unit: "V", shown: "6 mV" },
      ],
    ));
  it("has a record for each member of a list, and no number where there is none", () => {
    assert.deepEqual(
      record("x = [1, 2] * 1 V").values.map(({ name, value }) => [name, value]),
      [
        ["x[1]", 1],
        ["x[2]", 2],
      ],
    );
    assert.deepEqual(record("x = 1 / (0 V)").values, [{ name: "x", line: 1, kind: "derived", unit: "1/V", shown: "" }]);
  });
  it("rounds to the digits that count", () => assert.equal(record("x = 0.1 + 0.2").values[0].value, 0.3));
  it("has the rules with what is to spare", () =>
    assert.deepEqual(
      record(
        "given a = 1 .. 3 V\nmust a <= 4 V # why\nshould a >= 2 V and   # because\n    a < 5 V\nmust a = 2 V\nmust b > 1",
      ).rules,
      [
        { line: 2, word: "must", condition: "a <= 4 V", state: "holds", spare: 0.25 },
        { line: 3, word: "should", condition: "a >= 2 V and a < 5 V", state: "failsAtLimits" },
        { line: 5, word: "must", condition: "a = 2 V", state: "failsAtLimits" },
        { line: 6, word: "must", condition: "b > 1", state: "undecided" },
      ],
    ));
  it("has the findings, lines and columns from 1", () => {
    const { findings } = record("a = 2 m\nb = a + 1 s");
    const [{ code, severity, line, column, message }] = findings;
    assert.deepEqual(
      { code, severity, line, column },
      { code: "unit.mismatch", severity: "error", line: 2, column: 13 },
    );
    assert.notEqual(message, "");
  });
  it("is plain JSON", () => {
    const plain = record("x = 1 / 0\ny = ln(0 - 1)\nz = 10^400\nmust x > 1");
    assert.deepEqual(JSON.parse(JSON.stringify(plain)), plain);
  });
  it("is empty of a note that is not held", () =>
    assert.deepEqual(holding({}).record("n"), { path: "n", values: [], rules: [], findings: [], openItems: [] }));
});

describe("the summary of a note", () => {
  const summary = (text: string) => holding({ n: text }).summary("n");
  it("counts rules, guesses, findings and open items", () => {
    const found = summary(
      note(`assume a = 1 .. 3 V
assume b = 2 V from "sheet"
assume c = 4 V
measured c = 4 V instead
must a + b + c <= 20 V
must a <= 2.5 V
must a <= 0.5 V
should nothing > 1
`) + "\n- [ ] one\n- [x] two\n",
    );
    assert.deepEqual([found.hold, found.failAtLimits, found.fail, found.undecided], [1, 1, 1, 1]);
    assert.deepEqual([found.guesses, found.openItems, found.isGood], [1, 1, false]);
    assert.ok(found.errors >= 2);
    assert.equal(found.text, "2 fail · 1 undecided · 1 hold · 1 guess");
  });
  it("is good where every `must` holds and there is no error", () => {
    assert.equal(summary(note("assume a = 1 V\nmust a < 2 V\nshould a < 0.5 V")).isGood, true);
    assert.equal(summary(note("a = 1 V\nmust a < 2 V\nb = c")).isGood, false);
    assert.equal(summary(note("a = 1 V\nmust a < 1 V")).isGood, false);
    const later = summary(note("let a in 1 .. 2 satisfy a * a = 2\nmust a < 3"));
    assert.deepEqual([later.errors, later.undecided, later.isGood], [0, 1, false]);
  });
  it("is all zero for a note that is not held, and says nothing of an empty one", () => {
    assert.equal(summary("").text, "");
    assert.equal(holding({}).summary("n").hold, 0);
  });
});

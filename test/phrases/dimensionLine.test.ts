import assert from "node:assert/strict";
import { drawDimensionLine } from "../../src/phrases/dimensionLine";
import { quantityLine } from "../../src/phrases/quantityLine";
import { ruleLine } from "../../src/phrases/ruleLine";
import { openNotes } from "../notation";

/** Draws 10 .. 15 .. 20 V with limits, each value labelled by its number. */
function drawn(...limits: number[]): string {
  return drawDimensionLine({ low: 10, nominal: 15, high: 20, limits, label: String, unit: "V" });
}

describe("a dimension line", () => {
  it("is drawn to scale over its range", () =>
    assert.equal(
      drawn(),
      `
                ╷
├───────────────┴──────────────┤
10              15             20 V`.slice(1),
    ));

  it("has the limit's value under its stroke where there is room", () => {
    assert.match(drawn(18), /╂/);
    assert.match(drawn(18), /\n10 {14}15 {7}18 {4}20 V$/);
    assert.match(drawn(15.5), /\n10 {14}15 {13}20 V$/);
  });

  it("is shortened until limits within three widths are in view, on either side", () => {
    assert.equal(
      drawn(50),
      `
      ╷                                        ┃
├─────┴─────┤                                  ┃
10    15    20                                 50 V`.slice(1),
    );
    assert.equal(
      drawn(-20, 50),
      `
┃                       ╷                      ┃
┃                   ├───┴──┤                   ┃
-20                 10  15  20                 50 V`.slice(1),
    );
  });

  it("leaves out a limit that is out of all proportion", () => assert.equal(drawn(51, -1e9), drawn()));
});

describe("the dimension line of a rule", () => {
  const clausesOf = (text: string) => {
    const { outcome } = openNotes(text).snapshot().rows.at(-1)!;
    return outcome.kind === "rule" ? outcome.clauses : [];
  };

  it("shows a limit that lies outside, in the unit of the range", () => {
    const [clause] = clausesOf("    U = 3 V .. 5 V\n    must U <= 9000 mV\n");
    assert.match(ruleLine(clause)!.drawing, /\n3 +4 +5 +9 V$/);
  });

  it("shows both limits of a band", () => {
    const clauses = clausesOf("    duty = 30 % .. 70 %\n    must duty inside 20 .. 80 %\n");
    assert.equal(clauses.length, 2);
    for (const clause of clauses) assert.match(ruleLine(clause, clauses)!.drawing, /\n20 +30 +50 +70 +80 %$/);
  });

  it("shows a bare ratio in the unit of its limits", () => {
    for (const rule of ["inside 20 .. 80 %", ">= 20 % and r <= 80 %", ">= least and 80 % >= r"]) {
      const clauses = clausesOf(`    least = 20 %\n    V = 3 .. 5 V\n    r = V / 8 V\n    must r ${rule}\n`);
      assert.match(ruleLine(clauses[0], clauses)!.drawing, /\n20 +37\.5 +50 +62\.5 +80 %$/, rule);
    }
  });

  it("shows a derived value in the unit of its band", () => {
    const clauses = clausesOf("    E = 2 .. 4 Wh\n    t = E / 2 W\n    must t inside 0.5 .. 1.5 h\n");
    assert.match(ruleLine(clauses[0], clauses)!.drawing, /\n0\.5 +1 +1\.5 +2 h$/);
  });

  it("leaves out what the rule says of something else", () => {
    const clauses = clausesOf("    U = 3 V .. 5 V\n    I = 3 A .. 5 A\n    must U <= 6 V and I <= 4 A\n");
    assert.match(ruleLine(clauses[0], clauses)!.drawing, /\n3 +4 +5 +6 V$/);
  });

  it("is of the quantity, too, with the limits that rules set it", () => {
    const [{ outcome }] = openNotes("    U = 3 V .. 5 V\n").snapshot().rows;
    assert.ok(outcome.kind === "quantity");
    assert.match(quantityLine(outcome.values[0], outcome, [2, 8, Infinity])!, /\n2 +3 +4 +5 +8 V$/);
  });
});

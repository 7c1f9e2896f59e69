import assert from "node:assert/strict";
import { effectOf } from "../../src/phrases/effect";
import { openNotes } from "../notation";

/** The effect of choosing another resistor, told for the rule that matters. */
describe("what follows from a change", () => {
  const note = (resistance: string, limit: string) => `
    given supply = 12 V
    choose R = ${resistance}
    I = supply / R
    P = supply * I
    must P <= ${limit}
    must I >= 1 mA
`;
  const snapshot = (text: string) => openNotes(text).program.snapshot("note.calcs.md")!;
  const effect = (limit: string) => effectOf(snapshot(note("150 Ω", limit)), snapshot(note("10 kΩ", limit)), "R");

  it("is told for the tightest rule", () => {
    assert.equal(effect("2 W"), "I 1.2 mA, all rules hold");
  });

  it("is told for the rule that failed before, however much it has to spare now", () => {
    assert.equal(effect("0.9 W"), "P 14.4 mW, all rules hold");
  });
});

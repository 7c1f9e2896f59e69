import assert from "node:assert/strict";
import { effectOf } from "../../src/phrases/effect";
import { openNotes } from "../notation";

/** What follows for a name when one text of a note becomes another. */
function effect(note: string, from: string, to: string, name: string): string {
  assert.ok(note.includes(from));
  return effectOf(openNotes(note).snapshot(), openNotes(note.replace(from, to)).snapshot(), name);
}

const NOTE = `
    given U = 12 V
    R = 500 Ω
    I = U / R
    P = U * I
    must I <= 100 mA
    must P <= 400 mW
    should U <= 15 V
`;

describe("the effect of a change", () => {
  it("is told by the side of the tightest rule that rests on it", () => {
    assert.equal(effect(NOTE, "R = 500 Ω", "R = 600 Ω", "R"), "P 240 mW, all rules hold");
  });

  it("names the rule that fails, or how many do", () => {
    assert.equal(effect(NOTE, "R = 500 Ω", "R = 300 Ω", "R"), "P 480 mW, 1 rule fails: P <= 400 mW");
    assert.equal(effect(NOTE, "R = 500 Ω", "R = 100 Ω", "R"), "P 1440 mW, 2 rules fail");
  });

  it("counts rules that fail though they do not rest on it", () => {
    assert.equal(
      effect(NOTE.replace("15 V", "11 V"), "R = 500 Ω", "R = 600 Ω", "R"),
      "P 240 mW, 1 rule fails: U <= 11 V",
    );
  });

  it("tells of a rule that is undecided", () => {
    const note = `${NOTE}    must x <= 3 V\n`;
    assert.equal(effect(note, "R = 500 Ω", "R = 600 Ω", "R"), "P 240 mW, 1 rule is undecided: x <= 3 V");
  });

  it("takes the varying side where the limit stands on the left", () => {
    assert.equal(effect("    R = 3 Ω\n    must 2 Ω <= R * 2\n", "3 Ω", "4 Ω", "R"), "R * 2 8 Ω, all rules hold");
  });

  it("is told by the first dependent where there is no rule", () => {
    assert.equal(effect("    R = 3 Ω\n    I = 6 V / R\n", "3 Ω", "4 Ω", "R"), "I 1.5 A");
  });

  it("says what stays", () => {
    assert.equal(effect("    R = 3 Ω\n    I = 6 V / max(R, 6 Ω)\n", "3 Ω", "4 Ω", "R"), "I stays 1 A");
  });

  it("is empty where nothing rests on it", () => {
    assert.equal(effect("    R = 3 Ω\n", "3 Ω", "4 Ω", "R"), "");
  });
});

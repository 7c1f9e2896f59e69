import assert from "node:assert/strict";
import { valueText } from "../../src/phrases/value";
import { openNotes } from "../notation";

/** A letter code brings its unit, and the display chooses the prefix. */
describe("a letter code", () => {
  for (const [code, shown] of [
    ["4n7", "4.7 nF"],
    ["4k7", "4.7 kΩ"],
    ["10k", "10 kΩ"],
    ["4k7J", "4.46 .. 4.7 .. 4.93 kΩ"],
    ["4k7 ± 1 %", "4.653 .. 4.7 .. 4.747 kΩ"],
    ["4u7 H", "4.7 µH"],
  ]) {
    it(`${code} is ${shown}`, () => {
      const { rows } = openNotes(`    x = ${code}\n`).program.snapshot("note.calcs.md")!;
      const [{ outcome }] = rows;
      assert.ok(outcome.kind === "quantity");
      assert.equal(valueText(outcome), shown);
    });
  }
});

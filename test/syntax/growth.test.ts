import assert from "node:assert/strict";
import { OpenNotes } from "../notation";

/** Statements that drive a careless reader to quadratic time: each is read, and what is wrong in it worded, within seconds. */
const HARD: Readonly<Record<string, string>> = {
  fractions: `x = 1${" + 1/2".repeat(60_000)}`,
  "bars at the place of a value": `x = ${"| ".repeat(100_000)}`,
  "digits behind a slip": `x = 3 V foo ${"1".repeat(200_000)} bar`,
  "grouped digits": `x = 1${"'000".repeat(60_000)}`,
  "numbers side by side": `x = ${"1 000 ".repeat(40_000)}`,
  "words without a sign": `${"word ".repeat(40_000)}= 3 V`,
  "a power of ten": `x = ${"1".repeat(200_000)} * 10^3 V`,
};

describe("the time that a long statement takes", () => {
  for (const [name, statement] of Object.entries(HARD))
    it(`is short for ${name}`, () => {
      const start = process.cpuUsage();
      new OpenNotes([{ path: "note.calcs.md", text: `    ${statement}\n`, marks: [] }]).findings();
      const { user, system } = process.cpuUsage(start);
      assert.ok(user + system < 5_000_000, `It took ${((user + system) / 1e6).toFixed(1)} s.`);
    });
});

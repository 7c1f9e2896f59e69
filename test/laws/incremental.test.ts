import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { howMany } from "../howMany";
import { Desk, step, stepWriting, type Step } from "./editing";
import { file, fileLine, line, note } from "./generatedNotes";
import { pieceLine, pieceNote } from "./generatedPieces";
import { networkLine, networkNote } from "./generatedNetworks";
import { plainProgram } from "./plain";

const steps = fc.array(step, { minLength: 1, maxLength: 14 });

describe("the settled snapshot after any edits", () => {
  it("is that of the final text from scratch: generated notes that use each other", () => {
    const notes = fc.record({ "a.calcs.md": note, "b.calcs.md": note, "c.calcs.md": note });
    fc.assert(fc.property(notes, steps, holdsAfter), { numRuns: howMany(2000) });
  });

  it("is that of the final text from scratch: further pieces, exact ends, and inputs that are one variable", () => {
    const taken = fc.array(stepWriting(pieceLine), { minLength: 1, maxLength: 14 });
    const notes = fc.record({ "a.calcs.md": pieceNote });
    fc.assert(fc.property(notes, taken, holdsAfter), { numRuns: howMany(2000) });
  });

  it("is that of the final text from scratch: notes that use a file, and the file", () => {
    const user = note.map((text) => `    use "t.csv" as t\n    items LED\n${text}`);
    const notes = fc.record({ "a.calcs.md": user, "t.csv": file, "b.calcs.md": user });
    const taken = fc.array(stepWriting(fc.oneof(line, fileLine)), { minLength: 1, maxLength: 14 });
    fc.assert(fc.property(notes, taken, holdsAfter), { numRuns: howMany(1000) });
  });

  it("is that of the final text from scratch: networks", () => {
    const taken = fc.array(stepWriting(networkLine), { minLength: 1, maxLength: 14 });
    const notes = fc.record({ "a.calcs.md": networkNote });
    fc.assert(fc.property(notes, taken, holdsAfter), { numRuns: howMany(1000) });
  });

  it("is that of the final text from scratch: the samples", () => {
    const samples = readSamples();
    const first = fc.constantFrom(...Object.keys(samples));
    fc.assert(
      fc.property(first, steps, (path, taken) => holdsAfter({ [path]: samples[path], ...samples }, taken)),
      { numRuns: howMany(600) },
    );
  });
});

function holdsAfter(texts: Record<string, string>, taken: readonly Step[]): void {
  const desk = new Desk(texts);
  for (const each of taken) desk.take(each);
  desk.load();
  assert.deepEqual(plainProgram(desk.program), plainProgram(desk.afresh()));
}

/** All in one folder, so that those which use each other find each other. */
function readSamples(): Record<string, string> {
  const root = join(__dirname, "../../samples");
  const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((path) =>
    /\.(calcs\.md|csv)$/.test(path),
  );
  assert.ok(files.length >= 3, "There are samples to edit.");
  return Object.fromEntries(files.map((path) => [path.replaceAll("\\", "/"), readFileSync(join(root, path), "utf8")]));
}

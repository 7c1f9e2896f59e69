import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { writtenChapters } from "../handbook/chapters";
import { OpenNotes } from "../notation";
import { coverageTables, publishedChapters, uncheckedFunctions, type HandbookCase } from "./handbookCases";
import { DEVELOPERS, sectionOfCoverage } from "./writeCoverage";

/** What a note that has only this rule says of it: nothing where the value is as published. */
function told({ call, expected, tolerance }: HandbookCase): readonly string[] {
  const notes = new OpenNotes([
    { path: "note.calcs.md", text: `    must ${call} inside ${expected} ± ${tolerance}\n`, marks: [] },
  ]);
  const [{ outcome }] = notes.snapshot().rows;
  const said = notes.findings().map(({ message }) => message);
  return outcome.kind === "rule" && outcome.state === "holds" ? said : [...said, "It does not hold."];
}

describe("published values of the handbook", () => {
  for (const { chapter, cases } of publishedChapters()) {
    describe(chapter, () => {
      for (const each of cases) {
        const memory = each.fromMemory ? ", from memory" : "";
        it(`${each.call} is ${each.expected} (${each.source}${memory})`, () => assert.deepEqual(told(each), []));
      }
    });
  }

  it("fail where the value is off", () => {
    const off = { call: "db.of_power(0.5)", expected: "-3.1", tolerance: "0.01", source: "none", fromMemory: true };
    assert.ok(told(off).length > 0);
    assert.ok(told({ ...off, call: "db.of_nothing(0.5)" }).length > 0);
  });

  for (const chapter of writtenChapters())
    it(`check every function of ${chapter}`, () => assert.deepEqual(uncheckedFunctions(chapter), []));

  it("are listed in DEVELOPERS.md: which function by which source", () => {
    const { tables } = sectionOfCoverage(readFileSync(DEVELOPERS, "utf8"));
    const advice = "The tables are written by: npx tsx test/published/writeCoverage.ts";
    assert.equal(tables, coverageTables(), advice);
  });
});

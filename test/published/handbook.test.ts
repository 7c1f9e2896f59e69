import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { writtenChapters } from "../handbook/chapters";
import { functionsOf } from "../handbook/openChapter";
import { OpenNotes } from "../notation";

/** A published value of a function of the handbook. */
interface Case {
  /** As a note calls it: `copper.trace_width(1 A, 10 K, 35 µm)`. */
  readonly call: string;
  /** As a note writes it: `0.30 mm`. */
  readonly expected: string;
  /** `1 %`, or in the unit of the value. */
  readonly tolerance: string;
  /** Standard and clause, or textbook. */
  readonly source: string;
  /** The figure was not read in its source. */
  readonly fromMemory: boolean;
}

interface Published {
  readonly chapter: string;
  readonly cases: readonly Case[];
}

const FOLDER = join(__dirname, "handbook");

function published(): readonly Published[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(".json"))
    .sort()
    .map((file) => JSON.parse(readFileSync(join(FOLDER, file), "utf8")) as Published);
}

/** What a note that has only this rule says of it: nothing where the value is as published. */
function told({ call, expected, tolerance }: Case): readonly string[] {
  const notes = new OpenNotes([
    { path: "note.calcs.md", text: `    must ${call} inside ${expected} ± ${tolerance}\n`, marks: [] },
  ]);
  const [{ outcome }] = notes.snapshot().rows;
  const said = notes.findings().map(({ message }) => message);
  return outcome.kind === "rule" && outcome.state === "holds" ? said : [...said, "It does not hold."];
}

describe("published values of the handbook", () => {
  for (const { chapter, cases } of published()) {
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

  for (const chapter of writtenChapters()) {
    it(`check every function of ${chapter}`, () => {
      const calls = published().flatMap(({ cases }) => cases.map(({ call }) => call));
      const unchecked = functionsOf(chapter).filter((name) => !calls.some((call) => isCallOf(call, chapter, name)));
      assert.deepEqual(unchecked, []);
    });
  }
});

function isCallOf(call: string, chapter: string, name: string): boolean {
  return call.includes(`${chapter}.${name}(`);
}

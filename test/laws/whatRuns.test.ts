import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { difference } from "../../src/text/edit";
import { howMany } from "../howMany";
import { note } from "./generatedNotes";
import { plainProgram } from "./plain";

const PATH = "note.calcs.md";

/** A note that tells what an edit compiled and ran. */
class Watched {
  readonly program = new Program(WHOLE_PARTS);
  private text: string;

  constructor(text: string) {
    this.text = text;
    this.program.setText(PATH, text);
    this.program.settle();
  }

  /** Replaces one passage by another; the names of the statements that were compiled, and of those that were run. */
  replace(before: string, after: string): { compiled: string[]; ran: string[] } {
    assert.equal(this.text.split(before).length, 2, `"${before}" stands in the note once`);
    const changed = this.text.replace(before, after);
    const log = { compiled: [] as string[], run: [] as string[] };
    this.program.log = log;
    this.program.edit(PATH, difference(this.text, changed));
    this.program.settle();
    this.program.log = undefined;
    this.text = changed;
    return { compiled: log.compiled.map(beginning), ran: log.run.map(beginning) };
  }

  get statements(): readonly unknown[] {
    return this.program.snapshot(PATH)!.rows.map(({ statement }) => statement);
  }
}

const beginning = (statement: string) => statement.split(/[ (]/)[statement.startsWith("must") ? 1 : 0];

const NOTE = `
    x = 3 V ± 5 %
    y = 2 * x
    z = y + 1 V
    must z < 9 V

Prose, and another block.

    a = 5
    b = max(a, 10)
    c = b + 1
    f(u) = u * a
    d = f(2)
    e = d + 1
`;

describe("what an edit compiles and runs", () => {
  const edits: readonly [what: string, before: string, after: string, compiled: string[], ran: string[]][] = [
    ["prose: nothing", "Prose, and", "Prose and", [], []],
    ["a comment: its statement, and nothing that rests on it", "3 V ± 5 %", "3 V ± 5 %  # so", ["x"], ["x"]],
    ["a value: its statement, and runs what rests on it", "± 5 %", "± 4 %", ["x"], ["x", "y", "z", "z"]],
    ["a value behind which it comes out equal: no further", "a = 5", "a = 6", ["a"], ["a", "b", "f", "d", "e"]],
    ["an expression with the same value: itself", "b = max(a, 10)", "b = max(10, a)", ["b"], ["b"]],
    ["another unit of the same value: itself and who shows it", "c = b + 1", "c = 1 + b", ["c"], ["c"]],
    [
      "a dimension: all whose type rests on it",
      "x = 3 V ± 5 %",
      "x = 3 A ± 5 %",
      ["x", "y", "z", "z"],
      ["x", "y", "z", "z"],
    ],
    ["a function's body: itself and its calls", "u * a", "u * a * 2", ["f", "d"], ["f", "d", "e"]],
    ["a line that is new and that nobody names: itself", "    a = 5", "    a = 5\n    w = a", ["w"], ["w"]],
  ];
  for (const [what, before, after, compiled, ran] of edits) {
    it(what, () => {
      const watched = new Watched(NOTE);
      const { compiled: nowCompiled, ran: nowRan } = watched.replace(before, after);
      assert.deepEqual(nowCompiled.sort(), [...compiled].sort(), "compiled");
      assert.deepEqual(nowRan.sort(), [...ran].sort(), "ran");
    });
  }

  it("a name that comes and goes: those who mention it", () => {
    const watched = new Watched(`${NOTE}    g = h + 1\n`);
    assert.deepEqual(watched.replace("    a = 5", "    a = 5\n    h = 1").compiled.sort(), ["g", "h"]);
    assert.deepEqual(watched.replace("\n    h = 1", "").compiled, ["g"]);
  });

  it("leaves the statements of other lines unparsed, in the block and out of it", () => {
    const watched = new Watched(NOTE);
    const before = watched.statements;
    watched.replace("z = y + 1 V", "z = y + 2 V");
    const after = watched.statements;
    assert.equal(after.length, before.length);
    const fresh = after.flatMap((statement, i) => (statement === before[i] ? [] : [i]));
    assert.deepEqual(fresh, [2]);
  });

  it("gives the same snapshot, outcomes included, where nothing changed", () => {
    const watched = new Watched(NOTE);
    const before = watched.program.snapshot(PATH)!;
    watched.program.settle();
    assert.equal(watched.program.snapshot(PATH), before);
    watched.replace("a = 5", "a = 6");
    const after = watched.program.snapshot(PATH)!;
    assert.notEqual(after, before);
    for (const name of ["x", "y", "z", "b", "c"])
      assert.equal(after.find(name)!.outcome, before.find(name)!.outcome, name);
  });
});

describe("looking at what would be", () => {
  it("leaves all notes as they were", () => {
    const look = fc.tuple(fc.nat(), fc.nat(), fc.constantFrom("", "1", "\n", "    a = 3 V ± 1 %\n", "#", "(", "x"));
    fc.assert(
      fc.property(note, note, fc.array(look, { minLength: 1, maxLength: 4 }), (first, second, looks) => {
        const program = new Program(WHOLE_PARTS);
        program.setText("a.calcs.md", first);
        program.setText("b.calcs.md", second);
        program.settle();
        const before = plainProgram(program);
        for (const [at, length, text] of looks) {
          const start = at % (first.length + 1);
          const end = Math.min(first.length, start + (length % 20));
          const seen = program.whatIf("a.calcs.md", [{ span: { start, end }, text }], () => plainProgram(program));
          const fresh = new Program(WHOLE_PARTS);
          fresh.setText("a.calcs.md", first.slice(0, start) + text + first.slice(end));
          fresh.setText("b.calcs.md", second);
          fresh.settle();
          assert.deepEqual(seen, plainProgram(fresh), "what is seen is what would be");
        }
        assert.deepEqual(plainProgram(program), before, "and all is put back");
      }),
      { numRuns: howMany(1000) },
    );
  });

  it("puts back all that was, also when the looking fails", () => {
    const text = readFileSync(join(__dirname, "../../samples/soil-probe/probe.calcs.md"), "utf8");
    const program = new Program(WHOLE_PARTS);
    program.setText(PATH, text);
    program.settle();
    const before = plainProgram(program);
    const at = text.indexOf("60 s");
    assert.throws(
      () => program.whatIf(PATH, [{ span: { start: at, end: at + 2 }, text: "90" }], () => assert.fail("looked")),
      /looked/,
    );
    assert.deepEqual(plainProgram(program), before);
  });
});

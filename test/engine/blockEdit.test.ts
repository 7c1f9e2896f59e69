import assert from "node:assert/strict";
import fc from "fast-check";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { howMany } from "../howMany";

const PATH = "n.calcs.md";

/** Lines of one block: statements, some of which go on, comments, and what ends or begins a bracket. */
const LINES = [
  "    a = 1 V",
  "    b = (2 +",
  "      3)",
  "    # a comment",
  "    f(x) = x",
  "      where x > 0",
  "    c = max(1,",
  "        2, # inside",
  "        3)",
  "      d = 4",
  "    must a > 0 V   ",
  "    e = )",
  "",
];

/** What an edit puts in: it opens, closes, breaks and indents. */
const PIECES = ["", "(", ")", "\n", "    ", " ", "#", "where ", "\n    g = 1\n", "+", "x", "\n\n", "\nprose\n\n"];

interface Change {
  readonly at: number;
  readonly removed: number;
  readonly piece: string;
}

const change = fc.record({ at: fc.nat(), removed: fc.nat(12), piece: fc.constantFrom(...PIECES) });

describe("an edit inside a long calculation block", () => {
  it("leaves the statements that the text has from scratch", () => {
    const texts = fc.array(fc.constantFrom(...LINES), { minLength: 1, maxLength: 14 });
    fc.assert(
      fc.property(texts, fc.array(change, { minLength: 1, maxLength: 5 }), (lines, changes) => {
        const program = new Program(WHOLE_PARTS);
        let text = `Prose\n\n${lines.join("\n")}\n`;
        program.setText(PATH, text);
        program.update();
        for (const each of changes) {
          text = edit(program, text, each);
          program.update();
          const fresh = new Program(WHOLE_PARTS);
          fresh.setText(PATH, text);
          fresh.update();
          assert.deepEqual(statementsOf(program), statementsOf(fresh), text);
        }
      }),
      { numRuns: howMany(20_000) },
    );
  });

  it("reads anew the line and its neighbour, and compiles the line", () => {
    const program = new Program(WHOLE_PARTS);
    const lines = Array.from({ length: 200 }, (_, i) => `    q${i} = ${i} V`);
    program.setText(PATH, lines.join("\n"));
    program.settle();
    const before = [...program.notes.get(PATH)!.entries()].map(({ statement }) => statement);
    const at = lines.slice(0, 100).join("\n").length + "\n    q100 = ".length;
    program.log = { compiled: [], run: [] };
    program.edit(PATH, { span: { start: at, end: at + 3 }, text: "7" });
    program.settle();
    assert.deepEqual(program.log.compiled, ["q100 = 7 V"]);
    const after = [...program.notes.get(PATH)!.entries()].map(({ statement }) => statement);
    assert.deepEqual(
      after.flatMap((statement, i) => (statement === before[i] ? [] : [i])),
      [100],
    );
  });
});

function edit(program: Program, text: string, { at, removed, piece }: Change): string {
  const start = at % (text.length + 1);
  const end = Math.min(text.length, start + removed);
  program.edit(PATH, { span: { start, end }, text: piece });
  return text.slice(0, start) + piece + text.slice(end);
}

/** What stands in the note as the program has it, and where. */
function statementsOf(program: Program): readonly unknown[] {
  const { columns, text } = program.snapshot(PATH)!;
  const orders = [...program.notes.get(PATH)!.entries()].map(({ order }) => order);
  return columns.statements.map((statement, i) => ({
    text: statement.text,
    stands: text.startsWith(statement.text, columns.starts[i]),
    start: columns.starts[i],
    order: orders[i],
    kind: columns.outcomes[i].kind,
  }));
}

import assert from "node:assert/strict";
import fc from "fast-check";
import { scan } from "../../src/note/scan";
import { LineIndex } from "../../src/text/lineIndex";
import { howMany } from "../howMany";
import { documents } from "./documents";
import { consult, type Oracle } from "./oracle";

describe("scanning any note", () => {
  it("sees what markdown-it sees", () => {
    fc.assert(
      fc.property(documents.filter(hasNoFrontMatter), (text) => {
        const expected = consult(text);
        const { tasks, ...found } = seen(text);
        assert.deepEqual(
          { ...found, tasks: tasks.map(withoutText) },
          { ...expected, tasks: expected.tasks.map(withoutText) },
        );
      }),
      { numRuns: howMany(100_000) },
    );
  });
});

function hasNoFrontMatter(text: string): boolean {
  return !/^---[ \t]*[\r\n]/.test(text);
}

function withoutText({ line, checked }: Oracle["tasks"][number]) {
  return { line, checked };
}

/** What the scanner sees, in the terms of the oracle. */
function seen(text: string): Oracle {
  const index = new LineIndex(text);
  const found = { calculationLines: [], headings: [], tables: [], tasks: [], codeSpans: [] } as {
    -readonly [Key in keyof Oracle]: Oracle[Key][number][];
  };
  let start = 0;
  for (const block of scan(text)) {
    const lineOf = (offset: number) => index.lineAt(start + offset);
    if (block.kind === "calculation") found.calculationLines.push(...block.lines.map((span) => lineOf(span.start)));
    else {
      found.headings.push(
        ...block.headings.map(({ span, level, text }) => ({
          line: lineOf(span.start),
          level,
          text: text.replaceAll("\0", "\ufffd"),
        })),
      );
      found.tables.push(...block.tables.map((span) => ({ line: lineOf(span.start), lineAfter: lineOf(span.end) + 1 })));
      found.tasks.push(...block.tasks.map(({ span, checked, text }) => ({ line: lineOf(span.start), checked, text })));
      found.codeSpans.push(...block.codeSpans.map(({ text }) => text.replaceAll("\0", "\ufffd")));
    }
    start += block.length;
  }
  return found;
}

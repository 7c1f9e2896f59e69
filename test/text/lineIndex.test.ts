import assert from "node:assert/strict";
import fc from "fast-check";
import { LineIndex } from "../../src/text/lineIndex";
import { howMany } from "../howMany";

const breaks = fc.constantFrom("\n", "\r\n", "\r");
const linesAndBreaks = fc.array(fc.tuple(fc.stringMatching(/^[a-c \t]{0,4}$/), breaks), { maxLength: 8 });

describe("a line index", () => {
  it("counts a text without line breaks as one line", () => {
    for (const text of ["", "a = 2 V"]) {
      const index = new LineIndex(text);
      assert.equal(index.lineCount, 1);
      assert.equal(index.lineEnd(0), text.length);
      assert.deepEqual(index.positionAt(text.length), { line: 0, column: text.length });
    }
  });

  it("counts an empty line behind the last line break", () => {
    const index = new LineIndex("a\n");
    assert.equal(index.lineCount, 2);
    assert.equal(index.lineStart(1), 2);
    assert.equal(index.lineEnd(1), 2);
  });

  it("ends a line at LF, at CRLF and at a lone CR", () => {
    const index = new LineIndex("ab\ncd\r\nef\rgh\r\r\n\n\ri");
    const starts = Array.from({ length: index.lineCount }, (_, line) => index.lineStart(line));
    const ends = starts.map((_, line) => index.lineEnd(line));
    assert.deepEqual(starts, [0, 3, 7, 10, 13, 15, 16, 17]);
    assert.deepEqual(ends, [2, 5, 9, 12, 13, 15, 16, 18]);
  });

  it("places an offset inside CRLF on the line that it ends", () => {
    assert.deepEqual(new LineIndex("ab\r\ncd").positionAt(3), { line: 0, column: 3 });
  });

  it("keeps places past the end inside the line and the text", () => {
    const index = new LineIndex("ab\r\ncd\n");
    assert.equal(index.offsetAt({ line: 0, column: 99 }), 2);
    assert.equal(index.offsetAt({ line: 1, column: 99 }), 6);
    assert.equal(index.offsetAt({ line: 9, column: 0 }), 7);
  });

  it("finds the lines that a text was made of", () => {
    fc.assert(
      fc.property(linesAndBreaks, fc.stringMatching(/^[a-c]{0,3}$/), (lines, last) => {
        // An empty line that ends in LF behind a lone CR would make one CRLF of the two.
        fc.pre(
          lines.every(([text, lineBreak], at) => !(text === "" && lineBreak === "\n" && lines[at - 1]?.[1] === "\r")),
        );
        const text = lines.map((line) => line.join("")).join("") + last;
        const index = new LineIndex(text);
        const found = Array.from({ length: index.lineCount }, (_, line) =>
          text.slice(index.lineStart(line), index.lineEnd(line)),
        );
        assert.deepEqual(found, [...lines.map(([line]) => line), last]);
      }),
      { numRuns: howMany(10_000) },
    );
  });

  it("leads from an offset to its place and back", () => {
    fc.assert(
      fc.property(linesAndBreaks, fc.nat(), (lines, drawn) => {
        const text = lines.map((line) => line.join("")).join("");
        const offset = drawn % (text.length + 1);
        const index = new LineIndex(text);
        const position = index.positionAt(offset);
        assert.ok(index.lineStart(position.line) <= offset);
        assert.ok(position.line + 1 === index.lineCount || offset < index.lineStart(position.line + 1));
        if (offset <= index.lineEnd(position.line)) assert.equal(index.offsetAt(position), offset);
      }),
      { numRuns: howMany(10_000) },
    );
  });
});

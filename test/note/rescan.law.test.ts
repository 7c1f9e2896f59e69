import assert from "node:assert/strict";
import fc from "fast-check";
import type { Block } from "../../src/note/block";
import { rescan, scan } from "../../src/note/scan";
import { applyEdits, type Edit } from "../../src/text/edit";
import { howMany } from "../howMany";
import { documents } from "./documents";

/** Pieces that open, close, join and part blocks. */
const PIECES = [
  "",
  "",
  "\n",
  "\n\n",
  "\r",
  "\r\n",
  " ",
  "    ",
  "\t",
  "x",
  "- ",
  "> ",
  "```\n",
  "---\n",
  "===",
  "-->",
  "<!--",
  '"',
  "'",
  "|",
  "[",
  "]: /url",
  "...\n",
];

const edits = fc.tuple(
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.nat(6),
  fc.oneof(fc.constantFrom(...PIECES), documents),
);

describe("scanning again after an edit", () => {
  it("gives what scanning the whole text gives", () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        documents,
        documents,
        fc.array(edits, { minLength: 1, maxLength: 3 }),
        (hasFrontMatter, head, tail, drawn) => {
          let text = (hasFrontMatter ? "---\n" : "") + head + "\n" + tail;
          let blocks = scan(text);
          for (const [place, length, inserted] of drawn) {
            const start = Math.floor(place * text.length);
            const edit = { span: { start, end: Math.min(start + length, text.length) }, text: inserted };
            const after = applyEdits(text, [edit]);
            const rescanned = rescan(blocks, edit, after);
            assert.deepEqual(rescanned, scan(after));
            assertKept(blocks, edit, rescanned);
            text = after;
            blocks = rescanned;
          }
        },
      ),
      { numRuns: howMany(40_000) },
    );
  });

  it("keeps every block but the edited one and the one before", () => {
    const paragraphs = Array.from({ length: 50 }, (_, index) => `Paragraph ${index}.\n\n    a_${index} = 2 V\n\n`).join(
      "",
    );
    const before = scan(paragraphs);
    const start = paragraphs.indexOf("a_20 = 2") + 7;
    const edit = { span: { start, end: start + 1 }, text: "30" };
    const after = rescan(before, edit, applyEdits(paragraphs, [edit]));
    const changed = after.flatMap((block, index) => (block === before[index] ? [] : [index]));
    assert.equal(after.length, before.length);
    assert.deepEqual(changed, [40, 41]);
  });

  it("reads on to the end where an edit opens a fence, and back again where one closes it", () => {
    const text = "One.\n\n    a = 2 V\n\nTwo.\n\n    b = 3 V\n";
    const open = { span: { start: 6, end: 6 }, text: "```\n" };
    const opened = applyEdits(text, [open]);
    const inFence = rescan(scan(text), open, opened);
    assert.deepEqual(
      inFence.map((block) => block.kind),
      ["prose", "prose"],
    );
    const close = { span: { start: 6, end: 10 }, text: "" };
    assert.deepEqual(rescan(inFence, close, text), scan(text));
  });

  it("goes back to a definition whose title an edit far below closes", () => {
    const text = "[a]: /url\n'title\n===\none\n===\ntwo\n";
    const edit = { span: { start: text.length - 1, end: text.length - 1 }, text: "'" };
    const before = scan(text);
    assert.ok(before.length > 3, "the title is no title yet");
    const after = applyEdits(text, [edit]);
    assert.equal(scan(after).length, 1);
    assert.deepEqual(rescan(before, edit, after), scan(after));
  });

  it("goes back to the first line when its front matter closes", () => {
    const text = "---\na\n\n    b = 2\n\nc\n\nd\n";
    const edit = { span: { start: text.length, end: text.length }, text: "---\n" };
    const after = applyEdits(text, [edit]);
    assert.equal(scan(after).length, 1);
    assert.deepEqual(rescan(scan(text), edit, after), scan(after));
  });
});

/** The blocks well before the edit and those well behind it are the same objects. */
function assertKept(before: readonly Block[], edit: Edit, after: readonly Block[]): void {
  const kept = new Set(after);
  let start = 0;
  for (const [index, block] of before.entries()) {
    const next = before[index + 1];
    const touchedFrom = start + block.length + (next?.length ?? 0);
    const reach = before.slice(0, index + 2).some((above) => above.kind === "prose" && above.reach !== undefined);
    if (!reach && next !== undefined && touchedFrom < edit.span.start) assert.ok(kept.has(block));
    start += block.length;
  }
}

import type { Edit } from "../text/edit";
import type { Block } from "./block";
import { BlockScanner } from "./blockScanner";

/**
 * The top-level Markdown blocks of a note. Calculation blocks hold the lines that compute: the non-blank lines of the
 * indented code blocks whose parent is the document. Front matter is prose. Blank lines before the first block make a
 * prose block of their own. A byte order mark is a character like any other.
 */
export function scan(text: string): readonly Block[] {
  const scanner = new BlockScanner(text);
  const blocks: Block[] = [];
  for (let at = 0; at < text.length;) {
    const block = scanner.scanBlock(at);
    blocks.push(block);
    at += block.length;
  }
  return blocks;
}

/**
 * The blocks of a text after an edit, equal to `scan(text)`. It scans from the block before the one that the edit
 * touches, or from further above where that had looked so far, until it meets a boundary of the old blocks behind the
 * edit. All other blocks are the same objects as before.
 * @param before the blocks of the text before the edit
 * @param edit in coordinates of the text before
 * @param text the text after
 */
export function rescan(before: readonly Block[], edit: Edit, text: string): readonly Block[] {
  const first = firstAffected(before, edit.span.start);
  const shift = edit.text.length - (edit.span.end - edit.span.start);
  const scanner = new BlockScanner(text);
  const fresh: Block[] = [];
  let at = first.start;
  let old = first.index;
  let oldStart = first.start;
  while (at < text.length) {
    const block = scanner.scanBlock(at);
    fresh.push(block);
    at += block.length;
    while (old < before.length && (oldStart < edit.span.end || oldStart + shift < at)) oldStart += before[old++].length;
    // What begins a text could have been front matter, so it is looked at afresh where it no longer does.
    if (oldStart + shift === at && oldStart >= edit.span.end && oldStart > 0) break;
  }
  return [...before.slice(0, first.index), ...fresh, ...(at < text.length ? before.slice(old) : [])];
}

/** The first block that an edit at an offset can change, and where it begins. */
function firstAffected(blocks: readonly Block[], offset: number): { index: number; start: number } {
  let start = 0;
  let previousStart = 0;
  for (const [index, block] of blocks.entries()) {
    const reach = (block.kind === "prose" ? block.reach : undefined) ?? 0;
    if (start + block.length >= offset) return { index: Math.max(index - 1, 0), start: previousStart };
    if (start + reach >= offset) return { index, start };
    previousStart = start;
    start += block.length;
  }
  return { index: Math.max(blocks.length - 1, 0), start: previousStart };
}

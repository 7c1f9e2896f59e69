import type { Block, CalculationBlock } from "../note/block";
import { splitStatements } from "../syntax/split";
import type { Edit } from "../text/edit";
import type { Span } from "../text/span";
import type { BlockContent } from "./note";

/**
 * The statements of a calculation block that an edit inside it can have changed. What stands before and behind them is as it
 * was, so that an edit in a block of ten thousand lines looks at three.
 */
export interface EditedPart {
  readonly old: CalculationBlock;
  readonly block: CalculationBlock;
  /** Of the old statements, those from one to before another are to be looked at again. */
  readonly from: number;
  readonly to: number;
  /** The statements that stand there now, counted from the block. */
  readonly spans: readonly Span[];
  /** Those that stay as they are, where they are now. */
  readonly above: BlockContent;
  readonly below: BlockContent;
}

/** Where an edit was made inside one calculation block that is one still; undefined of any other edit. */
export function editedPart(
  before: readonly Block[],
  blocks: readonly Block[],
  edit: Edit,
  text: string,
  contents: ReadonlyMap<Block, BlockContent>,
): EditedPart | undefined {
  const { span } = edit;
  const shift = edit.text.length - (span.end - span.start);
  const old = blockAround(before, span.start);
  const now = blockAround(blocks, span.start);
  if (!old || !now || old.start !== now.start || old.block.kind !== "calculation" || now.block.kind !== "calculation")
    return undefined;
  const isOne = span.end < old.start + old.block.length && now.block.length === old.block.length + shift;
  const content = contents.get(old.block);
  if (!isOne || !content) return undefined;
  const within = { span: { start: span.start - old.start, end: span.end - old.start }, text: edit.text };
  const part = partAround(content, within, now.block, text.slice(now.start, now.start + now.block.length));
  const { starts, entries } = content;
  const above = { starts: starts.slice(0, part.from), entries: entries.slice(0, part.from) };
  const below = { starts: starts.slice(part.to).map((start) => start + shift), entries: entries.slice(part.to) };
  return { ...part, old: old.block, block: now.block, above, below };
}

/** What a block holds whose edited part has these statements. */
export function joined(
  { above, below }: EditedPart,
  starts: readonly number[],
  entries: BlockContent["entries"],
): BlockContent {
  return {
    starts: above.starts.concat(starts, below.starts),
    entries: above.entries.concat(entries, below.entries),
  };
}

/**
 * A statement goes on depending on the line behind it, so that the one before the edit is looked at too; and it is known again
 * where one begins, on a line behind the edit, at which one began before.
 */
function partAround({ starts, entries }: BlockContent, edit: Edit, block: CalculationBlock, text: string) {
  const touched = firstWhere(entries.length, (i) => starts[i] + entries[i].source.length >= edit.span.start);
  const from = Math.max(0, touched - 1);
  const line = from === 0 ? 0 : firstWhere(block.lines.length, (i) => block.lines[i].end >= starts[from]);
  const endOfEdit = edit.span.start + edit.text.length;
  const shift = edit.text.length - (edit.span.end - edit.span.start);
  let to = entries.length;
  const spans = splitStatements(text, block.lines, line, (first, start) => {
    if (first.start <= endOfEdit) return false;
    const at = firstWhere(starts.length, (i) => starts[i] >= start - shift);
    if (starts[at] !== start - shift) return false;
    to = at;
    return true;
  });
  return { from, to, spans };
}

/** The block in which an offset lies, its end excluded. */
function blockAround(blocks: readonly Block[], offset: number): { block: Block; start: number } | undefined {
  let start = 0;
  for (const block of blocks) {
    if (offset < start + block.length) return { block, start };
    start += block.length;
  }
  return undefined;
}

/** The first of so many places from which on something holds; their number where it holds nowhere. */
function firstWhere(count: number, holds: (i: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

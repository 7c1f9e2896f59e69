import type { Block } from "../note/block";
import { rescan } from "../note/scan";
import { splitStatements } from "../syntax/split";
import type { Row, Snapshot } from "./snapshot";

/** What of a statement stands before a place where someone writes; and whether that is in a comment or in quotes. */
export interface Writing {
  /** The statement's text up to the place; empty at its beginning. */
  readonly before: string;
  readonly inside: "code" | "text" | "comment";
}

/** Stands for what will be written, so that the scanner says whether it would compute. */
const PROBE = "x";

/** The statement that goes on, or would begin, with what is written at a place; undefined where that would be prose. */
export function writingAt(snapshot: Snapshot, offset: number): Writing | undefined {
  const { text, blocks } = snapshot;
  const row = snapshot.rowAt(offset);
  if (row?.cells) return inCell(snapshot, row, offset);
  const probed = text.slice(0, offset) + PROBE + text.slice(offset);
  const edit = { span: { start: offset, end: offset }, text: PROBE };
  const placed = blockAt(
    rescan(
      blocks.map(({ block }) => block),
      edit,
      probed,
    ),
    offset,
  );
  if (placed?.block.kind !== "calculation") return undefined;
  const { block, start } = placed;
  const statements = splitStatements(probed.slice(start, start + block.length), block.lines);
  const statement = statements.find(({ end }) => start + end > offset);
  if (!statement || start + statement.start > offset) return undefined;
  const before = text.slice(start + statement.start, offset);
  return { before, inside: insideOf(before) };
}

/** A formula in a cell or in a header of a data table, as if it were that of a definition. */
function inCell(snapshot: Snapshot, row: Row, offset: number): Writing | undefined {
  const place = snapshot.placeIn(row, offset);
  if (!row.cells || place === undefined) return undefined;
  const { lines } = row.cells;
  const before = lines.text.slice(lines.starts[lines.lineAt(place)], place);
  const sign = before.indexOf("=");
  if (sign < 0 || (sign > 0 && lines.lineAt(place) > 0)) return undefined;
  return { before: `x ${before.slice(sign)}`, inside: insideOf(before) };
}

function blockAt(blocks: readonly Block[], offset: number): { block: Block; start: number } | undefined {
  let start = 0;
  for (const block of blocks) {
    if (offset < start + block.length) return { block, start };
    start += block.length;
  }
  return undefined;
}

function insideOf(before: string): Writing["inside"] {
  let inside: Writing["inside"] = "code";
  for (const sign of before) {
    if (sign === "\n") inside = "code";
    else if (sign === '"' && inside !== "comment") inside = inside === "code" ? "text" : "code";
    else if (sign === "#" && inside === "code") inside = "comment";
  }
  return inside;
}

import type { Span } from "../text/span";
import { CellLines } from "./cellLines";
import { Line, LineReader } from "./line";
import { cellBounds, cellSpans, trim, trimBounds } from "./pipeTable";

/** A pipe table that is data, its cells gathered column by column. Places count from where the text of the block begins. */
export interface DataTable {
  /** From the first character of the header row to the end of the last row. */
  readonly span: Span;
  /** The cell with the table's name, then the cells that name the rows, then what {@link odd} points at. */
  readonly head: CellLines;
  /** The other columns: the header, then a line a row; empty where the row has no such cell. */
  readonly columns: readonly CellLines[];
  readonly rowCount: number;
  /** The rows that have fewer or more cells than the header. */
  readonly odd: readonly OddRow[];
}

export interface OddRow {
  readonly row: number;
  /** Its cells, the one that names it among them. */
  readonly cells: number;
  /** The line of {@link DataTable.head} that holds the cells too many, as written. */
  readonly line?: number;
}

/** A first header cell that makes a table data: a name with a colon. */
const NAMED = /^[\p{L}_][\p{L}\p{M}\p{N}_]*\s*:$/u;

/** Of the row that is read: where its cells begin and end. */
const bounds: number[] = [];

/** Reads the pipe table at a span of a block's text, if it is data: if its first header cell is a name with a colon. */
export function readDataTable(text: string, span: Span): DataTable | undefined {
  const reader = new LineReader(text);
  const line = new Line();
  reader.read(line, lineStart(text, span.start));
  const header = trimmedCells(text, line);
  if (header.length === 0 || !NAMED.test(text.slice(header[0].start, header[0].end))) return undefined;
  const head = new CellLines();
  const columns = header.slice(1).map(() => new CellLines());
  header.forEach(({ start, end }, i) => (i === 0 ? head : columns[i - 1]).add(text, start, end));
  reader.read(line, line.next);
  const odd: { row: number; cells: number; extra?: Span }[] = [];
  let row = 0;
  while (line.next < span.end) {
    reader.read(line, line.next);
    const count = cellBounds(text, line, bounds);
    for (let i = 0; i < count; i++) trimBounds(text, bounds, i);
    const end = count > 0 ? bounds[2 * count - 1] : line.end;
    for (let i = 0; i < header.length; i++) {
      const lines = i === 0 ? head : columns[i - 1];
      if (i < count) lines.add(text, bounds[2 * i], bounds[2 * i + 1]);
      else lines.add(text, end, end);
    }
    if (count > header.length) odd.push({ row, cells: count, extra: { start: bounds[2 * header.length], end } });
    else if (count < header.length) odd.push({ row, cells: count });
    row++;
  }
  const rows = odd.map(({ row: of, cells, extra }): OddRow => {
    if (!extra) return { row: of, cells };
    head.add(text, extra.start, extra.end);
    return { row: of, cells, line: head.lineCount - 1 };
  });
  return { span, head, columns, rowCount: row, odd: rows };
}

/** The cells of the header without the spaces around them. */
function trimmedCells(text: string, line: Line): readonly Span[] {
  return cellSpans(text, line).map(({ start, end }) => trim(text, start, end));
}

function lineStart(text: string, at: number): number {
  return Math.max(text.lastIndexOf("\n", at - 1), text.lastIndexOf("\r", at - 1)) + 1;
}

import type { Snapshot } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";

/** Sets the pipes of the data table at a place below each other; nothing where they are, or where no data table is. */
export function alignTableAt(snapshot: Snapshot, at: Span): readonly Fix[] {
  const head = snapshot.rows.find(({ statement, cells, start }) => {
    if (statement.kind !== "table" || !cells) return false;
    const span = tableSpan(snapshot, start);
    return span !== undefined && span.start <= at.end && at.start <= span.end;
  });
  const span = head && tableSpan(snapshot, head.start);
  if (!span) return [];
  const written = snapshot.text.slice(span.start, span.end);
  const text = aligned(written);
  return text === written ? [] : [{ title: "Align the table", edits: [{ span, text }] }];
}

/** The table that begins at an offset. */
function tableSpan({ blocks }: Snapshot, start: number): Span | undefined {
  for (const { block, start: from } of blocks) {
    if (block.kind !== "prose") continue;
    for (const table of block.tables) if (from + table.start === start) return { start, end: from + table.end };
  }
  return undefined;
}

type Side = "left" | "right" | "center" | "none";

function aligned(table: string): string {
  const lines = table.split(/(\r\n|\r|\n)/);
  const rows = lines.filter((_, i) => i % 2 === 0).map(cellsOf);
  const [header, delimiters] = rows;
  const sides = delimiters.map(sideOf);
  const widths = header.map((_, column) =>
    Math.max(3, ...rows.map((row, i) => (i === 1 ? 0 : widthOf(row[column] ?? "")))),
  );
  const set = rows.map((row, i) => {
    const cells = row.map((cell, column) => {
      if (column >= widths.length) return cell;
      return i === 1 ? rule(sides[column], widths[column]) : padded(cell, sides[column], widths[column]);
    });
    return `| ${cells.join(" | ")} |`;
  });
  return lines.map((line, i) => (i % 2 === 0 ? set[i / 2] : line)).join("");
}

/** The cells of a row without the spaces around them; a pipe behind a backslash parts none. */
function cellsOf(line: string): string[] {
  const cells = line
    .trim()
    .split(/(?<!\\)\|/)
    .map((cell) => cell.trim());
  if (cells[0] === "") cells.shift();
  if (cells.at(-1) === "") cells.pop();
  return cells;
}

function sideOf(delimiter: string): Side {
  const [isLeft, isRight] = [delimiter.startsWith(":"), delimiter.endsWith(":")];
  return isLeft && isRight ? "center" : isRight ? "right" : isLeft ? "left" : "none";
}

function rule(side: Side, width: number): string {
  switch (side) {
    case "left":
      return `:${"-".repeat(width - 1)}`;
    case "right":
      return `${"-".repeat(width - 1)}:`;
    case "center":
      return `:${"-".repeat(width - 2)}:`;
    default:
      return "-".repeat(width);
  }
}

function padded(cell: string, side: Side, width: number): string {
  const room = width - widthOf(cell);
  if (side === "right") return " ".repeat(room) + cell;
  const before = side === "center" ? Math.floor(room / 2) : 0;
  return " ".repeat(before) + cell + " ".repeat(room - before);
}

/** Columns that a text takes up, as far as one sign is one column. */
function widthOf(text: string): number {
  return [...text].length;
}

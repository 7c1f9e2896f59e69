import type { Span } from "../text/span";
import { Character, isSpace } from "./character";
import { InlineText } from "./inlineText";
import type { Line } from "./line";

/**
 * How many columns the pipe table has whose header and delimiter rows are given, or 0 if they make none (GFM 4.10, as
 * markdown-it reads it). Both lines are known to be indented by less than four columns.
 */
export function tableColumns(text: string, header: Line, delimiters: Line): number {
  const columns = delimiterColumns(text, delimiters);
  return columns > 0 && cellSpans(text, header).length === columns ? columns : 0;
}

/** The cells of a row, each with the spaces around it. A pipe behind a backslash parts none. */
export function cellSpans(text: string, row: Line): readonly Span[] {
  const count = cellBounds(text, row, bounds);
  return Array.from({ length: count }, (_, i) => ({ start: bounds[2 * i], end: bounds[2 * i + 1] }));
}

const bounds: number[] = [];

export function cellCount(text: string, row: Line): number {
  return cellBounds(text, row, bounds);
}

/** The same as numbers, start and end of each, for tables of thousands of rows; gives how many cells there are. */
export function cellBounds(text: string, row: Line, into: number[]): number {
  const { start: first, end } = trim(text, row.content, row.end);
  let count = 0;
  let start = first;
  for (let at = first; at <= end; at++) {
    if (at < end && (text.charCodeAt(at) !== Character.Pipe || (at > first && text[at - 1] === "\\"))) continue;
    // Before the first pipe and behind the last there is a cell only if something stands in it.
    const isEdge = at === start && (start === first || at === end);
    if (!isEdge) {
      into[2 * count] = start;
      into[2 * count + 1] = at;
      count++;
    }
    start = at + 1;
  }
  return count;
}

/** The inline Markdown of a cell, its escaped pipes unescaped. */
export function cellText(text: string, cell: Span): InlineText {
  const { start, end } = trim(text, cell.start, cell.end);
  const inline = new InlineText();
  let from = start;
  const inside = text.slice(start, end);
  for (let at = inside.indexOf("\\|"); at >= 0; at = inside.indexOf("\\|", at + 2)) {
    inline.add(text, from, start + at);
    from = start + at + 1;
  }
  inline.add(text, from, end);
  return inline;
}

/** How many columns the delimiter row has that the line is, or 0. */
export function delimiterColumns(text: string, line: Line): number {
  const first = text.charCodeAt(line.content);
  if (line.end - line.content < 2) return 0;
  if (first === Character.Minus && isSpace(text.charCodeAt(line.content + 1))) return 0;
  if (first !== Character.Pipe && first !== Character.Minus && first !== Character.Colon) return 0;
  for (let at = line.content; at < line.end; at++) {
    const code = text.charCodeAt(at);
    if (code !== Character.Pipe && code !== Character.Minus && code !== Character.Colon && !isSpace(code)) return 0;
  }
  const cells = text.slice(line.content, line.end).split("|");
  let columns = 0;
  for (const [index, cell] of cells.entries()) {
    const delimiter = cell.trim();
    if (delimiter === "" && (index === 0 || index === cells.length - 1)) continue;
    if (!/^:?-+:?$/.test(delimiter)) return 0;
    columns++;
  }
  return columns;
}

/** Cuts off the white space that JavaScript's `trim` does, as markdown-it has it. */
export function trim(text: string, start: number, end: number): Span {
  // Nearly always there are spaces around plain characters, and nothing has to be copied.
  let from = start;
  let to = end;
  while (from < to && isSpace(text.charCodeAt(from))) from++;
  while (from < to && isSpace(text.charCodeAt(to - 1))) to--;
  if (from === to || (isPlain(text.charCodeAt(from)) && isPlain(text.charCodeAt(to - 1))))
    return { start: from, end: to };
  const slice = text.slice(from, to);
  const first = from + slice.length - slice.trimStart().length;
  return { start: first, end: Math.max(first, from + slice.trimEnd().length) };
}

/** The same for the n-th of the bounds of cells, in place. */
export function trimBounds(text: string, of: number[], index: number): void {
  let from = of[2 * index];
  let to = of[2 * index + 1];
  while (from < to && isSpace(text.charCodeAt(from))) from++;
  while (from < to && isSpace(text.charCodeAt(to - 1))) to--;
  if (from < to && !(isPlain(text.charCodeAt(from)) && isPlain(text.charCodeAt(to - 1))))
    ({ start: from, end: to } = trim(text, from, to));
  of[2 * index] = from;
  of[2 * index + 1] = to;
}

/** Printable ASCII. */
function isPlain(code: number): boolean {
  return code > Character.Space && code < 0x7f;
}

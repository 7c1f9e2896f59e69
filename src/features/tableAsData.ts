import { Line, LineReader } from "../note/line";
import { cellSpans, trim } from "../note/pipeTable";
import type { Snapshot } from "../engine/snapshot";
import { foldName, isName, KEYWORDS } from "../syntax/name";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";

/**
 * Makes data of the table of prose at a place: its first header becomes the name of the table, and others become names where they
 * are none. Offered where a cell begins with a number, and never asked for: most tables are meant to be read.
 */
export function tableAsDataAt(snapshot: Snapshot, at: Span): readonly Fix[] {
  const table = proseTableAt(snapshot, at);
  if (!table) return [];
  const { text } = snapshot;
  const [header, , ...rows] = rowsOf(text, table);
  const [first, ...others] = header;
  const name = nameFrom(text.slice(first.start, first.end));
  const headers = others.map(({ start, end }) => text.slice(start, end));
  const hasNumbers = rows.some((cells) => cells.slice(1).some(({ start }) => /\d/.test(text[start] ?? "")));
  if (name === undefined || others.length === 0 || !hasNumbers || snapshot.find(name)) return [];
  const names = headers.map((written) => (isHeader(written) ? written : headerFrom(written)));
  if (names.includes(undefined) || new Set(names).size < names.length) return [];
  const edits = [
    { span: first, text: `${name}:` },
    ...others.flatMap((span, i) => (names[i] === headers[i] ? [] : [{ span, text: names[i]! }])),
  ];
  return [{ title: `Compute with this table, as ${name}`, edits }];
}

/** The pipe table that touches a place and is none of the data tables, which are statements. */
function proseTableAt({ blocks, rows }: Snapshot, at: Span): Span | undefined {
  for (const { block, start: from } of blocks) {
    for (const { start, end } of block.kind === "prose" ? block.tables : []) {
      const span = { start: from + start, end: from + end };
      if (span.start > at.end || at.start > span.end) continue;
      return rows.some((row) => row.cells && row.start === span.start) ? undefined : span;
    }
  }
  return undefined;
}

/** The cells of each line, without the spaces around them. */
function rowsOf(text: string, { start, end }: Span): readonly (readonly Span[])[] {
  const reader = new LineReader(text);
  const line = new Line();
  const rows: (readonly Span[])[] = [];
  for (let at = text.lastIndexOf("\n", start - 1) + 1; at < end; at = line.next) {
    reader.read(line, at);
    rows.push(cellSpans(text, line).map((cell) => trim(text, cell.start, cell.end)));
  }
  return rows;
}

function isHeader(written: string): boolean {
  return /^[^[=]+(?:\[[^\]]+\])?$/.test(written) && isName(foldName(written.replace(/\[.*$/, "").trim()));
}

/** `Price (EUR)` as `Price [EUR]`. */
function headerFrom(written: string): string | undefined {
  const [, before = written, unit] = /^(.*?)\s*[([]([^)\]]+)[)\]]$/.exec(written) ?? [];
  const name = nameFrom(before);
  return name === undefined || unit === undefined ? name : `${name} [${unit}]`;
}

/** `Unit price` as `Unit_price`; undefined where no name can be made of it. */
function nameFrom(written: string): string | undefined {
  const joined = written.replace(/[^\p{L}\p{M}\p{N}_]+/gu, "_").replace(/^_+|_+$/g, "");
  return isName(joined) && !KEYWORDS.has(joined) ? joined : undefined;
}

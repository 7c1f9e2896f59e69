import { isUnclosed, readCells, unclosedQuote } from "./cells";
import { Cursor, MOST_PROBLEMS } from "./cursor";
import { definedName } from "./parts";
import { expression } from "./expression";
import { Token } from "./lexer";
import { shownUnit } from "./definition";
import { foldName, isName } from "./name";
import { isBetween, type NetworkRole } from "./network";
import type { SyntaxProblem } from "./problem";
import type { Column, TableHead } from "./statement";
import { type Arena, Kind, NONE, type Node } from "./tree";

/** Cells as one text, one a line: where each begins and ends. */
export interface CellText {
  readonly text: string;
  readonly starts: readonly number[];
  readonly ends: readonly number[];
}

/** A row that has fewer or more cells than the header, and on which line the text has those too many. */
export interface OddCells {
  readonly row: number;
  readonly cells: number;
  readonly line?: number;
}

const cursor = new Cursor();

/** What else there is to know of a table. */
export interface HeadTraits {
  /** The rows with fewer or more cells than there are columns. */
  readonly odd: readonly OddCells[];
  readonly columns: number;
  /** It is a file: rows may have the same name, and the first of them is found by it. */
  readonly isFile?: boolean;
  /** The row of a file in which a quotation mark opens that nothing closes; −1 for the header. */
  readonly unclosed?: number;
}

/**
 * Reads the head of a data table.
 * @param source the cell `name:`, then the names of the rows, then what {@link OddCells.line} points at
 */
export function parseTableHead(arena: Arena, source: CellText, rowCount: number, traits: HeadTraits): TableHead {
  const { text, starts, ends } = source;
  const { odd, columns, isFile = false, unclosed } = traits;
  cursor.open(arena, text);
  cursor.restart(0, ends[0]);
  const name = definedName(cursor);
  const problems: SyntaxProblem[] = [...cursor.problems];
  const { tree } = cursor;
  const rows: Node[] = [];
  const seen = new Map<string, number>();
  for (let row = 0; row < rowCount; row++) {
    const [start, end] = [starts[row + 1], ends[row + 1]];
    const written = text.slice(start, end);
    const isOpen = !isFile && isUnclosed(written);
    if (isOpen) problems.push(unclosedQuote(start, end, written));
    const key = rowKey(isOpen ? `${written}"` : written);
    rows.push(tree.add(Kind.Text, start, end, NONE, 0, NaN, tree.intern(key)));
    if (key === "" || isFile) continue;
    const firstRow = seen.get(key);
    if (firstRow === undefined) seen.set(key, row);
    else problems.push({ span: { start, end }, code: "table.doubledRow", row: key, firstRow });
  }
  for (const { row, cells, line } of odd) {
    const at = line ?? row + 1;
    const span = { start: starts[at], end: ends[at] };
    problems.push({ span, code: "table.ragged", row: tree.text(rows[row]), cells, columns });
  }
  if (unclosed !== undefined) {
    const at = unclosed + 1;
    problems.unshift({ span: { start: starts[at], end: ends[at] }, code: "table.unclosedQuote" });
  }
  return { kind: "table", text, tree, problems: problems.slice(0, MOST_PROBLEMS), comment: "", name, rows };
}

/** The name of a row as it is looked up: without the quotes or backticks around it, and its spaces single. */
export function rowKey(written: string): string {
  const quoted = /^["`]([^"`]*)["`]$/.exec(written);
  return foldName((quoted ? quoted[1] : written).replace(/\s+/g, " ").trim());
}

/** What else there is to know of a column. */
export interface ColumnPlace {
  /** Other programs write it: they may put a plus before a number. */
  readonly isFile: boolean;
  /** What it is for in a table that is a network. */
  readonly role?: NetworkRole;
  /** The name with which its table would be a network. */
  readonly networkWord?: string;
}

/** Reads a column of a data table: its header on the first line, then its cells. */
export function parseColumn(arena: Arena, table: string, source: CellText, place: ColumnPlace): Column {
  const { role, isFile, networkWord } = place;
  const { text, starts, ends } = source;
  cursor.open(arena, text);
  const { name, unit, value, problems } = header(starts[0], ends[0]);
  const { tree } = cursor;
  const column = tree.kind(name) === Kind.Name ? tree.text(name) : text.slice(starts[0], ends[0]);
  const mustBe = role === "end" ? ("text" as const) : isBetween(role) ? ("values" as const) : undefined;
  const traits = {
    column,
    isComputed: value !== undefined,
    hasUnit: unit !== undefined,
    isFile,
    ...(mustBe ? { mustBe } : {}),
  };
  const cells = readCells(cursor, source, traits);
  return {
    kind: "column",
    text,
    tree,
    problems: [...problems, ...cells.problems],
    comment: "",
    table,
    name,
    ...(unit === undefined ? {} : { unit }),
    ...(value === undefined ? {} : { value }),
    isText: cells.isText,
    kinds: cells.kinds,
    cells: cells.nodes,
    ...(role === undefined ? {} : { role }),
    ...(networkWord === undefined ? {} : { networkWord }),
  };
}

/** The name that a header begins with; what cannot be one is given as it stands. */
export function headerName(written: string): string {
  return foldName(/^[^[=]*/.exec(written)![0].trim());
}

interface Header {
  readonly name: Node;
  readonly unit?: Node;
  readonly value?: Node;
  readonly problems: readonly SyntaxProblem[];
}

/** `name`, `name [unit]`, `name = expression`. */
function header(start: number, end: number): Header {
  cursor.restart(start, end);
  const { tree } = cursor;
  const written = cursor.text.slice(start, end);
  const beforeSign = /^[^[=]*/.exec(written)![0].trim();
  if (!isName(foldName(beforeSign))) return { name: unnamed(start, beforeSign), problems: cursor.problems };
  const name = tree.add(Kind.Name, start, start + beforeSign.length, NONE, 0, NaN, tree.intern(foldName(beforeSign)));
  cursor.resume(start + beforeSign.length);
  const unit = cursor.is(Token.OpenSquare) ? shownUnit(cursor) : undefined;
  let value: Node | undefined;
  if (cursor.is(Token.Equal)) {
    cursor.advance();
    value = expression(cursor);
  }
  if (!cursor.is(Token.End)) {
    cursor.unexpected("end");
    if (value !== undefined) value = cursor.spoil(value);
  }
  return {
    name,
    ...(unit === undefined ? {} : { unit }),
    ...(value === undefined ? {} : { value }),
    problems: cursor.problems,
  };
}

/** A header that is no name; one that spaces or signs part could be joined to one. */
function unnamed(start: number, written: string): Node {
  const joined = written.replace(/[^\p{L}\p{M}\p{N}_]+/gu, "_").replace(/^_+|_+$/g, "");
  const rewritten = isName(joined) ? [joined] : [];
  cursor.report(start, start + written.length, { code: "table.header", found: written, rewritten });
  return cursor.tree.add(Kind.Missing, start, start + written.length);
}

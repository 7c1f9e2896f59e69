import type { Statement } from "../syntax/statement";
import { columnName } from "./entry";
import type { ColumnOutcome } from "./outcome";
import type { Step } from "./paths";
import type { Row, Snapshot } from "./snapshot";
import { isTableFile } from "./uses";

/** What a word stands for in a data table: a column, perhaps at one of its cells, or a row. */
export type TableReferent =
  | {
      readonly kind: "column";
      readonly home: Snapshot;
      readonly row: Row;
      readonly name: string;
      readonly cell?: number;
    }
  | { readonly kind: "row"; readonly home: Snapshot; readonly row: Row; readonly name: string; readonly index: number };

/** Where a table is, to which a path leads, and which steps of the path are left. */
export interface Reached {
  readonly home: Snapshot;
  readonly head: Row;
  /** The row that a part is. */
  readonly part?: number;
  readonly left: readonly Step[];
}

/**
 * What the last of the steps behind a name stands for; undefined where they do not lead into a table.
 * @param used the note that an alias, or a chapter, stands for
 */
export function inTable(
  snapshot: Snapshot,
  base: string,
  steps: readonly Step[],
  used: (snapshot: Snapshot, alias: string) => Snapshot | undefined,
  note: (path: string) => Snapshot | undefined,
): TableReferent | undefined {
  const reached = reach(snapshot, base, steps, used, note);
  if (!reached || reached.left.length === 0) return undefined;
  const { home, head, part, left } = reached;
  const rows = rowsOf(head);
  const last = left[left.length - 1];
  const isRow = part === undefined && left.length === 1;
  const column = last.isKey ? undefined : columnOf(home, head, last.name);
  if (column) {
    const cell = cellAt(column, rows, part ?? (left.length > 1 ? left[0].name : -1));
    return {
      kind: "column",
      home,
      row: column,
      name: column.outcome.kind === "column" ? column.outcome.name : "",
      ...(cell >= 0 ? { cell } : {}),
    };
  }
  const index = isRow ? rows.indexOf(last.name) : -1;
  return index < 0 ? undefined : { kind: "row", home, row: head, name: last.name, index };
}

/** The names by which the rows of a table are found. */
export function rowsOf({ outcome }: Row): readonly string[] {
  return outcome.kind === "table" ? outcome.rows : [];
}

/** The place in a column of a row of its table, by its number or its name; −1 where it has none there. */
function cellAt({ outcome, statement }: Row, rows: readonly string[], row: number | string): number {
  const names = outcome.kind === "column" ? outcome.names : undefined;
  if (typeof row === "string") return (names ?? rows).indexOf(row);
  const solved = statement.kind === "column" ? statement.solved : undefined;
  return solved ? solved.rows.indexOf(row) : row;
}

/** The names of a column's rows: those of the table, or its own. */
export function namesOf(outcome: ColumnOutcome, rows: readonly string[]): readonly string[] {
  return outcome.names ?? rows;
}

/** The place in a column of a row of its table; −1 where it has none, as of what a network comes to at its nodes. */
export function placeInColumn(row: Row, index: number): number {
  return cellAt(row, [], index);
}

/** The columns of a table that are written in it, in the order of the text. */
export function writtenColumns(home: Snapshot, head: Row): ReturnType<typeof columnsOf> {
  return columnsOf(home, head).filter(({ statement }) => !statement.solved);
}

/** The column of a table, by the row of its head. */
export function columnOf(home: Snapshot, head: Row, name: string): Row | undefined {
  return head.outcome.kind === "table" ? home.find(columnName(head.outcome.name, name)) : undefined;
}

/** The columns of a table, in the order of the text. */
export function columnsOf(
  home: Snapshot,
  head: Row,
): readonly (Row & { readonly statement: Statement & { kind: "column" } })[] {
  return home.rows.filter(
    (row): row is Row & { readonly statement: Statement & { kind: "column" } } =>
      row.statement.kind === "column" && row.start === head.start && row.outcome.kind === "column",
  );
}

/** The table to which a path leads, through notes and parts. */
export function reach(
  snapshot: Snapshot,
  base: string,
  steps: readonly Step[],
  used: (snapshot: Snapshot, alias: string) => Snapshot | undefined,
  note: (path: string) => Snapshot | undefined,
): Reached | undefined {
  let home = snapshot;
  let row = snapshot.find(base);
  let left = steps;
  const other = used(snapshot, base);
  if (other && isTableFile(other.path)) {
    home = other;
    row = other.rows.find(({ outcome }) => outcome.kind === "table");
  } else if (other && left.length > 0) {
    home = other;
    row = other.find(left[0].name);
    left = left.slice(1);
  }
  if (row?.outcome.kind === "table") return { home, head: row, left };
  if (row?.outcome.kind !== "part") return undefined;
  const { path, table, row: name } = row.outcome;
  const place = note(path);
  const head = place?.find(table);
  return place && head && { home: place, head, part: rowsOf(head).indexOf(name), left };
}

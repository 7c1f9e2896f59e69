import { cellName } from "../engine/columns";
import type { ColumnOutcome, Extent } from "../engine/outcome";
import type { Row } from "../engine/snapshot";
import { placeInColumn, rowsOf, type columnsOf } from "../engine/tableReferent";
import type { Snapshot } from "../engine/snapshot";
import type { NetworkQuantity } from "../syntax/network";
import { CellKind } from "../syntax/statement";
import { extentText, numberText, type Showable } from "./value";

/** What a cell shows: a value with its range, a verdict, text; empty where it has none. */
export function cellText(outcome: ColumnOutcome, row: number): string {
  switch (outcome.of) {
    case "quantity": {
      const extent = outcome.values[row] as Extent | undefined;
      return extent ? extentText(extent, cellType(outcome, row)) : "";
    }
    case "truth": {
      const truth = outcome.truths?.[row];
      return truth === undefined ? "" : String(truth);
    }
    case "text":
      return outcome.texts?.[row] ?? "";
    default:
      return "";
  }
}

/** The type of a cell: that of its column, or its own. */
export function cellType(outcome: ColumnOutcome, row: number): Showable {
  return outcome.mixed?.[row] ?? outcome;
}

/** The name of a column without its table. */
export function shortName({ name, table }: ColumnOutcome): string {
  return name.slice(table.length + 1);
}

/** How a cell of a column is written in a formula. */
export function cellNameOf(outcome: ColumnOutcome, names: readonly string[], row: number): string {
  return cellName(outcome.table, names[row] ?? "", row, shortName(outcome));
}

/** `total 19.25 EUR, 2.45 EUR in M3×8 .. 16.8 EUR in bar`: the nominal values of a column of one kind; empty for others. */
export function columnTotals(outcome: ColumnOutcome, names: readonly string[]): string {
  const { values, of, mixed, point } = outcome;
  if (of !== "quantity" || mixed || values.length === 0) return "";
  const nominal = values.map((extent) => extent.nominal);
  const known = nominal.filter((x) => !Number.isNaN(x));
  if (known.length === 0) return "";
  const where = (x: number) =>
    `${numberText(x, outcome)} in ${names[nominal.indexOf(x)] || `row ${nominal.indexOf(x) + 1}`}`;
  const least = known.reduce((a, b) => Math.min(a, b));
  const most = known.reduce((a, b) => Math.max(a, b));
  const sum = known.reduce((a, b) => a + b, 0);
  const missing = values.length - known.length;
  return [
    point ? `mean ${numberText(sum / known.length, outcome)}` : `total ${numberText(sum, outcome)}`,
    least === most ? `${numberText(least, outcome)} in every row` : `from ${where(least)} to ${where(most)}`,
    missing > 0 ? `${missing} without a value` : "",
  ]
    .filter((text) => text !== "")
    .join(", ");
}

/** Whether what a cell comes to is not to be read in it: it is computed. */
export function isComputedCell({ statement }: Row, row: number): boolean {
  if (statement.kind !== "column") return false;
  const isComputed = statement.value !== undefined || statement.solved !== undefined;
  return isComputed || statement.kinds[row] === CellKind.Expression;
}

/** Whether nothing is written where a value could be. */
export function isEmptyCell({ statement }: Row, row: number): boolean {
  return statement.kind === "column" && statement.value === undefined && statement.kinds[row] === CellKind.Empty;
}

/** Of what a network comes to, what stands beside its branches; hovers have the rest. */
const BESIDE: ReadonlySet<NetworkQuantity> = new Set(["current", "drop"]);

/** What is computed in a row of a table, by column. */
export function computedInRow(
  columns: ReturnType<typeof columnsOf>,
  row: number,
): readonly { readonly column: string; readonly text: string }[] {
  return columns.flatMap((column) => {
    const { outcome } = column;
    const { solved } = column.statement;
    if (outcome.kind !== "column" || !isComputedCell(column, row)) return [];
    if (solved && !BESIDE.has(solved.quantity)) return [];
    const place = placeInColumn(column, row);
    const text = place < 0 ? "" : cellText(outcome, place);
    return text === "" ? [] : [{ column: shortName(outcome), text }];
  });
}

/** The names of the rows of the table that a column is of. */
export function rowNamesOf(home: Snapshot, outcome: ColumnOutcome): readonly string[] {
  const head = home.find(outcome.table);
  return outcome.names ?? (head ? rowsOf(head) : []);
}

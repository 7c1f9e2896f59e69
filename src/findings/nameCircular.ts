import type { NameInNote } from "../engine/problem";
import type { Snapshot } from "../engine/snapshot";
import type { Column } from "../syntax/statement";
import { fileName } from "../phrases/place";
import type { Related, Wording } from "./finding";

/** `a = b` and `b = a`. */
export const nameCircular: Wording<"name.circular"> = {
  severity: "error",
  reference:
    "A quantity depends on itself, so that none of those on the way has a value. Break the circle with a number, or solve it by hand.",
  message: ({ path, left }, { context: { snapshot } }) => {
    const [{ name }] = path;
    if (path.length <= 2) {
      const isComputed = columnAt(snapshot, path[0])?.value !== undefined;
      return `\`${name}\` depends on itself. ${isComputed ? RUNNING : "Its definition must not use it."}`;
    }
    const names = path.map((each) =>
      each.note === snapshot.path ? each.name : `${each.name} of ${noteText(each.note, path)}`,
    );
    const shown = left === 0 ? names : [...names.slice(0, -1), `${left} more`, ...names.slice(-1)];
    const columns = path.map((each) => columnAt(snapshot, each));
    const isByCells = columns.every((column) => column?.table === columns[0]?.table && column !== undefined);
    const wayOut =
      isByCells && columns.some((column) => column?.value === undefined)
        ? BY_CELLS
        : "One of these must not use the next.";
    return `\`${name}\` depends on itself: ${shown.join(" → ")}. ${wayOut}`;
  },
  related: ({ path }, { context }) =>
    path.slice(1, -1).flatMap(({ name, note }): Related[] => {
      const home = note === context.snapshot.path ? context.snapshot : context.other(note);
      const row = home?.find(name);
      const span = row && { start: row.start, end: row.start + row.statement.text.length };
      return span ? [{ path: note, span, message: `\`${name}\` is on the way.` }] : [];
    }),
};

/** A computed column that wants the row above. */
const RUNNING =
  "In its formula it means the cell of the same row. A running total adds up by a column that numbers the rows: `sum(filter(table.x, table.number <= number))`.";
/** Cells of two columns that use each other row by row. */
const BY_CELLS =
  "A column is worked out whole before another uses its cells; only cells of one column may use each other. Work one of the two out in the other's formula.";

function columnAt(snapshot: Snapshot, { name, note }: NameInNote): Column | undefined {
  const statement = note === snapshot.path ? snapshot.find(name)?.statement : undefined;
  return statement?.kind === "column" ? statement : undefined;
}

/** The name of a note's file, or its whole path where another note on the way has the same. */
function noteText(note: string, way: readonly NameInNote[]): string {
  const isAlone = way.every((each) => each.note === note || fileName(each.note) !== fileName(note));
  return isAlone ? fileName(note) : note;
}

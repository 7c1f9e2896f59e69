import type { NoteRecord } from "../service";
import { csv } from "./csv";
import { align, printable } from "./layout";
import type { OpenNotes } from "./openNotes";

type ValueRecord = NoteRecord["values"][number];

/** Name, value in the order of a data sheet, where it comes from, and its line, in columns. */
export function valuesText(open: OpenNotes): string {
  const { values } = recordOf(open);
  if (values.length === 0) return "The note has no values.\n";
  const rows = values.map(({ name, shown, kind, line }) => [name, shown || "no value", kind, `line ${line}`]);
  return `${align(rows.map((row) => row.map(printable))).join("\n")}\n`;
}

const COLUMNS = [
  "name",
  "line",
  "kind",
  "value",
  "min",
  "max",
  "unit",
  "shown",
] as const satisfies (keyof ValueRecord)[];

/** The same fields as in JSON, a header line before them; a field without a value is empty. */
export function valuesCsv(open: OpenNotes): string {
  const { values } = recordOf(open);
  return csv([COLUMNS, ...values.map((value) => COLUMNS.map((column) => value[column]))]);
}

function recordOf({ service, notes }: OpenNotes): NoteRecord {
  return service.record(notes[0].path, "brief");
}

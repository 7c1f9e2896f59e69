import type { NoteRecord, TrialCount } from "../service";
import { csv } from "./csv";
import { align, printable } from "./layout";
import { nothingComputesText } from "./nothingComputes";
import type { OpenNotes } from "./openNotes";

type ValueRecord = NoteRecord["values"][number];

/** Name, value in the order of a data sheet, where it comes from, its line, and whether the range may be too wide, in columns. */
export function valuesText(open: OpenNotes, trials?: TrialCount): string {
  const { values } = recordOf(open, trials);
  if (values.length === 0)
    return `${nothingComputesText(open.service, open.notes[0].path) || "The note has no values."}\n`;
  const rows = values.map((value) => {
    const { name, shown, kind, line, attained } = value;
    const bounds = attained === false ? ["enclosure"] : [];
    const builds = value.interval95Shown === undefined ? [] : [`95 % of builds: ${value.interval95Shown}`];
    return [name, shown || "no value", kind, `line ${line}`, ...bounds, ...builds];
  });
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

/** The mean, the standard deviation, and the ends of the interval that holds 95 % of builds. */
const COLUMNS_OF_TRIALS = ["mean", "sd", "low95", "high95"];

/** The same fields as in JSON, a header line before them; a field without a value is empty. */
export function valuesCsv(open: OpenNotes, trials?: TrialCount): string {
  const { values } = recordOf(open, trials);
  const header = trials !== undefined ? [...COLUMNS, ...COLUMNS_OF_TRIALS] : COLUMNS;
  const fields = values.map((value) => {
    const { mean, sd, interval95 = [] } = value;
    const plain = COLUMNS.map((column) => value[column]);
    return trials !== undefined ? [...plain, mean, sd, interval95[0], interval95[1]] : plain;
  });
  return csv([header, ...fields]);
}

function recordOf({ service, notes }: OpenNotes, trials: TrialCount | undefined): NoteRecord {
  return service.record(notes[0].path, "brief", trials);
}

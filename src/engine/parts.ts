import type { CsvTable } from "../note/csvTable";

/**
 * What is large and needed by few notes. It is given to a program and never imported by what uses it: in the editor it lies in
 * the second file of the bundle, which is read when the first values are shown. `wholeParts.ts` has all of it.
 */
export interface Parts {
  /** Reads a CSV file as the table of that name. */
  readonly readCsvTable: (text: string, name: string) => CsvTable;
}

import type { CsvTable } from "../note/csvTable";
import type { Column, Solved } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import type { SolvedColumn } from "./network";
import type { Operand } from "./operand";

/**
 * What is large and needed by few notes. It is given to a program and never imported by what uses it: in the editor it lies in
 * the second file of the bundle, which is read when the first values are shown. `wholeParts.ts` has all of it.
 */
export interface Parts {
  /** Reads a CSV file as the table of that name. */
  readonly readCsvTable: (text: string, name: string) => CsvTable;
  /** Compiles a column that a network comes to. */
  readonly compileSolved: (
    compiler: Compiler,
    entry: Entry,
    statement: Column & { readonly solved: Solved },
  ) => SolvedColumn;
  /** Compiles a call of `with_open`. */
  readonly compileWithOpen: (compiler: Compiler, node: Node) => Operand | undefined;
}

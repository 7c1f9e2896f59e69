import type { CsvTable } from "../note/csvTable";
import type { Column, Solution, Solved } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { conditionsOf, lowestShare } from "./conditions";
import type { Entry } from "./entry";
import type { SolvedColumn } from "./network";
import type { Operand } from "./operand";
import type { searchInSlices, trueRangeOfCone } from "./trueRange";

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
  /** Compiles a statement that solves for its name, `let`. */
  readonly compileSolution: (compiler: Compiler, statement: Solution) => Operand | undefined;
  /** Search for the range of what a cone computes. */
  readonly searchInSlices: typeof searchInSlices;
  readonly trueRangeOfCone: typeof trueRangeOfCone;
  /** The operating conditions at which shares of builds are taken, and the lowest of the shares there. */
  readonly conditionsOf: typeof conditionsOf;
  readonly lowestShare: typeof lowestShare;
  /** Compiles a call of `with_open`. */
  readonly compileWithOpen: (compiler: Compiler, node: Node) => Operand | undefined;
}

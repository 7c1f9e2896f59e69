import { Program } from "../../src/engine/program";
import { trueRange, type TrueRange, type TrueRangeOptions } from "../../src/engine/trueRange";

/** A note of these lines, one a statement; its program, settled. */
export function programOf(...lines: readonly string[]): Program {
  const program = new Program();
  program.setText(PATH, lines.map((line) => `    ${line}\n`).join(""));
  program.settle();
  return program;
}

const PATH = "note.calcs.md";

/** The true range of the quantity that the last line defines, or of the margin if it is a rule. */
export function lastRange(lines: readonly string[], options?: TrueRangeOptions): TrueRange {
  const program = programOf(...lines);
  const entry = [...program.notes.get(PATH)!.entries()].at(-1)!;
  const problems = entry.outcome?.problems.filter(({ code }) => code !== "range.undefined") ?? [];
  if (entry.results.length === 0) throw new Error(`${lines.join("; ")}: ${JSON.stringify(problems[0]?.code)}`);
  return trueRange(program, entry, entry.clauses[0] === undefined ? 0 : entry.clauses[0].slot + 2, options);
}

/** The same of one expression of inputs that are given as `name = value`. */
export function rangeOf(expression: string, inputs: readonly string[], options?: TrueRangeOptions): TrueRange {
  return lastRange([...inputs.map((input) => `given ${input}`), `result = ${expression}`], options);
}

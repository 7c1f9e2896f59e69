import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { trueRange, type InputValue, type TrueRange, type SearchOptions } from "../../src/engine/trueRange";

/** A note of these lines, one a statement; its program, settled. */
export function programOf(...lines: readonly string[]): Program {
  const program = new Program(WHOLE_PARTS);
  program.setText(PATH, lines.map((line) => `    ${line}\n`).join(""));
  program.settle();
  return program;
}

const PATH = "note.calcs.md";

/** A range, and the inputs at its ends by their names. */
export interface NamedRange extends TrueRange {
  readonly lowAt: Readonly<Record<string, number>>;
  readonly highAt: Readonly<Record<string, number>>;
}

/** The true range of the quantity that the last line defines, or of the margin if it is a rule. */
export function lastRange(lines: readonly string[], options?: SearchOptions): NamedRange {
  const program = programOf(...lines);
  const entry = [...program.notes.get(PATH)!.entries()].at(-1)!;
  if (entry.results.length === 0) {
    const problems = entry.outcome?.problems.map(({ code }) => code) ?? [];
    throw new Error(`${lines.join("; ")}: ${problems.join(", ")}`);
  }
  const result = entry.clauses[0] === undefined ? 0 : entry.clauses[0].slot + 2;
  const range = trueRange(program, entry, result, options);
  const named = (inputs: readonly InputValue[]) =>
    Object.fromEntries(inputs.map(({ slot, value }) => [program.inputPlace(slot).name, value]));
  return { ...range, lowAt: named(range.atLow), highAt: named(range.atHigh) };
}

/** The same of one expression of inputs that are given as `name = value`. */
export function rangeOf(expression: string, inputs: readonly string[], options?: SearchOptions): NamedRange {
  return lastRange([...inputs.map((input) => `given ${input}`), `result = ${expression}`], options);
}

import { coneOf, type Cone } from "../../src/engine/cone";
import type { Correlation } from "../../src/engine/correlation";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import type { Spread } from "../../src/engine/spread";

/** A formula with uncertain inputs, ready to be propagated. */
export interface Model {
  readonly cone: Cone;
  readonly names: readonly string[];
  readonly spreads: readonly Spread[];
  /** Inputs that a formula does not depend on have no place in it. */
  readonly place: (name: string) => number;
  /** Correlations of pairs by name, as `[a, b, r]`. */
  readonly correlations: (pairs: readonly (readonly [string, string, number])[]) => readonly Correlation[];
}

/** The quantity that the last line defines. Inputs are spread as stated by name, and where nothing is, as they are written. */
export function modelOf(lines: readonly string[], spreads: Readonly<Record<string, Spread>> = {}): Model {
  const program = new Program(WHOLE_PARTS);
  program.setText("note.calcs.md", lines.map((line) => `    ${line}\n`).join(""));
  program.settle();
  const entry = [...program.notes.get("note.calcs.md")!.entries()].at(-1)!;
  if (entry.results.length === 0) throw new Error(`${lines.join("; ")}: ${JSON.stringify(entry.outcome?.problems)}`);
  const cone = coneOf(program, entry, 0);
  const names = cone.inputs.map(({ slot }) => program.inputPlace(slot).name);
  const place = (name: string) => {
    const found = names.indexOf(name);
    if (found < 0) throw new Error(`${lines.join("; ")}: there is no input ${name} among ${names.join(", ")}`);
    return found;
  };
  for (const name of Object.keys(spreads)) place(name);
  return {
    cone,
    names,
    spreads: cone.inputs.map(({ slot }, i) => spreads[names[i]] ?? program.inputPlace(slot).spread),
    place,
    correlations: (pairs) => pairs.map(([a, b, r]) => ({ a: place(a), b: place(b), r })),
  };
}

export function normal(standardUncertainty: number): Spread {
  return { shape: "normal", standardUncertainty };
}

export function student(standardUncertainty: number, degreesOfFreedom: number): Spread {
  return { shape: "student", standardUncertainty, degreesOfFreedom };
}

/** A quantity without limits of its own: what it varies by is stated apart. */
export function assumed(name: string, nominal: number): string {
  return `assume ${name} = ${nominal} ± 1`;
}

import type { InputAt } from "../engine/outcome";
import { inputText, numberText } from "./value";

/**
 * Inputs with their values, those that are alike told together: `every contact 40 mΩ` where all pieces of it are at that
 * value, `3 × contact 40 mΩ` where some are, `2 × 9.8 V of 10 V ± 2 %`.
 */
export function inputTexts(inputs: readonly InputAt[], digits?: number): readonly string[] {
  const groups = new Map<string, Alike>();
  const valuesOf = new Map<string, number>();
  const inPieces = new Set<string>();
  for (const at of inputs) {
    const name = at.input.name.replace(PIECE, "");
    if (name !== at.input.name) inPieces.add(name);
    const key = `${name} ${numberText(at.value, at.input, digits)}`;
    const group = groups.get(key) ?? { first: at, name, members: 0, pieces: 0 };
    if (group.members === 0) valuesOf.set(name, (valuesOf.get(name) ?? 0) + 1);
    groups.set(key, group);
    group.members++;
    group.pieces += at.input.spread.pieces ?? 1;
  }
  return [...groups.values()].map(({ first, name, members, pieces }) => {
    if (members === 1) return inputText(first, digits);
    const one = inputText({ ...first, input: { ...first.input, name } }, digits);
    return valuesOf.get(name) === 1 && inPieces.has(name) ? `every ${one}` : `${pieces} × ${one}`;
  });
}

/** Inputs of one name, at one value. */
interface Alike {
  readonly first: InputAt;
  readonly name: string;
  members: number;
  /** What stands for several pieces counts as so many. */
  pieces: number;
}

/** What stands before the name of an input that is one of several pieces. */
const PIECE = /^(?:(?:another|each) )+/;

/** More inputs than this are not read. */
export const MOST_INPUTS = 6;

/** The first few, and how many more there are: *A, B, C, D, E, F and 3 more*. */
export function fewOf(texts: readonly string[], most = MOST_INPUTS): string {
  const left = texts.length - most;
  return left > 0 ? `${texts.slice(0, most).join(", ")} and ${left} more` : texts.join(", ");
}

import { distance } from "fastest-levenshtein";
import { NATIVES } from "./natives";
import type { Note } from "./note";

/** Names under three letters match by case only: of two short names, any is one letter from any other. */
const SHORT = 3;
/** One slip in a name of up to five letters, two in a longer one. */
const LONG = 6;

/** The one name of the right kind that an unknown name is likely to mean; none where two are as near. */
export function suggestName(note: Note, name: string, wanted: "quantity" | "function"): string | undefined {
  const candidates: string[] = [];
  for (const [declared, [entry]] of note.declared) {
    const isFunction = entry.statement.kind === "function";
    const { kind } = entry.statement;
    if (isFunction === (wanted === "function") && kind !== "items" && kind !== "column") candidates.push(declared);
  }
  if (wanted === "function") candidates.push(...NATIVES.keys());
  return nearestName(candidates, name);
}

/** The one of several words that a misspelt one is likely to mean; none where two are as near. */
export function nearestName(candidates: readonly string[], name: string): string | undefined {
  const sameLetters = candidates.filter(
    (candidate) => candidate !== name && candidate.toLowerCase() === name.toLowerCase(),
  );
  if (sameLetters.length === 1) return sameLetters[0];
  if (name.length < SHORT) return undefined;
  const most = name.length < LONG ? 1 : 2;
  const near = candidates
    .filter(
      (candidate) =>
        candidate !== name && candidate.length >= SHORT && Math.abs(candidate.length - name.length) <= most,
    )
    .map((candidate) => ({ candidate, steps: distance(candidate, name) }))
    .filter(({ steps }) => steps <= most)
    .sort((a, b) => a.steps - b.steps);
  if (near.length === 0 || (near.length > 1 && near[1].steps === near[0].steps)) return undefined;
  return near[0].candidate;
}

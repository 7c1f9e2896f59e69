import { isBuiltInUnit } from "../quantity/unit";

/**
 * The unit that a word was meant as, of those that one may write; undefined where none is likely.
 * @param suggestion what the table of units suggests.
 */
export function unitMeant(word: string, suggestion: string | undefined): string | undefined {
  if (MEANT.has(word)) return MEANT.get(word);
  const plain = withoutRemark(word);
  if (plain !== undefined) return plain;
  if (suggestion !== undefined) return suggestion;
  const [, base, exponent] = /^(.+)([23])$/.exec(word) ?? [];
  if (base !== undefined && isBuiltInUnit(base)) return `${base}^${exponent}`;
  if (word.endsWith("s") && word.length > 3 && isBuiltInUnit(word.slice(0, -1))) return word.slice(0, -1);
  return product(word);
}

/** A literal whose unit is a letter of a code: `120 R` is `120R`, `0.1u` is `0u1`, `3V3` is `3.3 V`. */
export function codeMeant(literal: string): string | undefined {
  const [, volts, tenths] = /^(\d+)V(\d+)$/.exec(literal) ?? [];
  if (volts !== undefined) return `${volts}.${tenths} V`;
  const [, whole, decimals, letter] = /^(\d+)(?:\.(\d+))?\s*([RkMmuµnp])$/.exec(literal) ?? [];
  return letter === undefined ? undefined : `${whole}${letter}${decimals ?? ""}`;
}

/** `VDC`, `Vrms`: the unit without what was attached to it, which tells nothing of the unit (ISO 80000-1, from memory). */
export function withoutRemark(word: string): string | undefined {
  const unit = /^(\p{L}{1,2})_?(?:DC|AC|dc|ac|rms|RMS|pp|PP|pk|peak|typ|max|min|eff)$/u.exec(word)?.[1];
  return unit !== undefined && isBuiltInUnit(unit) ? unit : undefined;
}

/** What a change of case leads away from: `a` is the year of the standards, and `fc` the foot-candle. */
const MEANT: ReadonlyMap<string, string | undefined> = new Map([
  ["Ohm", "ohm"],
  ["a", "year"],
  ["fc", undefined],
]);

/** `nΩm`: two units without the sign between them, where only one place for it is possible. */
function product(word: string): string | undefined {
  const places = [...word].map((_, at) => [word.slice(0, at), word.slice(at)]).slice(1);
  const possible = places.filter((parts) => parts.every(isBuiltInUnit));
  return possible.length === 1 ? possible[0].join("·") : undefined;
}

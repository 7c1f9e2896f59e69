import { isBuiltInUnit, UNIT_LIST } from "../quantity/unit";
import { USUAL_MISSPELLINGS } from "../quantity/unitTable";

/**
 * The unit that a word was meant as, of those that one may write; undefined where none is likely.
 * @param suggestion what the table of units suggests.
 */
export function unitMeant(word: string, suggestion: string | undefined): string | undefined {
  if (MEANT.has(word)) return MEANT.get(word);
  const plain = withoutRemark(word);
  if (plain !== undefined) return plain;
  const inLetters = spelledOut(word);
  if (inLetters !== undefined) return inLetters;
  if (suggestion !== undefined) return suggestion;
  const [, base, exponent] = /^(.+)([23])$/.exec(word) ?? [];
  if (base !== undefined && isBuiltInUnit(base)) return `${base}^${exponent}`;
  if (word.endsWith("s") && word.length > 3 && isBuiltInUnit(word.slice(0, -1))) return word.slice(0, -1);
  return product(word);
}

/** A literal whose unit is a letter of a code: `120 R` is `120R`, `0.1u` is `0u1`, `3V3` is `3.3 V`, `10Meg` is `10M`. */
export function codeMeant(literal: string): string | undefined {
  // `10 .. 20 k`: the letter is that of all members.
  const [, members, last] = /^([\d.\s]*\.\.)\s*\d[\d.]*\s*([RkMGmuµnp])$/.exec(literal) ?? [];
  if (members !== undefined) {
    const codes = literal.split("..").map((each) => codeMeant(each.replace(last, "").trim() + last));
    return codes.includes(undefined) ? undefined : codes.join(" .. ");
  }
  const [, volts, tenths] = /^(\d+)V(\d+)$/.exec(literal) ?? [];
  if (volts !== undefined) return `${volts}.${tenths} V`;
  const [, whole, decimals = "", letter] = /^(\d+)(?:\.(\d+))?\s*([RkMGmuµnpE]|[Mm][Ee][Gg])$/.exec(literal) ?? [];
  return letter === undefined
    ? undefined
    : `${whole}${letter.length > 1 ? "M" : letter === "E" ? "R" : letter}${decimals}`;
}

/** `VDC`, `Vrms`: the unit without what was attached to it, which tells nothing of the unit (ISO 80000-1, from memory). */
export function withoutRemark(word: string): string | undefined {
  const unit = /^(\p{L}{1,2})_?(?:DC|AC|dc|ac|rms|RMS|pp|PP|pk|peak|typ|max|min|eff)$/u.exec(word)?.[1];
  return unit !== undefined && isBuiltInUnit(unit) ? unit : undefined;
}

/** What a change of case leads away from: `a` is the year of the standards. */
const MEANT: ReadonlyMap<string, string | undefined> = new Map([
  ["Ohm", "ohm"],
  ["a", "year"],
  // A prefix that was left alone.
  ["k", undefined],
  // The newton metre, and no nanometre.
  ["Nm", "N·m"],
  ["kgs", "kg"],
  ["cc", "cm^3"],
  ["ccm", "cm^3"],
  ["sqmm", "mm^2"],
  ["kR", "kΩ"],
  ["KR", "kΩ"],
  ["MR", "MΩ"],
]);

const PREFIXES: Readonly<Record<string, string>> = {
  giga: "G",
  mega: "M",
  meg: "M",
  kilo: "k",
  kil: "k",
  milli: "m",
  micro: "µ",
  mc: "µ",
  nano: "n",
  pico: "p",
};

/** `milliamps`, `microvolt`, `kilohm`, `microV`: a prefix in letters before a unit, with its name or its sign. */
function spelledOut(word: string): string | undefined {
  for (const [letters, prefix] of Object.entries(PREFIXES)) {
    if (!word.toLowerCase().startsWith(letters)) continue;
    const unit = word.slice(letters.length);
    const singular = unit.toLowerCase().replace(/s$/, "");
    const symbol =
      UNIT_LIST.find(({ name, symbol: sign }) => name === singular || sign === unit)?.symbol ??
      USUAL_MISSPELLINGS.get(singular);
    if (symbol !== undefined && isBuiltInUnit(prefix + symbol)) return prefix + symbol;
  }
  return undefined;
}

/** `nΩm`: two units without the sign between them, where only one place for it is possible. */
function product(word: string): string | undefined {
  const places = [...word].map((_, at) => [word.slice(0, at), word.slice(at)]).slice(1);
  const possible = places.filter((parts) => parts.every(isBuiltInUnit));
  return possible.length === 1 ? possible[0].join("·") : undefined;
}

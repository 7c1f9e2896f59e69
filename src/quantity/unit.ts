import { CURRENCIES } from "./currencies";
import {
  countDimension,
  dimensionOf,
  multiply,
  power,
  productOfPowers,
  RATIO,
  unitText,
  type Dimension,
  type Powers,
} from "./dimension";
import { decimalExponent, ONE, product, rational, scaled, toDouble, wholePower, type Rational } from "./rational";
import { mathjsUnit, PREFIXES } from "./unitAlgebra";
import { UNIT_TABLE, USUAL_MISSPELLINGS, type UnitRow } from "./unitTable";

/** A unit, simple or compound, ready to read and to show numbers with. */
export interface Unit {
  /** As one would type it: `mA/LED`, `W/(m·K)`. */
  readonly text: string;
  readonly dimension: Dimension;
  /** Coherent SI units per unit, the nearest double. For a temperature scale: kelvins per degree. */
  readonly factor: number;
  /** In K: the thermodynamic temperature at 0 of a temperature scale; 0 for everything else. */
  readonly zero: number;
  /** `°C` or `°F` alone. A literal with it is a point; in a compound (`W/°C`) the degree is a difference. */
  readonly isTemperatureScale: boolean;
  /** n where the factor is exactly 10^n. */
  readonly decimal?: number;
  /** The factor before rounding; undefined where a root makes it irrational. */
  readonly exact?: Rational;
  /** {@link zero} before rounding. */
  readonly exactZero?: Rational;
  /** What it is made of, in the order it was written. */
  readonly powers: readonly UnitPower[];
  /** It is shown with whatever prefix fits the value, as a result stated in hertz is: kHz, MHz. */
  readonly anyPrefix?: boolean;
}

export interface UnitPower {
  /** `µ` of `µA`, or empty. */
  readonly prefix: string;
  /** `A` of `µA`. */
  readonly symbol: string;
  readonly exponent: number;
  readonly takesPrefix: boolean;
}

/** Why a unit could not be read, and the word it lies with. */
export type UnitTrouble =
  | { readonly kind: "unknown"; readonly name: string; readonly suggestion?: string }
  /** `kmil`: the unit takes no prefix. */
  | { readonly kind: "prefix"; readonly name: string; readonly prefix: string; readonly unit: string }
  /** `dB`: a ratio of powers or of fields, which the sign does not tell. */
  | { readonly kind: "decibel"; readonly name: string }
  /** An exponent that is no multiple of one sixth, or beyond ± {@link MAXIMUM_EXPONENT}, or for which no factor fits a double. */
  | { readonly kind: "exponent"; readonly name: string; readonly exponent: number };

/** Nobody writes a larger exponent, and exact factors grow with it. */
export const MAXIMUM_EXPONENT = 99;

/** A unit without prefix, for completion. */
export const UNIT_LIST: readonly { symbol: string; name: string; quantity: string; takesPrefix: boolean }[] =
  UNIT_TABLE.map(({ symbol, name, quantity, takesPrefix }) => ({ symbol, name, quantity, takesPrefix }));

/** One word of a unit, resolved. */
interface Atom {
  readonly prefix: string;
  readonly symbol: string;
  readonly takesPrefix: boolean;
  readonly dimension: Dimension;
  readonly exact: Rational;
  readonly exactZero?: Rational;
}

interface Part {
  readonly atom: Atom;
  readonly exponent: number;
}

/** Written exponents such as `^0.333` are taken as the sixth they round to. */
const EXPONENT_TOLERANCE = 0.003;
/** Notes use a handful of units; an editor that runs for weeks must not keep every word ever mistyped. */
const CACHE_LIMIT = 5000;

const rows = atomsOfTable();
const atomCache = new Map<string, Atom | UnitTrouble>();
const unitCache = new Map<string, Unit>();

/**
 * The unit with these factors: `20 mA/LED` asks for `mA` to the 1 and `LED` to the −1. A built-in unit is always meant
 * before a counted one of the same name, so that no note can change what `3 A` means; `items` must refuse such a name
 * (see {@link isBuiltInUnit}). A word that stands twice is multiplied.
 *
 * @param isCounted whether the note counts things of that name
 */
export function resolveUnit(
  powers: readonly { name: string; exponent: number }[],
  isCounted: (name: string) => boolean,
): Unit | UnitTrouble {
  const parts: Part[] = [];
  for (const { name, exponent } of powers) {
    const atom = resolveWord(name, isCounted);
    if ("kind" in atom) return atom;
    const sixths = Math.round(exponent * 6);
    if (!(Math.abs(exponent * 6 - sixths) <= EXPONENT_TOLERANCE * 6) || Math.abs(exponent) > MAXIMUM_EXPONENT) {
      return { kind: "exponent", name, exponent };
    }
    parts.push({ atom, exponent: sixths / 6 });
  }
  const unit = unitOfParts(parts);
  const isRepresentable = unit.factor > 0 && unit.factor < Number.POSITIVE_INFINITY;
  return isRepresentable ? unit : { kind: "exponent", ...powers.at(-1)! };
}

/**
 * The unit of words that are known to be units or counted things, such as those of a dimension. Calculations make
 * exponents that nobody would type, so there is no limit to them here.
 *
 * @throws where a word is a misspelt or wrongly prefixed unit
 */
export function unitOfPowers(powers: Powers): Unit {
  return unitOfParts(
    powers.map(([name, exponent]) => {
      const atom = resolveWord(name, () => true);
      if ("kind" in atom) throw new Error(describeUnitTrouble(atom));
      return { atom, exponent };
    }),
  );
}

function unitOfParts(parts: readonly Part[]): Unit {
  const key = parts.map(({ atom, exponent }) => `${atom.prefix}|${atom.symbol}^${exponent}`).join("·");
  let unit = unitCache.get(key);
  if (unit === undefined) {
    unit = combine(parts);
    if (unitCache.size >= CACHE_LIMIT) unitCache.clear();
    unitCache.set(key, unit);
  }
  return unit;
}

/** Whether a word is a unit everywhere: one of the table, prefixed or not, or a currency. Such a word cannot be counted. */
export function isBuiltInUnit(name: string): boolean {
  return !("kind" in resolveBuiltIn(name));
}

export function isUnit(result: Unit | UnitTrouble): result is Unit {
  return !("kind" in result);
}

/** A sentence for a person: what is wrong with the unit, and the way out. */
export function describeUnitTrouble(trouble: UnitTrouble): string {
  switch (trouble.kind) {
    case "unknown":
      return `\`${trouble.name}\` is no unit.` + (trouble.suggestion ? ` Did you mean \`${trouble.suggestion}\`?` : "");
    case "prefix":
      return `\`${trouble.unit}\` takes no prefix, so \`${trouble.name}\` is no unit. Write a power of ten in the number.`;
    case "decibel":
      return `\`${trouble.name}\` is no unit, because decibels of powers and of voltages are different ratios.`;
    case "exponent":
      return `\`${trouble.name}\` cannot have the exponent ${trouble.exponent}. Exponents are multiples of 1/6, and the unit must fit a number.`;
  }
}

function resolveWord(word: string, isCounted: (name: string) => boolean): Atom | UnitTrouble {
  const builtIn = resolveBuiltIn(word);
  if (!("kind" in builtIn)) return builtIn;
  return isCounted(word) ? ownUnit(word) : builtIn;
}

/** An exact name beats prefix and name: `min`, `ft`, `cd`, `Pa`, `mil`. */
function resolveBuiltIn(word: string): Atom | UnitTrouble {
  let found = atomCache.get(word);
  if (found === undefined) {
    const name = word.normalize("NFC").replace(/^[uμ]/, "µ");
    found = rows.get(word.normalize("NFC")) ?? prefixed(name) ?? currency(name) ?? trouble(word, name);
    if (atomCache.size >= CACHE_LIMIT) atomCache.clear();
    atomCache.set(word, found);
  }
  return found;
}

function prefixed(name: string): Atom | undefined {
  for (const [prefix, row] of splits(name)) {
    if (!row.takesPrefix) continue;
    return { ...row, prefix, exact: product(row.exact, scaled(1n, PREFIXES.get(prefix)!)) };
  }
  return undefined;
}

/** Every way to read a word as a prefix and a unit of the table. */
function* splits(name: string): Iterable<[prefix: string, unit: Atom]> {
  for (const length of [1, 2]) {
    const row = rows.get(name.slice(length));
    if (row !== undefined && PREFIXES.has(name.slice(0, length))) yield [name.slice(0, length), row];
  }
}

function currency(name: string): Atom | undefined {
  return CURRENCIES.has(name) ? ownUnit(name) : undefined;
}

function ownUnit(name: string): Atom {
  return { prefix: "", symbol: name, takesPrefix: false, dimension: countDimension(name), exact: ONE };
}

function trouble(word: string, name: string): UnitTrouble {
  if (/^dB(m|V|u|µ|W|i|d|c|A|C|Z|FS|SPL|mV|[uµμ]V)?$|^B$|^Np$/.test(word)) return { kind: "decibel", name: word };
  for (const [prefix, { symbol }] of splits(name)) return { kind: "prefix", name: word, prefix, unit: symbol };
  const suggestion = USUAL_MISSPELLINGS.get(word) ?? byName(word) ?? byCase(name);
  return suggestion === undefined ? { kind: "unknown", name: word } : { kind: "unknown", name: word, suggestion };
}

/** `volt` and `Volts` for V. */
function byName(word: string): string | undefined {
  const singular = word.toLowerCase().replace(/s$/, "");
  return UNIT_TABLE.find(({ name }) => name === singular || name === word.toLowerCase())?.symbol;
}

/** A unit that differs by case only, if one alone does; where the first letter decides (`ma` of mA and MA), the one that keeps it. */
function byCase(name: string): string | undefined {
  const candidates = (wordsByLowerCase ??= groupByLowerCase()).get(name.toLowerCase()) ?? [];
  return candidates.length > 1 ? candidates.find((candidate) => candidate[0] === name[0]) : candidates[0];
}

/** Every word that is a unit of the table, with and without prefix; made when the first word is mistyped. */
let wordsByLowerCase: ReadonlyMap<string, readonly string[]> | undefined;

function groupByLowerCase(): ReadonlyMap<string, readonly string[]> {
  const groups = new Map<string, string[]>();
  for (const [word, { takesPrefix }] of rows) {
    for (const prefix of ["", ...(takesPrefix ? PREFIXES.keys() : [])]) {
      const key = (prefix + word).toLowerCase();
      groups.set(key, [...(groups.get(key) ?? []), prefix + word]);
    }
  }
  return groups;
}

function combine(parts: readonly Part[]): Unit {
  const dimension = productOfPowers(parts.map(({ atom, exponent }) => [atom.dimension, exponent] as const));
  const powers = parts.map(({ atom: { prefix, symbol, takesPrefix }, exponent }) => ({
    prefix,
    symbol,
    exponent,
    takesPrefix,
  }));
  const text = unitText(powers.map(({ prefix, symbol, exponent }) => [prefix + symbol, exponent]));
  // Under a common root all exponents are whole, so that √kHz·√kHz is rounded once and √(mm^2) not at all.
  const root = [1, 2, 3, 6].find((n) =>
    parts.every(({ exponent }) => Number.isInteger(Math.round(exponent * n * 6) / 6)),
  )!;
  const radicand = parts.reduce(
    (total, { atom, exponent }) => product(total, wholePower(atom.exact, Math.round(exponent * root))),
    ONE,
  );
  const decimal = decimalExponent(radicand);
  const isTenPower = decimal !== undefined && decimal % root === 0;
  const exact = root === 1 ? radicand : isTenPower ? scaled(1n, decimal / root) : undefined;
  const zero = parts.length === 1 && parts[0].exponent === 1 ? parts[0].atom.exactZero : undefined;
  return {
    text,
    dimension,
    factor: exact ? toDouble(exact) : nthRoot(toDouble(radicand), root),
    zero: zero ? toDouble(zero) : 0,
    isTemperatureScale: zero !== undefined,
    ...(isTenPower ? { decimal: decimal / root } : {}),
    exact,
    exactZero: zero,
    powers,
  };
}

function nthRoot(value: number, root: number): number {
  if (root === 2) return Math.sqrt(value);
  return root === 3 ? Math.cbrt(value) : Math.sqrt(Math.cbrt(value));
}

/** The rows of the table by every spelling, resolved from mathjs or from the rows above. */
function atomsOfTable(): ReadonlyMap<string, Atom> {
  const atoms = new Map<string, Atom>();
  for (const row of UNIT_TABLE) {
    const atom = atomOfRow(row, atoms);
    for (const spelling of [row.symbol, ...(row.aliases ?? [])]) atoms.set(spelling, atom);
  }
  return atoms;
}

function atomOfRow({ symbol, takesPrefix, is, zero }: UnitRow, above: ReadonlyMap<string, Atom>): Atom {
  if (symbol === "sr") return { ...ownUnit(symbol), takesPrefix };
  let dimension: Dimension;
  let exact: Rational;
  if (typeof is === "string") {
    const { factor, exponents } = mathjsUnit(is);
    [dimension, exact] = [dimensionOf(exponents), rational(factor)];
  } else {
    [dimension, exact] = [RATIO, rational(is.factor)];
    for (const [name, exponent] of is.of) {
      const part = above.get(name)!;
      dimension = multiply(dimension, power(part.dimension, exponent)!);
      exact = product(exact, wholePower(part.exact, exponent));
    }
  }
  const atom: Atom = { prefix: "", symbol, takesPrefix, dimension, exact };
  return zero === undefined ? atom : { ...atom, exactZero: product(rational(zero), exact) };
}

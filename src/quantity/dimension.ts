import { CURRENCIES } from "./currencies";
import { BASE_QUANTITIES, COMPOUND_QUANTITIES, NAMED_UNITS, type Quantity } from "./quantities";
import { BASE_SYMBOLS, divideExponents, multiplyExponents, powerOfExponents, type Exponents } from "./unitAlgebra";

/**
 * The type of a quantity: exponents of the base units, worked out by mathjs's algebra, and exponents of our own for what
 * is counted, for currencies and for the steradian. All exponents are multiples of one sixth.
 *
 * Dimensions are interned: two are equal exactly where they are the same object, and where their keys are equal.
 */
export interface Dimension {
  readonly id: number;
  /** Canonical text, equal for equal dimensions only. */
  readonly key: string;
  /** Whether it is the dimension one. An angle is; a count is not. */
  readonly isRatio: boolean;
  /** Counted units, currencies and `sr`, each with its exponent, none of them zero. */
  readonly counts: ReadonlyMap<string, number>;
  /** Exponents of the SI base units and the bit. */
  readonly exponents: Exponents;
}

/** A factor of a unit as text: `m^2` is `["m", 2]`. */
export type Powers = readonly (readonly [symbol: string, exponent: number])[];

const byKey = new Map<string, Dimension>();
const NO_COUNTS: ReadonlyMap<string, number> = new Map();

/** The dimension one. */
export const RATIO: Dimension = dimensionOf(BASE_SYMBOLS.map(() => 0));

const products = new Map<number, Dimension>();
const quotients = new Map<number, Dimension>();
const bySymbol = new Map<string, Dimension>(BASE_SYMBOLS.map((symbol, i) => [symbol, baseDimension(i)]));
bySymbol.set("sr", countDimension("sr"));
for (const { symbol, of } of NAMED_UNITS) bySymbol.set(symbol, ofPowers(of));
bySymbol.set("Hz", ofPowers({ s: -1 }));

const QUANTITIES: ReadonlyMap<Dimension, Quantity> = quantitiesByDimension();

export const MASS = ofPowers({ kg: 1 });
export const LENGTH = ofPowers({ m: 1 });
export const AREA = ofPowers({ m: 2 });
export const VOLUME = ofPowers({ m: 3 });
export const TIME = ofPowers({ s: 1 });
export const FREQUENCY = ofPowers({ s: -1 });
export const TEMPERATURE = ofPowers({ K: 1 });
export const CURRENT = ofPowers({ A: 1 });
export const CHARGE = ofPowers({ C: 1 });
export const VOLTAGE = ofPowers({ V: 1 });
export const POWER = ofPowers({ W: 1 });
export const ENERGY = ofPowers({ J: 1 });
export const RESISTANCE = ofPowers({ Ω: 1 });
export const CONDUCTANCE = ofPowers({ S: 1 });
export const CAPACITANCE = ofPowers({ F: 1 });
export const INDUCTANCE = ofPowers({ H: 1 });

export function multiply(a: Dimension, b: Dimension): Dimension {
  const pair = pairKey(a, b);
  let result = products.get(pair);
  if (result === undefined) {
    result = dimensionOf(multiplyExponents(a.exponents, b.exponents), combineCounts(a, b, 1));
    products.set(pair, result);
  }
  return result;
}

export function divide(a: Dimension, b: Dimension): Dimension {
  const pair = pairKey(a, b);
  let result = quotients.get(pair);
  if (result === undefined) {
    result = dimensionOf(divideExponents(a.exponents, b.exponents), combineCounts(a, b, -1));
    quotients.set(pair, result);
  }
  return result;
}

/** The dimension of a power; undefined where an exponent of it would not be a multiple of one sixth. */
export function power(a: Dimension, exponent: number): Dimension | undefined {
  if (a.isRatio) return RATIO;
  const counts = new Map([...a.counts].map(([name, count]) => [name, count * exponent]));
  const exponents = powerOfExponents(a.exponents, exponent);
  return [...exponents, ...counts.values()].every(isInSixths) ? dimensionOf(exponents, counts) : undefined;
}

/**
 * The product of powers. What is counted is gathered first, so that a unit of hundreds of counted things is not
 * multiplied up through hundreds of dimensions.
 */
export function productOfPowers(powers: readonly (readonly [dimension: Dimension, exponent: number])[]): Dimension {
  let uncounted = RATIO;
  const counts = new Map<string, number>();
  for (const [dimension, exponent] of powers) {
    uncounted = multiply(uncounted, power(withoutAnyCounts(dimension), exponent)!);
    for (const [name, n] of dimension.counts) counts.set(name, (counts.get(name) ?? 0) + n * exponent);
  }
  return counts.size === 0 ? uncounted : dimensionOf(uncounted.exponents, counts);
}

/** The dimension with the named counted units dropped, whatever their exponents. */
export function withoutCounts(a: Dimension, names: readonly string[]): Dimension {
  return dimensionOf(a.exponents, new Map([...a.counts].filter(([name]) => !names.includes(name))));
}

function withoutAnyCounts(a: Dimension): Dimension {
  return a.counts.size === 0 ? a : dimensionOf(a.exponents);
}

/** The dimension of a counted unit, a currency or `sr`. */
export function countDimension(name: string): Dimension {
  return dimensionOf(
    BASE_SYMBOLS.map(() => 0),
    new Map([[name, 1]]),
  );
}

/** The dimension with these exponents; counts with the exponent zero are dropped. */
export function dimensionOf(exponents: Exponents, counts: ReadonlyMap<string, number> = NO_COUNTS): Dimension {
  const sixths = exponents.map(inSixths);
  const kept = [...counts].map(([name, n]) => [name, inSixths(n)] as const).filter(([, n]) => n !== 0);
  kept.sort(([a], [b]) => (a < b ? -1 : 1));
  const key = [...sixths, ...kept.map(([name, n]) => `${name} ${n}`)].join(",");
  let dimension = byKey.get(key);
  if (dimension === undefined) {
    dimension = {
      id: byKey.size,
      key,
      isRatio: kept.length === 0 && sixths.every((n) => n === 0),
      counts: new Map(kept.map(([name, n]) => [name, n / 6])),
      exponents: sixths.map((n) => n / 6),
    };
    byKey.set(key, dimension);
  }
  return dimension;
}

/**
 * The dimension in words for a message: `voltage`, `length`, `ratio`, `temperature difference`, `count of LED`,
 * `money in EUR`; where it has no name, its coherent unit: `A/LED`.
 */
export function dimensionName(a: Dimension): string {
  if (a.isRatio) return "ratio";
  const named = QUANTITIES.get(a);
  if (named !== undefined) return named.name;
  const [[name, exponent] = ["", 0], ...others] = a.counts;
  if (exponent === 1 && others.length === 0 && withoutCounts(a, [name]).isRatio) {
    return CURRENCIES.has(name) ? `money in ${name}` : `count of ${name}`;
  }
  return siUnit(a);
}

/** The coherent SI unit as text, `1` for the dimension one: `V`, `LED`, `W/(m·K)`, `m^2`. */
export function siUnit(a: Dimension): string {
  return unitText(coherentPowers(a));
}

/** The coherent SI unit as its factors, those above the solidus first. */
export function coherentPowers(a: Dimension): Powers {
  const items = [...a.counts].filter(([name]) => name !== "sr");
  const solidAngle = a.counts.get("sr");
  const physical = dimensionOf(a.exponents, solidAngle === undefined ? NO_COUNTS : new Map([["sr", solidAngle]]));
  const named = QUANTITIES.get(physical);
  const powers = [...(named ? Object.entries(named.powers) : decompose(physical)), ...items];
  return [...powers.filter(([, n]) => n > 0), ...powers.filter(([, n]) => n < 0)];
}

/** A unit as one would type it: `W/(m·K)`, `1/s`, `V/√Hz`, `m^2`; `1` where there is nothing to type. */
export function unitText(powers: Powers): string {
  const above = powers.filter(([, n]) => n > 0).map(([symbol, n]) => powerText(symbol, n));
  const below = powers.filter(([, n]) => n < 0).map(([symbol, n]) => powerText(symbol, -n));
  const numerator = above.join("·") || "1";
  if (below.length === 0) return numerator;
  return `${numerator}/${below.length === 1 ? below[0] : `(${below.join("·")})`}`;
}

function powerText(symbol: string, exponent: number): string {
  if (exponent === 1) return symbol;
  if (exponent === 0.5) return `√${symbol}`;
  return `${symbol}^${Number(exponent.toFixed(4))}`;
}

/** Powers in which a named unit is tried: Ω², and √W where the dimension is a root itself. A momentum is no √J·√kg. */
const NAMED_EXPONENTS = [1, -1, 2, -2];
const NAMED_ROOTS = [0.5, -0.5];

/**
 * The shortest product that has this dimension: of base units, or of one named unit and base units, so that
 * kg·m·s⁻³·K⁻¹ becomes W/(m·K). Lengths and times alone stay what they are: a speed squared is no J/kg.
 */
function decompose(a: Dimension): Powers {
  let best = basePowers(a);
  if (best.every(([symbol]) => symbol === "m" || symbol === "s")) return best;
  const isRoot = a.exponents.some((exponent) => !Number.isInteger(exponent));
  const exponents = isRoot ? [...NAMED_EXPONENTS, ...NAMED_ROOTS] : NAMED_EXPONENTS;
  for (const { symbol } of NAMED_UNITS) {
    const named = bySymbol.get(symbol)!;
    if (named.counts.size > a.counts.size) continue; // No lumen where there is no steradian.
    for (const exponent of exponents) {
      const factor = power(named, exponent);
      if (factor === undefined) continue;
      const candidate: Powers = [[symbol, exponent], ...basePowers(divide(a, factor))];
      if (length(candidate) < length(best)) best = candidate;
    }
  }
  return best;
}

function basePowers(a: Dimension): Powers {
  const powers = BASE_SYMBOLS.map((symbol, i) => [symbol as string, a.exponents[i]] as const);
  return [...powers, ...a.counts].filter(([, exponent]) => exponent !== 0);
}

function length(powers: Powers): number {
  return powers.reduce((total, [, exponent]) => total + Math.abs(exponent), 0);
}

function quantitiesByDimension(): ReadonlyMap<Dimension, Quantity> {
  const named = NAMED_UNITS.map(({ symbol, name }): Quantity => ({ powers: { [symbol]: 1 }, name }));
  const rows = [...BASE_QUANTITIES, ...named, ...COMPOUND_QUANTITIES].map(
    (row) => [ofPowers(row.powers), row] as const,
  );
  return new Map(rows.reverse());
}

/** The dimension of coherent units named in `quantities.ts`. */
function ofPowers(powers: Quantity["powers"]): Dimension {
  return Object.entries(powers).reduce(
    (total, [symbol, exponent]) => multiply(total, power(bySymbol.get(symbol)!, exponent)!),
    RATIO,
  );
}

function baseDimension(place: number): Dimension {
  return dimensionOf(BASE_SYMBOLS.map((_, i) => (i === place ? 1 : 0)));
}

function combineCounts(a: Dimension, b: Dimension, sign: 1 | -1): ReadonlyMap<string, number> {
  if (b.counts.size === 0) return a.counts;
  const counts = new Map(a.counts);
  for (const [name, n] of b.counts) counts.set(name, (counts.get(name) ?? 0) + sign * n);
  return counts;
}

/** One number for two dimensions; ids stay far below 2²⁶, and their pair below 2⁵³. */
function pairKey(a: Dimension, b: Dimension): number {
  return a.id * 2 ** 26 + b.id;
}

function isInSixths(exponent: number): boolean {
  return Number.isFinite(exponent) && Math.abs(exponent * 6 - Math.round(exponent * 6)) < 1e-9;
}

function inSixths(exponent: number): number {
  return Math.round(exponent * 6) + 0; // + 0 turns −0 into 0.
}

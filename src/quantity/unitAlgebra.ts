import { createUnitClass } from "mathjs";

/**
 * mathjs behind a wall: this file alone imports it.
 *
 * What is taken from it: the factors and dimensions of its unit table, its prefixes, and the algebra of dimensions
 * (`multiply`, `divide`, `pow` of its units). What is not: its parser, its evaluation, its formatting, `createUnit`.
 * Those keep state between calls or grow with use. Its units carry no values, and they are stripped of their lists of
 * units, which would grow with every product.
 */

/** Exponents of the base units, in the order of {@link BASE_SYMBOLS}. Each is a multiple of one sixth. */
export type Exponents = readonly number[];

/** The base units that stand for mathjs's base dimensions. Its angle is left out: the radian is one (SI Brochure, 2.3.3). */
export const BASE_SYMBOLS = ["kg", "m", "s", "A", "K", "cd", "mol", "bit"] as const;

interface MathjsUnit {
  dimensions: number[];
  multiply(other: MathjsUnit): MathjsUnit;
  divide(other: MathjsUnit): MathjsUnit;
  pow(exponent: number): MathjsUnit;
}

interface MathjsTable {
  new (value: null): MathjsUnit;
  readonly BASE_DIMENSIONS: readonly string[];
  readonly PREFIXES: { readonly SHORT: Readonly<Record<string, { readonly value: number }>> };
  readonly UNITS: Readonly<Record<string, { readonly value: number; readonly dimensions: readonly number[] }>>;
}

const Unit = createPlainNumberUnits();
const BASE_DIMENSIONS = [
  "MASS",
  "LENGTH",
  "TIME",
  "CURRENT",
  "TEMPERATURE",
  "LUMINOUS_INTENSITY",
  "AMOUNT_OF_SUBSTANCE",
  "BIT",
].map((name) => Unit.BASE_DIMENSIONS.indexOf(name));

/** The SI prefixes from quecto to quetta: symbol to power of ten. Micro is `µ` (U+00B5); the empty prefix is not in it. */
export const PREFIXES: ReadonlyMap<string, number> = new Map(
  Object.entries(Unit.PREFIXES.SHORT)
    .filter(([symbol]) => symbol !== "")
    .map(([symbol, { value }]) => [symbol === "u" ? "µ" : symbol, Math.round(Math.log10(value))]),
);

/**
 * A unit of mathjs's table: its factor to coherent SI as decimal text (the shortest that names mathjs's double, which
 * is how it was written there) and its exponents.
 *
 * @throws where mathjs has no such unit, or one without a plain factor: the table of our units is wrong then.
 */
export function mathjsUnit(name: string): { factor: string; exponents: Exponents } {
  const unit = Object.hasOwn(Unit.UNITS, name) ? Unit.UNITS[name] : undefined;
  if (unit === undefined || typeof unit.value !== "number" || !Number.isFinite(unit.value)) {
    throw new Error(`mathjs has no plain unit named ${name}.`);
  }
  return { factor: String(unit.value), exponents: readExponents(unit.dimensions) };
}

export function multiplyExponents(a: Exponents, b: Exponents): Exponents {
  return readExponents(unitOf(a).multiply(unitOf(b)).dimensions);
}

export function divideExponents(a: Exponents, b: Exponents): Exponents {
  return readExponents(unitOf(a).divide(unitOf(b)).dimensions);
}

/** The exponents of a power; they may be no multiples of one sixth, which is for the caller to judge. */
export function powerOfExponents(a: Exponents, exponent: number): Exponents {
  return readExponents(unitOf(a).pow(exponent).dimensions);
}

function unitOf(exponents: Exponents): MathjsUnit {
  const unit = new Unit(null);
  unit.dimensions = Unit.BASE_DIMENSIONS.map(() => 0);
  BASE_DIMENSIONS.forEach((place, i) => (unit.dimensions[place] = exponents[i]));
  return unit;
}

function readExponents(dimensions: readonly number[]): Exponents {
  return BASE_DIMENSIONS.map((place) => dimensions[place] ?? 0);
}

/** mathjs's units over plain numbers, frozen: the factory is given only what doubles need, so that the bundle stays small. */
function createPlainNumberUnits(): MathjsTable {
  class NotUsed {}
  const table = createUnitClass({
    config: { number: "number", predictable: true },
    addScalar: (a: number, b: number) => a + b,
    subtractScalar: (a: number, b: number) => a - b,
    multiplyScalar: (a: number, b: number) => a * b,
    divideScalar: (a: number, b: number) => a / b,
    pow: Math.pow,
    abs: Math.abs,
    fix: Math.trunc,
    round: Math.round,
    equal: (a: number, b: number) => a === b,
    isNumeric: (a: unknown) => typeof a === "number",
    format: String,
    number: Number,
    Complex: { I: Number.NaN },
    BigNumber: NotUsed,
    Fraction: NotUsed,
  }) as MathjsTable;
  for (const unit of Object.values(table.UNITS)) Object.freeze(unit);
  for (const part of [table.UNITS, table.PREFIXES.SHORT, table.PREFIXES, table.BASE_DIMENSIONS]) Object.freeze(part);
  return table;
}

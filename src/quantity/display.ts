import { AREA, coherentPowers, MASS, RATIO, TEMPERATURE, TIME, VOLUME, type Dimension, type Powers } from "./dimension";
import { CURRENCIES } from "./currencies";
import { PREFIXES } from "./unitAlgebra";
import { unitOfPowers, type Unit } from "./unit";

/**
 * Which unit, which prefix, how many digits: the one place that decides it. What is shown reads back as a literal of
 * the note language, within the rounding of its digits, except where it is not finite.
 */
export interface ShowOptions {
  /** The unit to show in, as it is; where absent, the named SI unit of the dimension with an engineering prefix. */
  readonly unit?: Unit;
  /** With {@link unit}: keep the unit, but choose its prefix (`kWh` where `Wh` was written). */
  readonly anyPrefix?: boolean;
  /** The value is a temperature point, in K; shown in °C unless the unit says otherwise. */
  readonly point?: boolean;
  /** In SI units: the place of the last digit that was typed of a number as written. So much is shown of it, at least. */
  readonly step?: number;
  /** Significant digits at most of an exact value; 6 where absent. Whole counts and ratios are shown in full. */
  readonly exactDigits?: number;
}

/** A value and the least and greatest it can be, in coherent SI. */
export interface Shownable {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** A text and its unit apart, for those who set them apart. */
export interface Shown {
  readonly text: string;
  /** `1` for a ratio. */
  readonly unit: string;
}

const EXACT_DIGITS = 6;
const UNCERTAIN_DIGITS = 3;
/** Digits of the width of a range that its ends must show. */
const WIDTH_DIGITS = 2;
/** A range narrower than this, relative to its ends, comes from rounding: the value is exact. */
const ROUNDING_WIDTH = 1e-12;
/** Digits that a double can be trusted for after a few operations. What is smaller beside the width of a range is noise. */
const TRUSTED_DIGITS = 12;
/** In kelvins: what a point near 0 °C keeps of the noise of 273.15. */
const POINT_NOISE = 1e-9;
/** Whole numbers below it are shown in full where they count something. */
const LARGEST_COUNT = 1e15;

const CENT = 0.01;
/** Amounts between limits are shown in whole units from here on. */
const MONEY_WITHOUT_CENTS = 1000;

/** `0.4 .. 3 .. 5.6 V`, `112 LED`, `25 °C`. The members share one unit, chosen for the nominal value. */
export function show(value: Shownable, dimension: Dimension, options: ShowOptions = {}): string {
  return joined(showApart(value, dimension, options));
}

/** One value with its unit: `60 mA`. */
export function showNumber(x: number, dimension: Dimension, options: ShowOptions = {}): string {
  return show({ nominal: x, low: x, high: x }, dimension, options);
}

/** A share for a phrase such as *12 % to spare*: whole per cents, or two digits where it is less than ten of them. */
export function showRatio(x: number): string {
  const perCent = x * 100;
  const digits = Math.max(2, Math.floor(Math.log10(Math.abs(perCent)) + 1));
  return `${Number.isFinite(perCent) && perCent !== 0 ? plain(Number(perCent.toPrecision(Math.min(digits, 15)))) : plain(perCent)} %`;
}

/** The digits and the unit of {@link show}, apart. */
export function showApart(given: Shownable, dimension: Dimension, options: ShowOptions = {}): Shown {
  const value = withUnknownLimits(given);
  const unit = unitToShow(value, dimension, options);
  const shift = options.point ? unit.zero : 0;
  const [low, nominal, high] = [value.low, value.nominal, value.high].map((x) => (x - shift) / unit.factor);
  const floor = options.point ? POINT_NOISE : 0;
  const typed = options.step === undefined ? undefined : placeOf(options.step / unit.factor);
  if (isExact(value)) {
    const isToCents = isMoney(dimension) && Math.abs(nominal) >= 1 && !(typed !== undefined && 10 ** typed < CENT);
    if (isToCents) return { text: plain(toCents(nominal)), unit: unit.text };
    const whole = unit.decimal === 0 && unit.powers.every(({ prefix }) => prefix === "") && isCounting(dimension);
    const digits = options.exactDigits ?? Math.max(EXACT_DIGITS, digitsTo(nominal, typed));
    return { text: exactText(nominal, digits, whole, floor), unit: unit.text };
  }
  const members = [low, nominal, high];
  const width = Number.isFinite(high - low) ? high - low : 0;
  const coarsest = isMoney(dimension) ? moneyStep(members) : Number.POSITIVE_INFINITY;
  const texts = members.map((x) => uncertainText(x, width, floor, coarsest, typed));
  // A limit that is not known is left out, as it is where it is written.
  const isLowKnown = low > Number.NEGATIVE_INFINITY;
  return { text: (isLowKnown ? texts : ["", ...texts.slice(1)]).join(" .. ").trimStart(), unit: unit.text };
}

/** The unit that {@link show} shows a value in. */
export function unitToShow(value: Shownable, dimension: Dimension, { unit, anyPrefix, point }: ShowOptions): Unit {
  if (unit !== undefined && !anyPrefix && !unit.anyPrefix) return unit;
  if (point) return unit ?? CELSIUS;
  const { nominal, low, high } = value;
  const finite = [low, high].map(Math.abs).filter(Number.isFinite);
  const size = nominal !== 0 && Number.isFinite(nominal) ? nominal : Math.max(0, ...finite);
  return chooseUnit(size, dimension, unit);
}

/**
 * The unit that a value of this size is shown in: the named SI unit of the dimension, or `like`, with the engineering
 * prefix for which its digits before the decimal sign are one to three. Times from two minutes on are in min, h, d or
 * years, masses in grams up to a kilogram, areas and volumes in powers of prefixed metres.
 */
export function chooseUnit(x: number, dimension: Dimension, like?: Unit): Unit {
  const size = Number(Math.abs(x).toPrecision(EXACT_DIGITS));
  if (like !== undefined) return withPrefixFor(size, like);
  const ladder = LADDERS.get(dimension);
  if (ladder === undefined) return withPrefixFor(size, coherentUnit(dimension));
  const steps = size === 0 || Number.isNaN(size) ? ladder.filter(({ isForZero }) => isForZero) : ladder;
  return unitOfPowers((steps.find(({ from }) => size >= from) ?? steps.at(-1)!).powers);
}

/** A unit, bare of the prefix on its first factor, that is shown with the one that fits; only where that factor takes prefixes. */
export function anyPrefixOf(unit: Unit): Unit {
  let known = anyPrefixUnits.get(unit);
  if (known === undefined) anyPrefixUnits.set(unit, (known = { ...withPrefix(unit, ""), anyPrefix: true }));
  return known;
}

/** The steps of a dimension that a prefix on its SI unit does not serve, from the largest on. */
interface Step {
  readonly from: number;
  readonly powers: Powers;
  readonly isForZero?: boolean;
}

const LADDERS: ReadonlyMap<Dimension, readonly Step[]> = new Map([
  [
    TIME,
    [
      { from: 2 * 31557600, powers: [["year", 1]] },
      { from: 2 * 86400, powers: [["d", 1]] },
      { from: 3600, powers: [["h", 1]] },
      { from: 120, powers: [["min", 1]] },
      { from: 1, powers: [["s", 1]], isForZero: true },
      { from: 1e-3, powers: [["ms", 1]] },
      { from: 1e-6, powers: [["µs", 1]] },
      { from: 1e-9, powers: [["ns", 1]] },
      { from: 1e-12, powers: [["ps", 1]] },
      { from: 0, powers: [["fs", 1]] },
    ],
  ],
  [
    MASS,
    [
      { from: 1, powers: [["kg", 1]], isForZero: true },
      { from: 1e-3, powers: [["g", 1]] },
      { from: 1e-6, powers: [["mg", 1]] },
      { from: 1e-9, powers: [["µg", 1]] },
      { from: 0, powers: [["ng", 1]] },
    ],
  ],
  [
    AREA,
    [
      { from: 0.1, powers: [["m", 2]], isForZero: true },
      { from: 1e-8, powers: [["mm", 2]] },
      { from: 0, powers: [["µm", 2]] },
    ],
  ],
  [
    VOLUME,
    [
      { from: 0.1, powers: [["m", 3]], isForZero: true },
      { from: 1e-6, powers: [["cm", 3]] },
      { from: 1e-12, powers: [["mm", 3]] },
      { from: 0, powers: [["µm", 3]] },
    ],
  ],
]);

/** Units that keep no prefix down to a tenth, as data sheets write 0.5 K, 0.3 lx; every compound does, as 0.4 W/(m·K). */
const UNPREFIXED_FROM_A_TENTH: ReadonlySet<string> = new Set(["K", "lm", "lx", "cd"]);

const ENGINEERING_PREFIXES: ReadonlyMap<number, string> = new Map([
  [0, ""],
  ...[...PREFIXES]
    .filter(([, exponent]) => exponent % 3 === 0)
    .map(([symbol, exponent]) => [exponent, symbol] as const),
]);
const LARGEST_PREFIX = 30;

const CELSIUS = unitOfPowers([["°C", 1]]);

/** The unit with another prefix on its first factor, where that one takes prefixes and is above the solidus, to the first power. */
function withPrefixFor(size: number, unit: Unit): Unit {
  const [first, ...others] = unit.powers;
  if (first === undefined || !first.takesPrefix || first.exponent !== 1 || !(size > 0 && Number.isFinite(size)))
    return unit;
  const old = first.prefix === "" ? 0 : PREFIXES.get(first.prefix)!;
  const bare = Number((size / unit.factor).toPrecision(EXACT_DIGITS));
  const magnitude = Math.floor(Math.log10(bare)) + old;
  let exponent = Math.max(-LARGEST_PREFIX, Math.min(LARGEST_PREFIX, 3 * Math.floor(magnitude / 3)));
  if (magnitude === -1 && (others.length > 0 || UNPREFIXED_FROM_A_TENTH.has(first.symbol))) exponent = 0;
  // A compound that begins with a mass stays at the kilogram: 8960 kg/m^3, not 8.96 Mg/m^3.
  if (first.symbol === "g" && exponent > 3) exponent = 3;
  return prefixedUnit(unit, ENGINEERING_PREFIXES.get(exponent)!);
}

/** Units already made: every line of a note asks for one, again at each edit. Notes have few dimensions. */
const coherentUnits = new Map<Dimension, Unit>();
const prefixedUnits = new WeakMap<Unit, Map<string, Unit>>();
const anyPrefixUnits = new WeakMap<Unit, Unit>();

function coherentUnit(dimension: Dimension): Unit {
  let unit = coherentUnits.get(dimension);
  if (unit === undefined) coherentUnits.set(dimension, (unit = unitOfPowers(coherentPowers(dimension))));
  return unit;
}

function prefixedUnit(unit: Unit, prefix: string): Unit {
  let known = prefixedUnits.get(unit);
  if (known === undefined) prefixedUnits.set(unit, (known = new Map()));
  let result = known.get(prefix);
  if (result === undefined) known.set(prefix, (result = withPrefix(unit, prefix)));
  return result;
}

function withPrefix({ powers: [first, ...others] }: Unit, prefix: string): Unit {
  return unitOfPowers([
    [prefix + first.symbol, 1],
    ...others.map((power) => [power.prefix + power.symbol, power.exponent] as const),
  ]);
}

function joined({ text, unit }: Shown): string {
  return unit === "1" ? text : `${text} ${unit}`;
}

/** A limit that is NaN beside a nominal value is not known, so it may be anything. */
function withUnknownLimits({ low, nominal, high }: Shownable): Shownable {
  if (Number.isNaN(nominal)) return { low, nominal, high };
  return {
    low: Number.isNaN(low) ? Number.NEGATIVE_INFINITY : low,
    nominal,
    high: Number.isNaN(high) ? Number.POSITIVE_INFINITY : high,
  };
}

function isExact({ low, nominal, high }: Shownable): boolean {
  if (low === high || Number.isNaN(nominal)) return true;
  if (!Number.isFinite(high - low)) return false;
  return high - low <= ROUNDING_WIDTH * Math.max(Math.abs(low), Math.abs(high), Math.abs(nominal));
}

/** Whether whole numbers of this dimension count something: ratios, LEDs, LEDs per board. Money is counted too. */
function isCounting(dimension: Dimension): boolean {
  return dimension === RATIO || (dimension !== TEMPERATURE && dimension.exponents.every((exponent) => exponent === 0));
}

/** An amount of one currency; a price for each of something is a quantity like others. */
function isMoney({ exponents, counts }: Dimension): boolean {
  if (counts.size !== 1 || exponents.some((exponent) => exponent !== 0)) return false;
  const [[name, exponent]] = counts;
  return exponent === 1 && CURRENCIES.has(name);
}

/** An exact amount is given to the cent, and as exactly as a double can be trusted. */
function toCents(x: number): number {
  if (!Number.isFinite(x)) return x;
  return roundTo(x, Math.max(CENT, 10 ** (magnitudeOf(x) - TRUSTED_DIGITS + 1)));
}

/** To what an amount between limits is rounded at most, so that sums still add up: cents, from a thousand on whole units. */
function moneyStep(members: readonly number[]): number {
  return Math.max(...members.filter(Number.isFinite).map(Math.abs)) < MONEY_WITHOUT_CENTS ? CENT : 1;
}

function exactText(x: number, digits: number, isWhole: boolean, floor: number): string {
  if (!Number.isFinite(x) || x === 0) return plain(x);
  const trusted = Number(x.toPrecision(TRUSTED_DIGITS));
  if (isWhole && Number.isInteger(trusted) && Math.abs(trusted) < LARGEST_COUNT) return String(trusted);
  return plain(roundTo(x, Math.max(10 ** (magnitudeOf(x) - digits + 1), floor)));
}

/** The power of ten of a step, of the next finer one where it is none. */
function placeOf(step: number): number {
  return Math.floor(Math.log10(step) + 1e-9);
}

/** Significant digits of a number down to a place. */
function digitsTo(x: number, place: number | undefined): number {
  return place === undefined || x === 0 || !Number.isFinite(x)
    ? 0
    : Math.min(magnitudeOf(x) - place + 1, TRUSTED_DIGITS);
}

/** @param typed the place that was typed, which is shown; undefined where the value was computed. */
function uncertainText(x: number, width: number, floor: number, coarsest: number, typed = Infinity): string {
  if (!Number.isFinite(x) || x === 0) return plain(x);
  const byDigits = Math.min(magnitudeOf(x) - UNCERTAIN_DIGITS + 1, Math.log10(coarsest), typed);
  if (width === 0) return plain(roundTo(x, 10 ** byDigits));
  const byWidth = magnitudeOf(width) - WIDTH_DIGITS + 1;
  const finest = Math.max(magnitudeOf(width), magnitudeOf(x)) - TRUSTED_DIGITS;
  return plain(roundTo(x, Math.max(10 ** Math.max(Math.min(byDigits, byWidth), finest), floor)));
}

/** The number rounded to a multiple of a power of ten, without the noise of multiplying back. */
function roundTo(x: number, step: number): number {
  const place = Math.round(Math.log10(step));
  const digits = magnitudeOf(x) - place + 1;
  if (digits < 0) return 0;
  if (digits === 0) return Math.abs(x) * 2 >= step ? Math.sign(x) * step : 0;
  return Number(x.toPrecision(Math.min(digits, 17)));
}

function magnitudeOf(x: number): number {
  return Number(Math.abs(x).toExponential().split("e")[1]);
}

/** The shortest text of a number that the note language reads; `∞`, `-∞` and `undefined` are none. */
function plain(x: number): string {
  if (Number.isNaN(x)) return "undefined";
  if (!Number.isFinite(x)) return x > 0 ? "∞" : "-∞";
  const size = Math.abs(x);
  if (size !== 0 && (size < 1e-4 || size >= 1e7)) return x.toExponential().replace("e+", "e");
  return String(x + 0);
}

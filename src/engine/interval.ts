/**
 * Interval arithmetic with outward rounding.
 *
 * An interval is two doubles, its ends. Results are written into the first two places of an array that the caller owns,
 * because a pair of numbers cannot be returned without an object, and these run for every operation of a note.
 * An end may be infinite (a literal without a minimum has one). Where a result is undefined for some operands, as a
 * quotient whose divisor may be zero, the whole interval is: both ends NaN, which every later operation carries on.
 * Nobody then sees a range that leaves out a value.
 *
 * Source of the operations: IEEE 1788-2015, 9.1, on non-empty intervals. Ends are not the tightest doubles;
 * each is moved outward by the rounding error that its operation may have made.
 */

/** Half a unit in the last place, relative: what a correctly rounded operation can be off by, doubled to be safe. */
const ROUNDING = 2 ** -52;
/** The elementary functions of JavaScript engines are good to about one unit in the last place; four are taken. */
const FUNCTION_ROUNDING = 2 ** -50;
export const SMALLEST = 5e-324;

/** Two ends to write to. */
export type Ends = Float64Array;

export function down(x: number): number {
  return x === Infinity ? Number.MAX_VALUE : x - Math.abs(x) * ROUNDING - SMALLEST;
}

export function up(x: number): number {
  return x === -Infinity ? -Number.MAX_VALUE : x + Math.abs(x) * ROUNDING + SMALLEST;
}

export function undefinedRange(out: Ends): void {
  out[0] = NaN;
  out[1] = NaN;
}

/** Writes the ends as they are; one that is not a number makes the range undefined. */
export function set(out: Ends, low: number, high: number): void {
  if (low <= high) {
    out[0] = low;
    out[1] = high;
  } else undefinedRange(out);
}

/**
 * Writes the ends moved outward. A zero stays: the sum of two doubles is zero only if it is exactly zero, and so is a
 * product or quotient unless it underflows, which {@link multiply} and {@link divide} look after.
 */
function setOutward(out: Ends, low: number, high: number): void {
  set(out, low === 0 ? 0 : down(low), high === 0 ? 0 : up(high));
}

/** Ends of a product or quotient; where an end became zero although no operand is zero, it is moved by one step. */
function setProduct(out: Ends, low: number, high: number, operandIsZero: boolean): void {
  setOutward(out, low, high);
  if (operandIsZero) return;
  if (low === 0) out[0] = -SMALLEST;
  if (high === 0) out[1] = SMALLEST;
}

/**
 * Ends of a function's values. A zero stays, so that the root of a range from zero does not reach below it: the functions
 * of this house are zero only where they are exactly. Powers and e^x, which underflow, look after it themselves.
 */
function setFunction(out: Ends, low: number, high: number): void {
  const from = low === Infinity ? Number.MAX_VALUE : low - Math.abs(low) * FUNCTION_ROUNDING - SMALLEST;
  const to = high === -Infinity ? -Number.MAX_VALUE : high + Math.abs(high) * FUNCTION_ROUNDING + SMALLEST;
  set(out, low === 0 ? 0 : from, high === 0 ? 0 : to);
}

export function add(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  setOutward(out, aLow + bLow, aHigh + bHigh);
}

export function subtract(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  setOutward(out, aLow - bHigh, aHigh - bLow);
}

export function multiply(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  if (Number.isNaN(aLow) || Number.isNaN(bLow)) return undefinedRange(out);
  const p = times(aLow, bLow);
  const q = times(aLow, bHigh);
  const r = times(aHigh, bLow);
  const s = times(aHigh, bHigh);
  const zero = aLow === 0 || aHigh === 0 || bLow === 0 || bHigh === 0;
  setProduct(out, Math.min(p, q, r, s), Math.max(p, q, r, s), zero);
}

/** Undefined where the divisor can be zero. */
export function divide(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  if (!(bLow > 0 || bHigh < 0)) return undefinedRange(out);
  if (Number.isNaN(aLow)) return undefinedRange(out);
  const p = over(aLow, bLow);
  const q = over(aLow, bHigh);
  const r = over(aHigh, bLow);
  const s = over(aHigh, bHigh);
  setProduct(out, Math.min(p, q, r, s), Math.max(p, q, r, s), aLow === 0 || aHigh === 0);
}

/** 0 · ∞ is 0: an unbounded operand never reaches its infinite end. */
function times(a: number, b: number): number {
  return a === 0 || b === 0 ? 0 : a * b;
}

/** ∞ / ∞ lies between the finite quotients, of which the other corners take care. */
function over(a: number, b: number): number {
  return Number.isFinite(b) ? a / b : 0;
}

/** A rising function, evaluated at both ends. */
export function rising(out: Ends, f: (x: number) => number, low: number, high: number): void {
  setFunction(out, f(low), f(high));
}

/** A falling function, evaluated at both ends. */
export function falling(out: Ends, f: (x: number) => number, low: number, high: number): void {
  setFunction(out, f(high), f(low));
}

/** A rising step function: its values are exact, so nothing is rounded. */
export function stepping(out: Ends, f: (x: number) => number, low: number, high: number): void {
  set(out, f(low), f(high));
}

/** The even branch of a power: x^n for even n, |x|, cosh: falling below zero, rising above. */
export function even(out: Ends, f: (x: number) => number, low: number, high: number): void {
  if (low >= 0) return rising(out, f, low, high);
  if (high <= 0) return falling(out, f, low, high);
  setFunction(out, f(0), Math.max(f(low), f(high)));
  if (!Number.isNaN(out[0])) out[0] = f(0);
}

/**
 * A function with period 2π that rises from its trough at `trough` + 2πk to its crest half a period later (sin, cos).
 * Ends beyond 10⁵ periods are not told apart: the whole range [−1, 1] is taken, since the argument's own rounding decides.
 */
export function wave(out: Ends, f: (x: number) => number, trough: number, low: number, high: number): void {
  if (Number.isNaN(low)) return undefinedRange(out);
  const period = 2 * Math.PI;
  const from = (low - trough) / period;
  const to = (high - trough) / period;
  const isTold = low === high || (to - from < 1 && Math.abs(from) <= 1e5 && Math.abs(to) <= 1e5);
  if (!isTold) return set(out, -1, 1);
  const NEAR = 1e-9;
  const hasTrough = Math.floor(to + NEAR) > Math.floor(from - NEAR);
  const hasCrest = Math.floor(to - 0.5 + NEAR) > Math.floor(from - 0.5 - NEAR);
  const a = f(low);
  const b = f(high);
  setFunction(out, Math.min(a, b), Math.max(a, b));
  out[0] = hasTrough ? -1 : Math.max(-1, out[0]);
  out[1] = hasCrest ? 1 : Math.min(1, out[1]);
}

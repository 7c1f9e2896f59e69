import { EQUALITY, slack } from "./operation";

/**
 * Points that an operation looks a value up in: exact numbers, written out in a note, with rising keys. On the tape a
 * table is one operand, its number, so that thirty points cost one operation in every arithmetic.
 *
 * Equal tables are one. A table is held by the definitions that look up in it, and forgotten some time after the last of
 * them; its number never means another, since copies of a definition may still have it.
 */
export interface PointTable {
  /** Rising; in coherent SI units, as the values. */
  readonly keys: Float64Array;
  readonly values: Float64Array;
  /** From each key to the next, with u = x − key: value + u·(slope + u·(square + u·cube)). */
  readonly slope: Float64Array;
  readonly square: Float64Array;
  readonly cube: Float64Array;
}

/** How the values between two points are found. For steps and exact look-ups there are none. */
export type Between = "line" | "smooth";

/** By number, and what they are made of; undefined where they were forgotten. */
const TABLES: (PointTable | undefined)[] = [];
const contents: (string | undefined)[] = [];
const numbers = new Map<string, number>();
/** Of tables that are held: how often. */
const holders = new Map<number, number>();
/** Tables that nobody holds, those that were let go first before the others. */
const idle = new Set<number>();

/** Tables that are kept though nobody holds them: what is typed, taken back and tried finds its own again. */
const MOST_IDLE = 1_000;

/** The number of a table of these points. */
export function pointTable(keys: readonly number[], values: readonly number[], between: Between = "line"): number {
  const content = `${between} ${keys.join(" ")} ${values.join(" ")}`;
  let number = numbers.get(content);
  if (number === undefined) {
    number = TABLES.push(tableOf(Float64Array.from(keys), Float64Array.from(values), between)) - 1;
    numbers.set(content, number);
    contents[number] = content;
  }
  if (!holders.has(number)) keepIdle(number);
  return number;
}

/** The table of a number; undefined where the operand is none. */
export function tableAt(number: number): PointTable | undefined {
  return TABLES[number];
}

/** A definition looks up in a table from now on; the number was just given out. */
export function hold(number: number): void {
  holders.set(number, (holders.get(number) ?? 0) + 1);
  idle.delete(number);
}

/** A definition that held a table is gone, or is compiled again. */
export function letGo(number: number): void {
  const others = holders.get(number)! - 1;
  if (others > 0) {
    holders.set(number, others);
    return;
  }
  holders.delete(number);
  keepIdle(number);
}

/** How many tables there are, held or not. */
export function howManyTables(): number {
  return numbers.size;
}

function keepIdle(number: number): void {
  idle.delete(number);
  idle.add(number);
  for (const oldest of idle) {
    if (idle.size <= MOST_IDLE) break;
    idle.delete(oldest);
    numbers.delete(contents[oldest]!);
    TABLES[oldest] = contents[oldest] = undefined;
  }
}

/** The place of the last key that is not above x, within the noise of decimal fractions; −1 below all. */
export function placeOf({ keys }: PointTable, x: number): number {
  let low = -1;
  let high = keys.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (keys[middle] <= x + slack(keys[middle], x)) low = middle;
    else high = middle;
  }
  return low;
}

/** Whether x is the key at a place, but for the noise of decimal fractions. */
export function isKey({ keys }: PointTable, place: number, x: number): boolean {
  return place >= 0 && Math.abs(keys[place] - x) <= slack(keys[place], x);
}

/**
 * The value at x by the curve through the points; NaN outside of them. Between two points it never leaves what lies
 * between their values, whatever the rounding.
 */
export function onCurve(table: PointTable, x: number): number {
  const { keys, values, slope, square, cube } = table;
  const place = placeOf(table, x);
  if (isKey(table, place, x)) return values[place];
  if (place < 0 || place === keys.length - 1) return NaN;
  const u = x - keys[place];
  const value = values[place] + u * (slope[place] + u * (square[place] + u * cube[place]));
  const [a, b] = [values[place], values[place + 1]];
  return Math.min(Math.max(value, Math.min(a, b)), Math.max(a, b));
}

function tableOf(keys: Float64Array, values: Float64Array, between: Between): PointTable {
  const pieces = Math.max(0, keys.length - 1);
  const [slope, square, cube] = [0, 1, 2].map(() => new Float64Array(pieces));
  const steps = Float64Array.from({ length: pieces }, (_, i) => keys[i + 1] - keys[i]);
  const rises = Float64Array.from({ length: pieces }, (_, i) => (values[i + 1] - values[i]) / steps[i]);
  const slopes = between === "smooth" ? monotoneSlopes(steps, rises) : undefined;
  for (let i = 0; i < pieces; i++) {
    slope[i] = slopes ? slopes[i] : rises[i];
    if (!slopes) continue;
    square[i] = (3 * rises[i] - 2 * slopes[i] - slopes[i + 1]) / steps[i];
    cube[i] = (slopes[i] + slopes[i + 1] - 2 * rises[i]) / (steps[i] * steps[i]);
  }
  return { keys, values, slope, square, cube };
}

/**
 * Slopes at the points of a piecewise cubic that rises where the points rise and falls where they fall.
 *
 * Inside the weighted harmonic mean of F. N. Fritsch and J. Butland, "A method for constructing local monotone piecewise
 * cubic interpolants", SIAM J. Sci. Stat. Comput. 5 (1984) 300–304, which keeps to the region of F. N. Fritsch and
 * R. E. Carlson, "Monotone piecewise cubic interpolation", SIAM J. Numer. Anal. 17 (1980) 238–246; at the ends the
 * three-point formula with the limits of C. B. Moler, "Numerical Computing with MATLAB", SIAM 2004, 3.6.
 */
function monotoneSlopes(steps: Float64Array, rises: Float64Array): Float64Array {
  const last = rises.length;
  const slopes = new Float64Array(last + 1);
  if (last === 1) return slopes.fill(rises[0]);
  for (let i = 1; i < last; i++) {
    if (!(rises[i - 1] * rises[i] > 0)) continue;
    const before = 2 * steps[i] + steps[i - 1];
    const behind = steps[i] + 2 * steps[i - 1];
    slopes[i] = (before + behind) / (before / rises[i - 1] + behind / rises[i]);
  }
  slopes[0] = slopeAtEnd(steps[0], steps[1], rises[0], rises[1]);
  slopes[last] = slopeAtEnd(steps[last - 1], steps[last - 2], rises[last - 1], rises[last - 2]);
  return slopes;
}

function slopeAtEnd(step: number, next: number, rise: number, nextRise: number): number {
  const slope = ((2 * step + next) * rise - step * nextRise) / (step + next);
  if (!(slope * rise > 0)) return 0;
  return rise * nextRise <= 0 && Math.abs(slope) > 3 * Math.abs(rise) ? 3 * rise : slope;
}

/** Whether keys rise by more than the noise of decimal fractions, so that each number belongs to one of them. */
export function areRising(keys: readonly number[]): boolean {
  return keys.every(
    (key, i) => i === 0 || key - keys[i - 1] > 4 * EQUALITY * Math.max(Math.abs(key), Math.abs(keys[i - 1])),
  );
}

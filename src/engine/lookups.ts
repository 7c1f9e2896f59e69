import { nearest, nextDown, nextUp, SERIES_NAMES, type SeriesName } from "../quantity/series";
import { hasPair, pairFor, type Pairing } from "../quantity/seriesPairs";
import * as interval from "./interval";
import type { Ends } from "./interval";
import { Op, type Operation } from "./operation";
import { anySlope, noSlope, outward, slope } from "./operationParts";
import { isKey, onCurve, placeOf, tableAt, type PointTable } from "./pointTables";

/** What looks a value up: in a table of points, or in a series of preferred numbers. Both are an exact second operand. */
export const LOOKUPS = {
  [Op.Nearest]: pickFromSeries("nearest of a series", nearest),
  [Op.Below]: pickFromSeries("next down of a series", nextDown),
  [Op.Above]: pickFromSeries("next up of a series", nextUp),
  [Op.StepLookup]: {
    name: "look-up by steps",
    kind: "switch",
    arity: 2,
    number: (x, number) => {
      const table = tableAt(number);
      return table && !Number.isNaN(x) ? (table.values[placeOf(table, x)] ?? NaN) : NaN;
    },
    range: (out, low, high, number, most) => {
      const table = number === most ? tableAt(number) : undefined;
      if (!table || Number.isNaN(low)) return interval.undefinedRange(out);
      const from = placeOf(table, low);
      if (from < 0) return interval.undefinedRange(out);
      const taken = table.values.subarray(from, placeOf(table, high) + 1);
      interval.set(out, least(taken), greatest(taken));
    },
    slopes: (out, low, high, number) => {
      noSlope(out, 1);
      const table = tableAt(number);
      if (!table) return anySlope(out, 0);
      const taken = table.values.subarray(Math.max(0, placeOf(table, low)), placeOf(table, high) + 1);
      const rises = taken.some((value, i) => i > 0 && value > taken[i - 1]);
      const falls = taken.some((value, i) => i > 0 && value < taken[i - 1]);
      slope(out, falls ? -Infinity : 0, rises ? Infinity : 0);
    },
    trouble: "lies below the first key",
  },
  [Op.ExactLookup]: {
    name: "exact look-up",
    kind: "switch",
    arity: 2,
    number: (x, number) => {
      const table = tableAt(number);
      if (!table) return NaN;
      const place = placeOf(table, x);
      return isKey(table, place, x) ? table.values[place] : NaN;
    },
    // Between two keys there is no value.
    range: (out, low, high, number, most) => {
      const table = number === most ? tableAt(number) : undefined;
      const place = table ? placeOf(table, low) : -1;
      if (!table || !isKey(table, place, low) || !isKey(table, place, high)) return interval.undefinedRange(out);
      interval.set(out, table.values[place], table.values[place]);
    },
    slopes: (out) => {
      noSlope(out, 0);
      noSlope(out, 1);
    },
    trouble: "is none of the keys",
  },
  [Op.PairMember]: {
    name: "member of a pair",
    kind: "switch",
    arity: 2,
    number: memberOfPair,
    range: (out, low, high, number, most) => {
      if (number !== most || !hasPair(low) || !hasPair(high)) return interval.undefinedRange(out);
      if (low < high) return boundsOfMembers(out, low, high, number);
      const value = memberOfPair(low, number);
      interval.set(out, value, value);
    },
    slopes: (out, low, high) => {
      noSlope(out, 1);
      if (low === high) noSlope(out, 0);
      else anySlope(out, 0);
    },
    trouble: "is not above zero, where the members of a series are",
  },
  [Op.Interpolate]: {
    name: "interpolation",
    kind: "smooth",
    arity: 2,
    number: (x, number) => {
      const table = tableAt(number);
      return table ? onCurve(table, x) : NaN;
    },
    range: curveRange,
    slopes: (out, low, high, number) => {
      noSlope(out, 1);
      const table = tableAt(number);
      if (table) curveSlopes(out, table, low, high);
      else anySlope(out, 0);
    },
    trouble: "lies outside the points",
  },
} satisfies Partial<Record<Op, Operation>>;

const PAIRINGS: readonly Pairing[] = ["ratio", "sum", "parallel"];

/** The second operand of {@link Op.PairMember}: which series, what the pair is for, and which of the two. */
export function pairNumber(series: SeriesName, pairing: Pairing, member: 0 | 1): number {
  return 10 * Number(series.slice(1)) + 2 * PAIRINGS.indexOf(pairing) + member;
}

function memberOfPair(x: number, number: number): number {
  const series = seriesOf(Math.floor(number / 10));
  const which = number % 10;
  return series && which < 2 * PAIRINGS.length ? pairFor(series, PAIRINGS[which >> 1], x)[which & 1] : NaN;
}

/** Where the members of a pair can lie at all; which pair it is jumps about with what is wanted. */
function boundsOfMembers(out: Ends, low: number, high: number, number: number): void {
  const pairing = PAIRINGS[(number % 10) >> 1];
  if (pairing === "ratio") interval.set(out, 1, 25 * Math.max(high, 1 / low));
  else if (pairing === "sum") interval.set(out, low / 10_000, 2.5 * high);
  else interval.set(out, low / 2.5, 10_000 * high);
}

/** The derivative of a curve at a point; at one of its points the mean of those on either side. */
export function slopeOnCurve(number: number, x: number): number {
  const table = tableAt(number);
  if (!table) return NaN;
  const [first, last] = piecesBetween(table, x, x);
  return (slopeOfPiece(table, first, x) + slopeOfPiece(table, last, x)) / 2;
}

/** The series of a number, as the tape has it: 24 is E24. */
function seriesOf(number: number): SeriesName | undefined {
  return SERIES_NAMES.find((name) => name === `E${number}`);
}

/** A pick from a series of preferred numbers is a rising step function of what is wanted. */
function pickFromSeries(name: string, pick: (series: SeriesName, x: number) => number): Operation {
  const f = (x: number, number: number) => {
    const series = seriesOf(number);
    return series ? pick(series, x) : NaN;
  };
  return {
    name,
    kind: "jumps",
    arity: 2,
    number: (x, number) => f(x, number),
    range: (out, low, high, number, most) =>
      number === most ? interval.set(out, f(low, number), f(high, number)) : interval.undefinedRange(out),
    slopes: (out, low, high, number) => {
      slope(out, 0, f(low, number) === f(high, number) ? 0 : Infinity);
      noSlope(out, 1);
    },
    trouble: "is not above zero, where the members of a series are",
  };
}

/** What a few roundings can do: half a unit in the last place each, and some to spare. */
const ROUNDING = 2 ** -50;
/** The parts of a cubic may be so many times what it rises from one point to the next, and cancel each other. */
const PARTS = 32;

/** Between two points a curve rises or falls, so its ends and the points between them are the extremes. */
function curveRange(out: Ends, low: number, high: number, number: number, most: number): void {
  const table = number === most ? tableAt(number) : undefined;
  const [a, b] = table ? [onCurve(table, low), onCurve(table, high)] : [NaN, NaN];
  if (!table || Number.isNaN(a) || Number.isNaN(b)) return interval.undefinedRange(out);
  const [first, last] = piecesBetween(table, low, high);
  const touched = table.values.subarray(first, last + 2);
  const inside = table.values.subarray(first + 1, last + 1);
  const [aError, bError] = [errorAt(table, low, a), errorAt(table, high, b)];
  const from = Math.min(a - aError, b - bError, least(inside));
  const to = Math.max(a + aError, b + bError, greatest(inside));
  interval.set(out, Math.max(from, least(touched)), Math.min(to, greatest(touched)));
}

/** How far a value on the curve may be from the true one; the points themselves are exact. */
function errorAt(table: PointTable, x: number, value: number): number {
  const place = placeOf(table, x);
  if (isKey(table, place, x)) return 0;
  const { values, square, cube } = table;
  const isLine = square[place] === 0 && cube[place] === 0;
  const rise = isLine ? Math.abs(value - values[place]) : PARTS * Math.abs(values[place + 1] - values[place]);
  return ROUNDING * (Math.abs(values[place]) + rise);
}

/** The first and the last piece that an interval touches; a point of the curve belongs to both its pieces. */
function piecesBetween(table: PointTable, low: number, high: number): [first: number, last: number] {
  const most = table.keys.length - 2;
  const at = placeOf(table, low);
  const first = isKey(table, at, low) ? at - 1 : at;
  return [Math.min(most, Math.max(0, first)), Math.min(most, Math.max(0, placeOf(table, high)))];
}

function curveSlopes(out: Ends, table: PointTable, low: number, high: number): void {
  const { keys, values, square, cube } = table;
  const [first, last] = piecesBetween(table, low, high);
  let least = Infinity;
  let most = -Infinity;
  for (let piece = first; piece <= last; piece++) {
    const from = Math.min(Math.max(low, keys[piece]), keys[piece + 1]);
    const to = Math.max(Math.min(high, keys[piece + 1]), keys[piece]);
    const vertex = keys[piece] - square[piece] / (3 * cube[piece]);
    const at = [from, to, ...(vertex > from && vertex < to ? [vertex] : [])];
    const slopes = at.map((x) => slopeOfPiece(table, piece, x));
    // A piece goes one way only, whatever the rounding of its slope.
    const rise = values[piece + 1] - values[piece];
    const way = (x: number) => (rise > 0 ? Math.max(0, x) : rise < 0 ? Math.min(0, x) : 0);
    least = Math.min(least, way(outward(Math.min(...slopes), -1)));
    most = Math.max(most, way(outward(Math.max(...slopes), 1)));
  }
  slope(out, least, most);
}

function slopeOfPiece({ keys, slope: first, square, cube }: PointTable, piece: number, x: number): number {
  const u = x - keys[piece];
  return first[piece] + u * (2 * square[piece] + u * 3 * cube[piece]);
}

function least(values: Float64Array): number {
  return values.reduce((a, b) => Math.min(a, b), Infinity);
}

function greatest(values: Float64Array): number {
  return values.reduce((a, b) => Math.max(a, b), -Infinity);
}

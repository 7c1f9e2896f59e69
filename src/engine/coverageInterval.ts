import { finish } from "./slices";
import type { Limits } from "./spread";

/**
 * Coverage intervals from a sample of a quantity's values: JCGM 101:2008, 7.7.
 */
export interface CoverageIntervals {
  /** As much probability lies below it as above it (7.7.2). */
  readonly symmetric: Limits;
  /** The shortest of all (7.7.3, 7.7.4). */
  readonly shortest: Limits;
}

/**
 * Values below and above which the ends of the intervals are looked for, so that the middle need not be sorted.
 * A guess that takes in too little costs time, never a wrong result.
 */
export interface Cuts {
  readonly below: number;
  readonly above: number;
}

/** How far the cuts lie inside the tails that are needed, in standard deviations of the number of values there. */
const CUT_MARGIN = 5;

/** Cuts for more values like these. They are sorted in place. */
export function cutsFrom(pilot: Float64Array, probability: number): Cuts {
  pilot.sort();
  const count = pilot.length;
  const tail = count * (1 - probability);
  const place = Math.min(count - 1, Math.ceil(tail + CUT_MARGIN * Math.sqrt(tail)));
  return { below: pilot[place], above: pilot[count - 1 - place] };
}

/**
 * Both intervals that hold the share `probability` of the values, which are at least two and all finite.
 * It pauses between passes and sorts.
 */
export function* coverageIntervals(
  values: Float64Array,
  probability: number,
  cuts: Cuts,
): Generator<void, CoverageIntervals> {
  const inside = insideOf(values.length, probability);
  const tails = yield* tailsOf(values, values.length - inside, cuts);
  const { low, high } = tails;
  let from = 0;
  const span = (rank: number) => high[high.length - values.length + rank + inside] - low[rank];
  for (let rank = 1; rank < values.length - inside; rank++) if (span(rank) < span(from)) from = rank;
  return {
    symmetric: symmetricFrom(tails, values.length, inside),
    shortest: interval(tails, values.length, from, inside),
  };
}

/** The probabilistically symmetric interval alone, at once. */
export function symmetricInterval(values: Float64Array, probability: number, cuts: Cuts): Limits {
  const inside = insideOf(values.length, probability);
  const rank = symmetricRank(values.length, inside);
  const needed = Math.max(rank + 1, values.length - inside - rank);
  return symmetricFrom(finish(tailsOf(values, needed, cuts)), values.length, inside);
}

/** The least and the greatest values, each in rising order. */
interface Tails {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** Values that are looked at before a pause: about 2 ms. */
const PASS = 2 ** 18;

/** Room for each tail, in multiples of what is needed. Cuts that take in more are no help. */
const ROOM = 4;

/** At least so many of the least and of the greatest values. Those that equal a cut, which can be most, are only counted. */
function* tailsOf(values: Float64Array, needed: number, { below, above }: Cuts): Generator<void, Tails> {
  const room = Math.min(values.length, ROOM * needed);
  const low = new Float64Array(room);
  const high = new Float64Array(room);
  let [lows, highs, atLow, atHigh] = [0, 0, 0, 0];
  for (let start = 0; start < values.length && lows <= room && highs <= room; start += PASS) {
    const end = Math.min(values.length, start + PASS);
    for (let i = start; i < end; i++) {
      const value = values[i];
      if (value < below) {
        if (lows < room) low[lows] = value;
        lows++;
      } else if (value === below) atLow++;
      if (value > above) {
        if (highs < room) high[highs] = value;
        highs++;
      } else if (value === above) atHigh++;
    }
    yield;
  }
  if (lows > room || highs > room || lows + atLow < needed || highs + atHigh < needed) {
    const sorted = values.slice().sort();
    return { low: sorted, high: sorted };
  }
  const least = new Float64Array(Math.max(needed, lows)).fill(below);
  least.set(low.subarray(0, lows).sort());
  yield;
  const greatest = new Float64Array(Math.max(needed, highs)).fill(above);
  greatest.set(high.subarray(0, highs).sort(), greatest.length - highs);
  yield;
  return { low: least, high: greatest };
}

/** The number of values from one end of the interval to the other (7.7.1). */
function insideOf(count: number, probability: number): number {
  return Math.min(count - 1, Math.floor(probability * count + 0.5));
}

/** Counted from 0. */
function symmetricRank(count: number, inside: number): number {
  return Math.floor((count - inside + 1) / 2) - 1;
}

function symmetricFrom(tails: Tails, count: number, inside: number): Limits {
  return interval(tails, count, symmetricRank(count, inside), inside);
}

function interval({ low, high }: Tails, count: number, rank: number, inside: number): Limits {
  return { low: low[rank], high: high[high.length - count + rank + inside] };
}

import { decade, nextDown, nextUp, type SeriesName } from "./series";

/** What two members of a series are to make together: one over the other, one after the other, or side by side. */
export type Pairing = "ratio" | "sum" | "parallel";

export type Pair = readonly [first: number, second: number];

/** What differs by less is the noise of decimal fractions; of pairs that are as good the first one found stays. */
const CLOSENESS = 1e-12;

/** Beyond these no quantity is, and members next to them are not told apart or infinite. */
const SMALLEST = 1e-200;
const LARGEST = 1e200;

const NO_PAIR: Pair = [NaN, NaN];

/**
 * The two members of a series that come nearest to x together: first / second = x, first + second = x, or
 * 1/first + 1/second = 1/x. Every pair is tried that can be the best.
 *
 * Of a ratio only the proportion of the two is asked for: the smaller lies between 1 and 10. Of a sum the first is the
 * greater, of a parallel value the smaller; they are no more than a thousand times apart, and of pairs that are as good
 * the one whose first member is nearest to x is taken. Not a number unless x is positive, between 1e-200
 * and 1e200.
 */
export function pairFor(series: SeriesName, pairing: Pairing, x: number): Pair {
  if (!hasPair(x)) return NO_PAIR;
  switch (pairing) {
    case "ratio":
      if (x >= 1) return ratioFor(series, x);
      return [...ratioFor(series, 1 / x)].reverse() as [number, number];
    case "sum":
      return sumFor(series, x);
    case "parallel":
      return parallelFor(series, x);
  }
}

/** Whether there is a pair for x at all. */
export function hasPair(x: number): boolean {
  return x > SMALLEST && x < LARGEST;
}

function ratioFor(series: SeriesName, x: number): Pair {
  const best = new Best();
  for (const second of decade(series))
    for (const first of aroundOf(series, x * second))
      best.offer([first, second], Math.abs(Math.log(first / (x * second))));
  return best.pair;
}

function sumFor(series: SeriesName, x: number): Pair {
  const best = new Best();
  for (let first = nextUp(series, x); first >= x / WIDEST; first = nextDown(series, below(first))) {
    for (const second of aroundOf(series, Math.max(x - first, first / FURTHEST)))
      best.offer([Math.max(first, second), Math.min(first, second)], Math.abs(first + second - x) / x);
  }
  return best.pair;
}

function parallelFor(series: SeriesName, x: number): Pair {
  const best = new Best();
  for (let first = nextDown(series, x); first <= x * WIDEST; first = nextUp(series, above(first))) {
    const rest = Math.max(1 / x - 1 / first, 1 / (FURTHEST * first));
    for (const second of aroundOf(series, 1 / rest)) {
      const value = (first * second) / (first + second);
      best.offer([Math.min(first, second), Math.max(first, second)], Math.abs(value - x) / x);
    }
  }
  return best.pair;
}

/** The two are not further apart than this: a second member that is less beside the first than its tolerance says nothing. */
const FURTHEST = 1000;
/** Two equal members may both lie below half of x, or above twice x: as far as the widest step of a series, 2.2. */
const WIDEST = 2 * 2.2;

/** The members on either side. */
function aroundOf(series: SeriesName, x: number): readonly number[] {
  return [nextDown(series, x), nextUp(series, x)].filter((member) => member > 0 && member < Infinity);
}

/** A step off a member that passes no other: the closest two of E192 are half a per cent apart. */
const STEP = 1e-4;
const below = (member: number) => member * (1 - STEP);
const above = (member: number) => member * (1 + STEP);

class Best {
  pair = NO_PAIR;
  private deviation = Infinity;

  offer(pair: Pair, deviation: number): void {
    if (!(deviation < this.deviation - CLOSENESS)) return;
    this.pair = pair;
    this.deviation = deviation;
  }
}

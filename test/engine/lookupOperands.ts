import fc from "fast-check";
import { pairNumber } from "../../src/engine/lookups";
import { Op } from "../../src/engine/operation";
import { hold, pointTable, type Between } from "../../src/engine/pointTables";
import type { SeriesName } from "../../src/quantity/series";
import type { Pairing } from "../../src/quantity/seriesPairs";

/** Keys that no rounded number meets, so that a generated point is at a jump or kink only where it is meant to be. */
const KEYS = [-2.871, -1.13, 0.037, 0.71, 1.933, 2.919];
const RISING = [-3, -1, -1, 0.5, 4, 4.5];
const FALLING = RISING.map((y) => 1 - 2 * y);
const ZIGZAG = [0, 2, -1, -1, 3, 0.25];
const ALL = [RISING, FALLING, ZIGZAG];

/** The number of a table that is not forgotten, whatever other tests look up in. */
function held(values: readonly number[], between?: Between): number {
  const number = pointTable(KEYS, values, between);
  hold(number);
  return number;
}

const series = fc.constantFrom(3, 6, 12, 24, 48, 96, 192);
const steps = fc.constantFrom(...ALL.map((values) => held(values)));
const curves = fc.constantFrom(...ALL.flatMap((values) => [held(values), held(values, "smooth")]));

const pairs = fc
  .tuple(
    fc.constantFrom<SeriesName>("E3", "E12", "E24"),
    fc.constantFrom<Pairing>("ratio", "sum", "parallel"),
    fc.constantFrom<0 | 1>(0, 1),
  )
  .map(([name, pairing, member]) => pairNumber(name, pairing, member));

/** The second operand of operations that look up: the number of a series, or of a table of points. It is always exact. */
export const LOOKED_IN: ReadonlyMap<number, fc.Arbitrary<number>> = new Map([
  [Op.Nearest, series],
  [Op.Below, series],
  [Op.Above, series],
  [Op.StepLookup, steps],
  [Op.ExactLookup, steps],
  [Op.Interpolate, curves],
  [Op.PairMember, pairs],
]);

/** The keys of the tables. */
export const LOOKED_UP: readonly number[] = KEYS;

import type { Cone } from "./cone";
import { shareOfBuilds, type Share, type ShareSettings } from "./shareOfBuilds";
import type { Spread } from "./spread";
import type { Progress } from "./trialCount";

/** Values at which the operating conditions are held, by their places among the inputs of a cone. */
export type Condition = ReadonlyMap<number, number>;

/** Most conditions at which shares are taken. */
const MOST_CONDITIONS = 64;

/** Places of one condition between its limits, with the ends, from the finest raster to the coarsest. */
const RASTERS: readonly (readonly number[])[] = [
  [0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1],
  [0, 0.25, 0.5, 0.75, 1],
  [0, 0.5, 1],
  [0, 1],
];

/**
 * The conditions at which shares of builds are taken: a raster over all that are held, in every combination, with both
 * ends of each. One condition without changes where there is none to hold. Where even the ends have more combinations than
 * are affordable, each condition takes its ends in turn while the others are nominal, and so do all together.
 */
export function conditionsOf(cone: Cone, spreads: readonly Spread[]): readonly Condition[] {
  const held = spreads.flatMap(({ shape }, i) => (shape === "held" ? [i] : []));
  const raster = RASTERS.find((places) => places.length ** held.length <= MOST_CONDITIONS);
  const at = (input: number, place: number) => {
    const { low, high } = cone.inputs[input];
    return place === 1 ? high : low + place * (high - low);
  };
  if (raster) {
    let conditions: Condition[] = [new Map()];
    for (const input of held)
      conditions = conditions.flatMap((condition) =>
        raster.map((place) => new Map(condition).set(input, at(input, place))),
      );
    return conditions;
  }
  const together = [0, 1].map((place) => new Map(held.map((input) => [input, at(input, place)])));
  const alone = held.flatMap((input) => [0, 1].map((place) => new Map([[input, at(input, place)]])));
  return [...together, ...alone];
}

/** The share of builds at the condition where it is lowest. */
export interface LowestShare extends Share {
  readonly at: Condition;
  /** At how many conditions it was taken. */
  readonly conditions: number;
}

/**
 * The share of builds that keep a condition at each of the operating conditions: the lowest. The same builds pass
 * through all conditions, so that they are compared without noise. In slices, as the propagation.
 */
export function* lowestShare(
  cone: Cone,
  spreads: readonly Spread[],
  conditions: readonly Condition[],
  settings: ShareSettings,
): Generator<Progress, LowestShare> {
  let lowest: LowestShare | undefined;
  for (const [done, at] of conditions.entries()) {
    const share = yield* amongAll(shareOfBuilds(cone, spreads, { ...settings, held: at }), done, conditions.length);
    if (!lowest || share.share < lowest.share) lowest = { ...share, at, conditions: conditions.length };
  }
  if (!lowest) throw new Error("A share of builds is taken at one condition at least.");
  return lowest;
}

/** A run that is one of several alike, its progress told as that of all of them. */
function* amongAll<T>(run: Generator<Progress, T>, done: number, runs: number): Generator<Progress, T> {
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
    const { trials, expected } = step.value;
    yield { trials: done * expected + trials, expected: runs * expected };
  }
}

import { affordableTrials } from "./builds";
import { coneWithin } from "./cone";
import type { Entry } from "./entry";
import { propagate } from "./monteCarlo";
import type { Limits } from "./spread";
import type { Progress, TrialCount } from "./trialCount";
import type { BudgetSource } from "./uncertaintyBudget";

/** How a value is distributed from build to build, with operating conditions nominal, in coherent SI units. */
export interface ValueDistribution {
  readonly mean: number;
  readonly standardDeviation: number;
  /** It holds 95 % of builds, with as many below it as above (JCGM 101:2008, 7.7.2). */
  readonly interval95: Limits;
  readonly trials: number;
  /** Trials in which there is no value, left out of the figures. */
  readonly withoutValue: number;
}

/** What rests on more operations than this is not tried: a million builds of it would take minutes. */
const LARGEST_CONE = 2_000;

/**
 * The distribution of a result of an entry by trials (JCGM 101:2008, 7), drawn from a seed. Undefined where nothing varies
 * from build to build, where it has no value, and where it rests on more than is
 * affordable. What it works on is copied at the call; then it runs in slices.
 */
export function distributionOf(
  source: BudgetSource,
  entry: Entry,
  result: number,
  count: TrialCount,
  seed: string,
): Generator<Progress, ValueDistribution | undefined> | undefined {
  if (result >= entry.results.length || Number.isNaN(source.slots.nominal[entry.results.from + result]))
    return undefined;
  const cone = coneWithin(source, entry, result, LARGEST_CONE);
  if (!cone) return undefined;
  const spreads = cone.inputs.map(({ slot }) => source.inputPlace(slot).spread);
  if (spreads.every(({ shape }) => shape === "held")) return undefined;
  const correlations = source.correlationsAmong?.(cone.inputs) ?? [];
  const most = count === "adaptive" ? { most: affordableTrials(cone, 1) } : { trials: count };
  return figures(propagate(cone, spreads, { seed, correlations, ...most }));
}

function* figures(run: ReturnType<typeof propagate>): Generator<Progress, ValueDistribution | undefined> {
  const { mean, standardDeviation, symmetric, trials, withoutValue } = yield* run;
  return Number.isNaN(mean) ? undefined : { mean, standardDeviation, interval95: symmetric, trials, withoutValue };
}

import type { Cone } from "./cone";
import { coverageFactor } from "./coverageFactor";
import type { DrawSettings } from "./draws";
import type { Spread } from "./spread";
import { MOST_TRIALS, type Progress } from "./trialCount";
import { Trials } from "./trials";

/** The share of builds in which a condition is true, as found by trials. */
export interface Share {
  readonly trials: number;
  readonly kept: number;
  /** Trials in which the condition has no value. Such a build does not keep it. */
  readonly withoutValue: number;
  readonly share: number;
  /** Between these the true share lies with a probability of 95 % (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927). */
  readonly low: number;
  readonly high: number;
  /** Where a share is required: whether it is reached; undefined where the trials do not tell. */
  readonly reaches?: boolean;
}

export interface ShareSettings extends DrawSettings {
  /** The number of trials; without it, until the share is known well enough. */
  readonly trials?: number;
  /** The share that the rule asks for. Trials then go on until it is certain on which side of it the true one lies. */
  readonly required?: number;
  readonly most?: number;
}

/** Trials between looks at the result. */
const LOOK = 10_000;

/** The share is known well enough when the interval about it is no wider than this to either side. */
const RESOLUTION = 0.001;

/** Standard deviations that decide about a required share: so many that a hundred looks do not decide by chance. */
const DECISION = 5;

/**
 * The share of builds that keep a condition: a cone whose result is a truth, 1 or 0. In slices, as the propagation.
 * Inputs that every build passes through are to be held at a value, one run for each (`settings.held`).
 */
export function* shareOfBuilds(
  cone: Cone,
  spreads: readonly Spread[],
  settings: ShareSettings,
): Generator<Progress, Share> {
  const most = Math.max(1, settings.trials ?? settings.most ?? MOST_TRIALS);
  const trials = new Trials(cone, spreads, settings);
  const block = new Float64Array(LOOK);
  let share = shareOf(0, 0, 0, settings.required);
  while (share.trials < most) {
    const count = Math.min(LOOK, most - share.trials);
    yield* trials.run(block, count, { trials: share.trials, expected: most });
    let { kept, withoutValue } = share;
    for (let i = 0; i < count; i++) {
      if (block[i] === 1) kept++;
      else if (Number.isNaN(block[i])) withoutValue++;
    }
    share = shareOf(share.trials + count, kept, withoutValue, settings.required);
    yield { trials: share.trials, expected: most };
    if (settings.trials === undefined && isKnown(share, settings.required)) break;
  }
  return share;
}

function isKnown({ low, high, reaches }: Share, required: number | undefined): boolean {
  return high - low <= 2 * RESOLUTION && (required === undefined || reaches !== undefined);
}

function shareOf(trials: number, kept: number, withoutValue: number, required: number | undefined): Share {
  const [low, high] = bounds(trials, kept, coverageFactor(0.95, Infinity));
  const figures = { trials, kept, withoutValue, share: trials > 0 ? kept / trials : NaN, low, high };
  if (required === undefined) return figures;
  const [least, greatest] = bounds(trials, kept, DECISION);
  return least >= required
    ? { ...figures, reaches: true }
    : greatest < required
      ? { ...figures, reaches: false }
      : figures;
}

/** Wilson's interval at z standard deviations. */
function bounds(trials: number, kept: number, z: number): [number, number] {
  if (trials === 0) return [0, 1];
  const share = kept / trials;
  const weight = 1 + (z * z) / trials;
  const middle = (share + (z * z) / (2 * trials)) / weight;
  const half = (z / weight) * Math.sqrt((share * (1 - share)) / trials + (z * z) / (4 * trials * trials));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

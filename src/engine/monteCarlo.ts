import type { Cone } from "./cone";
import { coverageIntervals, cutsFrom, symmetricInterval, type CoverageIntervals, type Cuts } from "./coverageInterval";
import type { DrawSettings } from "./draws";
import type { Limits, Spread } from "./spread";
import { MOST_TRIALS, type Progress } from "./trialCount";
import { Trials } from "./trials";

/**
 * The distribution of a result by propagation of the distributions of its inputs: JCGM 101:2008, clause 7.
 */
export interface Distribution extends CoverageIntervals {
  readonly trials: number;
  /** Trials in which the result has no value, as a root of a negative one; they are left out of the figures. */
  readonly withoutValue: number;
  /** NaN where hardly a trial has a value, like all figures then. */
  readonly mean: number;
  readonly standardDeviation: number;
  /** Whether the figures are good to the digits asked for; undefined where the number of trials was given. */
  readonly isStable?: boolean;
}

export interface PropagationSettings extends DrawSettings {
  /** Coverage probability of the intervals: 0.95 unless told. */
  readonly probability?: number;
  /** The number of trials; without it the adaptive procedure decides (7.9). */
  readonly trials?: number;
  /** Significant digits of the standard deviation to which the adaptive procedure makes the figures good: 2 unless told. */
  readonly digits?: number;
  /** Most trials of the adaptive procedure. */
  readonly most?: number;
}

/**
 * Propagates the distributions. Runs in slices: each step is a few milliseconds of work, and gives how far it has come;
 * who does not ask for the next one has cancelled it. The same cone, spreads and settings give the same figures.
 */
export function* propagate(
  cone: Cone,
  spreads: readonly Spread[],
  settings: PropagationSettings,
): Generator<Progress, Distribution> {
  const probability = settings.probability ?? 0.95;
  const isAdaptive = settings.trials === undefined;
  const most = Math.max(1, settings.trials ?? settings.most ?? MOST_TRIALS);
  const sequence = blockSize(probability);
  const trials = new Trials(cone, spreads, settings);
  const kept = new Kept(probability, Math.min(most, 16 * sequence));
  const stability = new Stability(settings.digits ?? 2);
  const block = new Float64Array(sequence);
  let done = 0;
  let expected = isAdaptive ? FEWEST_SEQUENCES * sequence : most;
  let isStable = false;
  while (done < most && !isStable) {
    const count = Math.min(sequence, most - done);
    yield* trials.run(block, count, { trials: done, expected });
    done += count;
    const added = kept.add(block.subarray(0, count));
    if (isAdaptive && added > 1 && count === sequence) {
      stability.add(kept.lastBlock, symmetricInterval(kept.lastBlock.values, probability, kept.cuts!));
      const ratio = stability.ratio(kept.standardDeviation);
      isStable = ratio <= 1;
      // Errors of a mean shrink with the root of the number of trials.
      if (ratio !== Infinity) expected = Math.min(most, Math.max(done, Math.ceil(done * ratio * ratio)));
    }
    yield { trials: done, expected };
  }
  const intervals = yield* kept.intervals({ trials: done, expected: done });
  const { mean, standardDeviation } = kept;
  const figures = { trials: done, withoutValue: done - kept.values.length, mean, standardDeviation, ...intervals };
  return isAdaptive ? { ...figures, isStable } : figures;
}

const NO_INTERVALS: CoverageIntervals = { symmetric: { low: NaN, high: NaN }, shortest: { low: NaN, high: NaN } };

/** Trials in each sequence of the adaptive procedure (7.9.4 b). */
function blockSize(probability: number): number {
  return Math.max(10_000, Math.ceil(100 / (1 - probability)));
}

interface BlockFigures {
  readonly values: Float64Array;
  readonly mean: number;
  readonly standardDeviation: number;
}

/** The values of all trials so far, with their mean and standard deviation, which are added up block by block. */
class Kept {
  cuts?: Cuts;
  lastBlock: BlockFigures = { values: new Float64Array(0), mean: NaN, standardDeviation: NaN };
  private memory: Float64Array;
  private count = 0;
  private average = 0;
  private squares = 0;

  constructor(
    private readonly probability: number,
    capacity: number,
  ) {
    this.memory = new Float64Array(capacity);
  }

  get values(): Float64Array {
    return this.memory.subarray(0, this.count);
  }

  get mean(): number {
    return this.count > 0 ? this.average : NaN;
  }

  get standardDeviation(): number {
    return this.count > 1 ? Math.sqrt(this.squares / (this.count - 1)) : NaN;
  }

  /** Takes those that are values; how many they are. */
  add(block: Float64Array): number {
    const before = this.count;
    this.reserve(before + block.length);
    const { memory } = this;
    let sum = 0;
    for (let i = 0; i < block.length; i++) {
      const value = block[i];
      if (Number.isNaN(value)) continue;
      memory[this.count++] = value;
      sum += value;
    }
    const added = this.count - before;
    if (added === 0) return 0;
    const values = memory.subarray(before, this.count);
    const mean = sum / added;
    let squares = 0;
    let left = 0;
    for (let i = 0; i < added; i++) {
      const difference = values[i] - mean;
      left += difference;
      squares += difference * difference;
    }
    const corrected = mean + left / added;
    squares -= (left * left) / added;
    const apart = corrected - this.average;
    this.average += (apart * added) / this.count;
    this.squares += squares + (apart * apart * before * added) / this.count;
    this.lastBlock = { values, mean: corrected, standardDeviation: Math.sqrt(squares / Math.max(1, added - 1)) };
    this.cuts ??= cutsFrom(values.slice(), this.probability);
    return added;
  }

  /** The coverage intervals of all values; pauses in between with the progress as it was. */
  *intervals(progress: Progress): Generator<Progress, CoverageIntervals> {
    if (!this.cuts || this.count < 2) return NO_INTERVALS;
    const run = coverageIntervals(this.values, this.probability, this.cuts);
    for (;;) {
      const step = run.next();
      if (step.done) return step.value;
      yield progress;
    }
  }

  private reserve(size: number): void {
    if (size <= this.memory.length) return;
    const larger = new Float64Array(Math.max(size, this.memory.length * 2));
    larger.set(this.memory);
    this.memory = larger;
  }
}

/** The standard asks for two; how far so few are apart says little about how far their mean is off. */
const FEWEST_SEQUENCES = 10;

/** How well the figures of the sequences agree (7.9.4 e to j): mean, standard deviation and both ends of the interval. */
class Stability {
  private sequences = 0;
  private readonly means = new Float64Array(4);
  private readonly squares = new Float64Array(4);

  constructor(private readonly digits: number) {}

  add({ mean, standardDeviation }: BlockFigures, { low, high }: Limits): void {
    const figures = [mean, standardDeviation, low, high];
    this.sequences++;
    figures.forEach((figure, i) => {
      const apart = figure - this.means[i];
      this.means[i] += apart / this.sequences;
      this.squares[i] += apart * (figure - this.means[i]);
    });
  }

  /** Twice the largest standard deviation of an averaged figure, over the numerical tolerance: stable at 1 and below. */
  ratio(standardDeviation: number): number {
    if (this.sequences < FEWEST_SEQUENCES) return Infinity;
    const largest = Math.sqrt(Math.max(...this.squares) / (this.sequences * (this.sequences - 1)));
    return largest === 0 ? 0 : (2 * largest) / tolerance(standardDeviation, this.digits);
  }
}

/** Half a unit of the last of the significant digits: u written as c·10^l, where c has that many digits (7.9.2). */
function tolerance(u: number, digits: number): number {
  const exponent = Math.floor(Math.log10(u)) - (digits - 1);
  return 0.5 * 10 ** exponent;
}

import { coneWithin, type Cone, type ConeInput, type ConeSource } from "./cone";
import type { Correlation } from "./correlation";
import type { Entry } from "./entry";
import type { InputPlace, Push } from "./outcome";
import { pushedBy } from "./pushedBy";
import { degreesOfFreedomOf } from "./spread";
import {
  firstOrder,
  sharesOfRange,
  sharesOfVariance,
  variesWithoutSlope,
  type FirstOrder,
  type Shares,
} from "./uncertainty";

/**
 * What the uncertainty of a value is made of (JCGM 200:2012, 2.33): its standard uncertainty, and what each input
 * contributes. To first order about the nominal value; in coherent SI units. Worked out only when somebody asks.
 */
export interface UncertaintyBudget {
  /** Of builds, to first order; it differs from the nominal value where an input's typical is not its middle. */
  readonly mean: number;
  /** Undefined where an input that matters has no limit on one side, or the formula has no slope. */
  readonly standardUncertainty?: number;
  /** It varies, and has no slope at the nominal values, so that first order says nothing: trials tell. */
  readonly variesWithoutSlope?: true;
  /** Effective degrees of freedom (JCGM 100, G.4.1); Infinity where every input is known by its limits. */
  readonly degreesOfFreedom?: number;
  /** Those that matter, the largest share of the range first. */
  readonly contributions: readonly Contribution[];
  /** What is left of either whole: what inputs do together, and what curvature adds to each. */
  readonly interactions: { readonly ofRange?: number; readonly ofVariance?: number };
  /** The inputs that matter and have no limit on one side. */
  readonly unbounded: readonly InputPlace[];
  /** Of a range that is attained without a search: all inputs, with the ends that lead to the highest value. */
  readonly pushes: readonly Push[];
}

/** What one input brings. Shares of a whole lie between 0 and 1; with a correlation that of the variance may be negative. */
export interface Contribution {
  readonly input: InputPlace;
  /** An operating condition, which every build passes through: it has no share of the variance from build to build. */
  readonly isHeld: boolean;
  /** How well its standard uncertainty is known; Infinity for limits. */
  readonly degreesOfFreedom: number;
  /** |slope| × width of its limits, as a share of the range. Undefined where the range has no end, or no width. */
  readonly ofRange?: number;
  /** Undefined where there is no standard uncertainty, or it is zero. */
  readonly ofVariance?: number;
}

/** What a budget is worked out from: the notes, settled. */
export interface BudgetSource extends ConeSource {
  inputPlace(slot: number): InputPlace;
  /** The correlations among inputs (JCGM 100, 5.2), by their places in the list; none where it is absent. */
  correlationsAmong?(inputs: readonly ConeInput[]): readonly Correlation[];
}

/** With more inputs than this the variance is left to first order: curvature costs two sweeps an input. */
const MOST_BENT_INPUTS = 32;
/** The same where the pieces of a sum, each of which bends by itself, come to more operations than this. */
const MOST_WRITTEN_OUT = 20_000;
/** What rests on more operations than this is not told apart: somebody waits for the answer. */
const LARGEST_CONE = 2_000;

/**
 * Operations that may be looked at for the budgets of a whole note. They are counted, never timed, so that the same note
 * has the same figures anywhere: the values that come first in the text get theirs.
 */
export class Allowance {
  constructor(private left = 200_000) {}

  get most(): number {
    return Math.min(LARGEST_CONE, this.left);
  }

  take(operations: number): void {
    this.left -= operations;
  }
}

/** A share below this is shown by nobody and comes from rounding. */
const SMALLEST_SHARE = 1e-9;

/**
 * The budget of a result of an entry, by its place among the entry's results: one backward sweep over all that it rests
 * on. Undefined where it has no value, nothing that is uncertain reaches it, or it rests on more than is allowed.
 */
export function budgetOf(
  source: BudgetSource,
  entry: Entry,
  result: number,
  allowance = new Allowance(),
): UncertaintyBudget | undefined {
  const slot = entry.results.from + result;
  const { nominal } = source.slots;
  if (result >= entry.results.length || Number.isNaN(nominal[slot])) return undefined;
  const { most } = allowance;
  const cone = coneWithin(source, entry, result, most);
  allowance.take(cone ? cone.op.length : most);
  if (!cone || cone.inputs.length === 0) return undefined;
  const places = cone.inputs.map((input) => source.inputPlace(input.slot));
  const spreads = places.map(({ spread }) => spread);
  const correlations = source.correlationsAmong?.(cone.inputs) ?? [];
  const first = firstOrder(cone, spreads, correlations);
  const range = attainedRange(source, entry, result);
  const ofRange = sharesOfRange(cone, first, range);
  const isBent = cone.inputs.length <= MOST_BENT_INPUTS && mostPieces(cone) * cone.op.length <= MOST_WRITTEN_OUT;
  const isFlat = variesWithoutSlope(cone, spreads, first, entry.found?.[result] && range);
  const ofVariance = sharesOfVariance(cone, spreads, first, correlations, isBent);
  return {
    mean: first.mean,
    ...(isFlat
      ? { variesWithoutSlope: true as const }
      : {
          ...known("standardUncertainty", first.standardUncertainty),
          ...known("degreesOfFreedom", first.degreesOfFreedom),
        }),
    contributions: contributions(places, first, ofRange, ofVariance),
    interactions: {
      ...known("ofRange", ofRange?.interactions),
      ...(isBent ? known("ofVariance", ofVariance?.interactions) : {}),
    },
    unbounded: first.unbounded.map((i) => places[i]),
    pushes: pushedBy(source.slots, slot, (input) => source.inputPlace(input)),
  };
}

/** How many pieces the input of a sum stands for at most. */
function mostPieces({ inputs }: Cone): number {
  const pieces = inputs.map(({ sums = [] }) => sums.reduce((product, { count }) => product * count, 1));
  return Math.max(1, ...pieces);
}

/** The ends that are known to occur: what an enclosure has too much is no input's doing. */
function attainedRange({ slots }: ConeSource, entry: Entry, result: number): { low: number; high: number } {
  const searched = entry.found?.[result];
  const slot = entry.results.from + result;
  if (!searched) return { low: slots.low[slot], high: slots.high[slot] };
  if (searched.kind === "undefined") return { low: NaN, high: NaN };
  const { kind, low, high, bestLow, bestHigh } = searched;
  return kind === "attained" ? { low, high } : { low: bestLow, high: bestHigh };
}

function contributions(
  places: readonly InputPlace[],
  first: FirstOrder,
  ofRange: Shares | undefined,
  ofVariance: Shares | undefined,
): readonly Contribution[] {
  const all = places.map((input, i): Contribution => {
    const isHeld = input.spread.shape === "held";
    return {
      input,
      isHeld,
      degreesOfFreedom: degreesOfFreedomOf(input.spread),
      ...known("ofRange", ofRange?.ofInputs[i]),
      ...(isHeld ? {} : known("ofVariance", ofVariance?.ofInputs[i])),
    };
  });
  return all
    .filter((_, i) => first.derivatives[i] !== 0)
    .filter(({ ofRange, ofVariance }) => matters(ofRange) || matters(ofVariance))
    .sort(bySize);
}

function matters(share: number | undefined): boolean {
  return share !== undefined && Math.abs(share) >= SMALLEST_SHARE;
}

/** By the range, else by the variance; equal ones by name, so that the order of earlier edits does not show. */
function bySize(a: Contribution, b: Contribution): number {
  const size = ({ ofRange, ofVariance }: Contribution) => ofRange ?? Math.abs(ofVariance ?? 0);
  const [one, other] = [size(a), size(b)];
  if (Math.abs(one - other) > SMALLEST_SHARE) return other - one;
  return a.input.name < b.input.name ? -1 : a.input.name > b.input.name ? 1 : a.input.nominal - b.input.nominal;
}

function known<K extends string>(key: K, value: number | undefined): { readonly [P in K]?: number } {
  return (value === undefined ? {} : { [key]: value }) as { readonly [P in K]?: number };
}

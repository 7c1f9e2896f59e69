import type { Cone } from "./cone";
import { CONE_OPERATIONS } from "./coneOperations";
import type { Correlation } from "./correlation";
import { coverageFactor } from "./coverageFactor";
import { withEveryPiece } from "./everyPiece";
import { Gradient } from "./gradient";
import { slack } from "./operation";
import { degreesOfFreedomOf, kurtosisOf, standardUncertaintyOf, type Limits, type Spread } from "./spread";

/**
 * The standard uncertainty of a result to first order about its nominal value: the law of propagation of uncertainty
 * (JCGM 100:2008, 5.1.2; with correlations, 5.2.2). Everything is in coherent SI units, and lists run along the inputs of
 * the cone.
 */
export interface FirstOrder {
  readonly nominal: number;
  /** What a build has on average, to first order: not the nominal value where an input's typical is not its middle. */
  readonly mean: number;
  /** By each input at the nominal point (sensitivity coefficients, 5.1.3). */
  readonly derivatives: Float64Array;
  /** |derivative| × standard uncertainty of each input (5.1.3). */
  readonly parts: Float64Array;
  /** Undefined where an input that matters has no limit on one side, or a derivative is not finite. */
  readonly standardUncertainty: number | undefined;
  /** On account of which there is none: places among the inputs. */
  readonly unbounded: readonly number[];
  /**
   * Effective degrees of freedom (Welch–Satterthwaite, G.4.1); Infinity where all inputs are known by their limits.
   * Undefined where readings that are correlated matter, for which the formula does not hold.
   */
  readonly degreesOfFreedom: number | undefined;
}

export interface ExpandedUncertainty {
  readonly coverageFactor: number;
  readonly expandedUncertainty: number;
}

/** First-order uncertainty of the result of a cone; `spreads` runs along its inputs. */
export function firstOrder(
  cone: Cone,
  spreads: readonly Spread[],
  correlations: readonly Correlation[] = [],
): FirstOrder {
  const { inputs } = cone;
  const gradient = new Gradient(cone);
  const nominal = gradient.at(inputs.map((input) => input.nominal));
  const derivatives = gradient.derivatives.slice();
  const signed = derivatives.map((derivative, i) =>
    derivative === 0 ? 0 : derivative * standardUncertaintyOf(spreads[i], inputs[i]),
  );
  const hasValue = !Number.isNaN(nominal);
  const unbounded = inputs.flatMap((_input, i) => (!hasValue || Number.isFinite(signed[i]) ? [] : [i]));
  const isKnown = hasValue && unbounded.length === 0;
  return {
    nominal,
    mean: nominal + sumOf(derivatives, (derivative, i) => meanShift(derivative, spreads[i], inputs[i])),
    derivatives,
    parts: signed.map(Math.abs),
    standardUncertainty: isKnown ? Math.sqrt(Math.max(0, sumOf(varianceParts(signed, correlations)))) : undefined,
    unbounded,
    degreesOfFreedom: isKnown ? effectiveDegreesOfFreedom(signed, spreads, correlations) : undefined,
  };
}

/** The interval about the nominal value that holds the share `probability` (JCGM 100, 6.3, G.4.1). */
export function expanded(
  { standardUncertainty, degreesOfFreedom }: FirstOrder,
  probability = 0.95,
): ExpandedUncertainty | undefined {
  if (standardUncertainty === undefined || degreesOfFreedom === undefined) return undefined;
  const factor = coverageFactor(probability, degreesOfFreedom);
  return { coverageFactor: factor, expandedUncertainty: factor * standardUncertainty };
}

/** Shares of a whole, one for each input, which with `interactions` add up to 1. */
export interface Shares {
  readonly ofInputs: readonly number[];
  /** What the inputs do together and not one by one, and what curvature adds to each. */
  readonly interactions: number;
}

/**
 * Each input's share of the variance. The whole is the variance of the formula taken to second order about the nominal
 * point, to which first-order terms and squares of the second (JCGM 100, 5.1.2, note) add; they are differences of the
 * derivatives over one standard uncertainty to either side, within the limits. With correlations the whole is the first
 * order, and an input's share is what it and its half of the covariances bring, which may be negative.
 * Undefined where nothing varies, there is no standard uncertainty, or correlated inputs bend more than they slope.
 * @param toSecondOrder costs two sweeps an input; without it the whole is the first order.
 */
export function sharesOfVariance(
  cone: Cone,
  spreads: readonly Spread[],
  first: FirstOrder,
  correlations: readonly Correlation[] = [],
  toSecondOrder = true,
): Shares | undefined {
  if (first.standardUncertainty === undefined) return undefined;
  const signed = first.derivatives.map((derivative, i) => Math.sign(derivative) * first.parts[i]);
  const parts = varianceParts(signed, correlations);
  const bent = toSecondOrder ? secondOrderVariance(cone, spreads) : 0;
  // What curvature adds to correlated inputs is not known; where it may be most of the whole, there are no shares.
  if (correlations.length > 0 && bent > sumOf(parts)) return undefined;
  const interactions = correlations.length > 0 ? 0 : bent;
  const whole = sumOf(parts) + interactions;
  if (!(whole > 0)) return undefined;
  return { ofInputs: Array.from(parts, (part) => part / whole), interactions: interactions / whole };
}

/**
 * Each input's share of the range `low` .. `high` of the result: what its limits span at the slope of the nominal point.
 * Where that is more than the range, as with a formula that saturates, the shares are reduced to add up to 1.
 * Operating conditions have a share too. Undefined for a range without width or without an end.
 */
export function sharesOfRange(cone: Cone, first: FirstOrder, { low, high }: Limits): Shares | undefined {
  const width = high - low;
  if (!(width > 0 && width < Infinity)) return undefined;
  const spans = cone.inputs.map((input, i) =>
    first.derivatives[i] === 0 ? 0 : Math.abs(first.derivatives[i]) * (input.high - input.low),
  );
  const sum = sumOf(spans);
  if (!Number.isFinite(sum)) return undefined;
  const whole = Math.max(width, sum);
  return { ofInputs: spans.map((span) => span / whole), interactions: Math.max(0, 1 - sum / whole) };
}

/** By how much the mean of a build is moved by an input whose mean is not its nominal value. */
function meanShift(derivative: number, spread: Spread, { nominal, low, high }: Limits & { nominal: number }): number {
  return spread.shape === "even" && derivative !== 0 ? derivative * ((low + high) / 2 - nominal) : 0;
}

/** The variance by inputs: (cᵢuᵢ)², and of each covariance one half to either input (JCGM 100, 5.2.2, equation 16). */
function varianceParts(signed: Float64Array, correlations: readonly Correlation[]): Float64Array {
  const parts = signed.map((part) => part * part);
  for (const { a, b, r } of correlations) {
    parts[a] += r * signed[a] * signed[b];
    parts[b] += r * signed[a] * signed[b];
  }
  return parts;
}

/** JCGM 100, G.4.1, equation G.2b. */
function effectiveDegreesOfFreedom(
  signed: Float64Array,
  spreads: readonly Spread[],
  correlations: readonly Correlation[],
): number | undefined {
  const matters = (i: number) => signed[i] !== 0 && degreesOfFreedomOf(spreads[i]) !== Infinity;
  if (correlations.some(({ a, b, r }) => r !== 0 && (matters(a) || matters(b)))) return undefined;
  const variance = sumOf(signed, (part) => part * part);
  const sum = sumOf(signed, (part, i) => (part === 0 ? 0 : (part * part) ** 2 / degreesOfFreedomOf(spreads[i])));
  return sum === 0 ? Infinity : variance ** 2 / sum;
}

/**
 * What the second-order terms add to the variance of independent inputs: ½·(fᵢⱼuᵢuⱼ)² of each ordered pair, and of an
 * input by itself ¼·(κ − 1)·(fᵢᵢuᵢ²)², where κ is its kurtosis (½ for a normal one, as in the note to JCGM 100, 5.1.2).
 * Zero where the derivatives beside the nominal point do not exist. The pieces of a sum are written out, since each bends
 * by itself; all copies of an input bend alike, and one of them is looked at.
 */
function secondOrderVariance(original: Cone, spreadsOfOriginal: readonly Spread[]): number {
  const { cone, spreads, copyOf } = withEveryPiece({
    cone: original,
    spreads: spreadsOfOriginal,
    settings: { seed: "" },
  });
  const { inputs } = cone;
  const u = inputs.map((input, i) => standardUncertaintyOf(spreads[i], input));
  const gradient = new Gradient(cone);
  const point = inputs.map((input) => input.nominal);
  let variance = 0;
  for (let j = 0; j < original.inputs.length; j++) {
    if (!(u[j] > 0 && u[j] < Infinity)) continue;
    const { nominal, low, high } = inputs[j];
    const from = Math.max(low, nominal - u[j]);
    const to = Math.min(high, nominal + u[j]);
    if (!(to > from)) continue;
    point[j] = from;
    gradient.at(point);
    const below = gradient.derivatives.slice();
    point[j] = to;
    gradient.at(point);
    point[j] = nominal;
    const copies = copyOf ? sumOf(copyOf, (of) => (of === j ? 1 : 0)) : 1;
    for (let i = 0; i < inputs.length; i++) {
      const bend = ((gradient.derivatives[i] - below[i]) / (to - from)) * u[i] * u[j];
      const weight = i === j ? (kurtosisOf(spreads[j]) - 1) / 4 : 1 / 2;
      if (Number.isFinite(bend)) variance += copies * weight * bend * bend;
    }
  }
  return variance;
}

/** Inputs that are tried one by one. */
const MOST_TRIED = 64;

/**
 * Whether a result varies from build to build although it has no slope at the nominal point, by inputs one by one or all
 * together, or as its range says: then first order says nothing of it. So it is with x² about zero, |x| at its kink, and what is
 * rounded.
 * @param range two values that are known to occur, wherever among the inputs
 */
export function variesWithoutSlope(
  cone: Cone,
  spreads: readonly Spread[],
  first: FirstOrder,
  range: Limits = { low: NaN, high: NaN },
): boolean {
  if (first.standardUncertainty !== 0) return false;
  const isHeld = spreads.some(({ shape }) => shape === "held");
  // Without a jump what is left may be rounding.
  const jumps = cone.op.some((code) => CONE_OPERATIONS[code].kind !== "smooth");
  if (!isHeld && jumps && range.high - range.low > slack(range.low, range.high)) return true;
  const gradient = new Gradient(cone);
  const nominal = cone.inputs.map((input) => input.nominal);
  const varied = cone.inputs.flatMap((input, i) => (standardUncertaintyOf(spreads[i], input) > 0 ? [i] : []));
  const differs = (places: readonly number[], end: "low" | "high") => {
    const point = nominal.slice();
    for (const i of places) if (Number.isFinite(cone.inputs[i][end])) point[i] = cone.inputs[i][end];
    const value = gradient.at(point);
    return Number.isNaN(value) || Math.abs(value - first.nominal) > slack(value, first.nominal);
  };
  const tried = [varied, ...varied.slice(0, MOST_TRIED).map((i) => [i])];
  return tried.some((places) => differs(places, "low") || differs(places, "high"));
}

function sumOf(values: ArrayLike<number>, f: (value: number, place: number) => number = (value) => value): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += f(values[i], i);
  return sum;
}

import { coverageFactor } from "../engine/coverageFactor";
import type { Extent, InputPlace } from "../engine/outcome";
import type { Contribution, UncertaintyBudget } from "../engine/uncertaintyBudget";
import { showNumber, unitToShow } from "../quantity/display";
import { code, escaped } from "./markdown";
import { numberText, type Showable } from "./value";

/** Contributions that are named; the rest are summed up. */
const MOST_NAMED = 8;
/** A share that is less than this rounds to nothing. */
const LEAST_SHOWN = 0.005;
/** With so many degrees of freedom a standard uncertainty is as good as known: k is 1.98 instead of 1.96. */
const MANY_DEGREES = 100;
/** The share of values that a coverage factor is told for. */
const COVERED = 0.95;
const MARGIN_OF_ROUNDING = 1e-9;
/** From this share of the variance on it is told that first order is not all, also of a single input. */
const LEAST_BENT = 0.1;
/** A mean nearer to nominal than this many standard uncertainties is told by nobody. */
const LEAST_SHIFT = 0.1;

/** What the range of a quantity comes from, and its standard uncertainty, as paragraphs of Markdown. */
export function contributionsText(extent: Extent, of: Showable, budget: UncertaintyBudget): readonly string[] {
  const lines = [rangeText(extent, budget), uncertaintyText(extent, of, budget), heldText(budget)];
  const text = lines.filter((line) => line !== "").join("  \n");
  return text === "" ? [] : [text];
}

/** *V_f 71 %, supply 27 %, interactions 2 %*, the largest first; what rounds to nothing is left out. */
export function sharesText(
  contributions: readonly Contribution[],
  shareOf: (contribution: Contribution) => number | undefined,
  interactions: number | undefined,
): string {
  const shares = contributions.flatMap((each) => {
    const share = shareOf(each);
    return share === undefined || Math.abs(share) < LEAST_SHOWN ? [] : [{ name: each.input.name, share }];
  });
  shares.sort((a, b) => b.share - a.share);
  const parts = shares.slice(0, MOST_NAMED).map(({ name, share }) => `${name} ${perCent(share)}`);
  const rest = shares.slice(MOST_NAMED);
  if (rest.length > 0) parts.push(`${rest.length} more ${perCent(rest.reduce((sum, { share }) => sum + share, 0))}`);
  if (interactions !== undefined && interactions >= LEAST_SHOWN) parts.push(`interactions ${perCent(interactions)}`);
  return parts.join(", ");
}

/** Nothing where the quantity is itself the one input that there is. */
function rangeText(extent: Extent, { contributions, interactions }: UncertaintyBudget): string {
  if (isItself(extent, contributions)) return "";
  const shares = sharesText(contributions, ({ ofRange }) => ofRange, interactions.ofRange);
  return shares === "" ? "" : `Contributions to the range: ${escaped(shares)}`;
}

function uncertaintyText(extent: Extent, of: Showable, budget: UncertaintyBudget): string {
  const { standardUncertainty: u, degreesOfFreedom, contributions, interactions, mean, unbounded } = budget;
  if (budget.variesWithoutSlope)
    return "No standard uncertainty to first order: at the nominal values the formula has no slope. Trials tell how builds are spread";
  if (unbounded.length > 0)
    return `No standard uncertainty: ${unbounded.map(({ name }) => code(name)).join(", ")} has no known minimum`;
  if (u === undefined || u === 0) return "";
  // Nothing between two limits has a standard deviation of more than half their distance.
  if (u > ((extent.high - extent.low) / 2) * (1 + MARGIN_OF_ROUNDING))
    return "No standard uncertainty to first order: the formula bends too much between the limits";
  const parts = [`Standard uncertainty ${escaped(differenceText(u, of))}`];
  if (isItself(extent, contributions)) parts.push(shapeText(contributions[0].input));
  else if (contributions.filter(({ isHeld }) => !isHeld).length > 1 || (interactions.ofVariance ?? 0) >= LEAST_BENT)
    parts.push(
      `variance by ${escaped(sharesText(contributions, ({ ofVariance }) => ofVariance, interactions.ofVariance))}`,
    );
  if (degreesOfFreedom !== undefined && degreesOfFreedom < MANY_DEGREES) parts.push(freedomText(degreesOfFreedom));
  if (Math.abs(mean - extent.nominal) >= LEAST_SHIFT * u)
    parts.push(`on average ${escaped(numberText(rounded(mean, u, of), of))}`);
  return parts.join(", ");
}

/** Few degrees of freedom, and what they mean: more standard uncertainties for the same share (JCGM 100, G.3). */
function freedomText(degrees: number): string {
  const factor = Number(coverageFactor(COVERED, degrees).toPrecision(3));
  const most = Number(degrees.toPrecision(3));
  return `with ${most} degrees of freedom: ${COVERED * 100} % lie within ${factor} of it`;
}

/** Operating conditions apart: a range covers them, and no build is more likely to meet one of their values than another. */
function heldText({ contributions }: UncertaintyBudget): string {
  const held = contributions.filter(({ isHeld }) => isHeld).map(({ input }) => code(input.name));
  if (held.length === 0) return "";
  const [what, are] = held.length === 1 ? ["an operating condition", "is"] : ["operating conditions", "are"];
  return `${held.join(", ")} ${are} ${what}: part of the range, not of the standard uncertainty`;
}

function shapeText({ spread }: InputPlace): string {
  switch (spread.shape) {
    case "even":
      return "even between the limits";
    case "normal":
      return "normal about the nominal value";
    case "student":
      return "from the values that were read";
    case "held":
      return "";
  }
}

function isItself({ low, high }: Extent, contributions: readonly Contribution[]): boolean {
  const [first] = contributions as readonly (Contribution | undefined)[];
  return contributions.length === 1 && first!.input.low === low && first!.input.high === high;
}

/** Two digits (JCGM 100, 7.2.6), with the prefix that its own size asks for; of a temperature on a scale it is a difference. */
export function differenceText(u: number, { dimension, point, unit }: Showable): string {
  return showNumber(Number(u.toPrecision(2)), dimension, unit && !point ? { unit, anyPrefix: true } : {});
}

/** To a tenth of the standard uncertainty or finer, on the scale that it is shown on. */
export function rounded(x: number, u: number, { dimension, point, unit }: Showable): number {
  const shown = { nominal: x, low: x, high: x };
  const zero = point ? unitToShow(shown, dimension, { point, ...(unit ? { unit } : {}) }).zero : 0;
  const step = 10 ** (Math.floor(Math.log10(u)) - 1);
  return zero + Math.round((x - zero) / step) * step;
}

function perCent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

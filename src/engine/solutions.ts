import * as interval from "./interval";
import type { Ends } from "./interval";
import { Op, type Operation } from "./operation";
import { noSlope, slope } from "./operationParts";
import { pointTable, tableAt } from "./pointTables";

/**
 * The operations that a quantity is solved with: an interval Newton iteration, written out on the tape.
 *
 * A bracket around the root is certified where the residual has one sign at its lower end and the other at its upper end
 * ({@link Op.Bracketed}). Each step ({@link Op.Contract}) takes the residual r at the centre m of what is left, and its
 * derivative s over all of it: by the mean value theorem every root lies in m − r/s. The last operation
 * ({@link Op.Solution}) has the derivatives that the implicit function theorem gives, −(∂r/∂p)/(∂r/∂x): it passes on −1/s to the
 * residual, and the unknown itself, behind {@link Op.Settled}, counts as constant there.
 *
 * In the arithmetic of numbers the same operations are Newton's iteration from a root that was found before.
 * Source: R. E. Moore, R. B. Kearfott, M. J. Cloud, Introduction to Interval Analysis, SIAM 2009, 8.1.
 */
export const SOLUTIONS = {
  [Op.Bracketed]: {
    name: "bracket of a solution",
    kind: "smooth",
    arity: 3,
    number: (atLow, atHigh, bracket) => {
      const [, start] = bracketAt(bracket);
      return (atLow <= 0 && atHigh >= 0) || (atLow >= 0 && atHigh <= 0) ? start : NaN;
    },
    range: (out, atLowLow, atLowHigh, atHighLow, atHighHigh, bracket) => {
      const [low, , high] = bracketAt(bracket);
      const isCertain = (atLowHigh <= 0 && atHighLow >= 0) || (atLowLow >= 0 && atHighHigh <= 0);
      if (isCertain) interval.set(out, low, high);
      else interval.undefinedRange(out);
    },
    slopes: flat,
    trouble: "does not hold the solution for all values of the inputs",
  },
  [Op.Centre]: {
    name: "centre",
    kind: "smooth",
    arity: 1,
    number: (x) => x,
    range: (out, low, high) => interval.set(out, centre(low, high), centre(low, high)),
    slopes: flat,
    trouble: "has no solution",
  },
  [Op.Contract]: {
    name: "step towards a solution",
    kind: "smooth",
    arity: 3,
    number: newton,
    range: (out, low, high, residualLow, residualHigh, slopeLow, slopeHigh) => {
      interval.divide(out, residualLow, residualHigh, slopeLow, slopeHigh);
      const m = centre(low, high);
      interval.subtract(out, m, m, out[0], out[1]);
      const from = Math.max(low, out[0]);
      const to = Math.min(high, out[1]);
      // Where nothing is learnt, or only rounding is left, what was known stays.
      if (from <= to) interval.set(out, from, to);
      else interval.set(out, low, high);
    },
    slopes: flat,
    trouble: "has no solution",
  },
  [Op.Settled]: {
    name: "settled solution",
    kind: "smooth",
    arity: 3,
    number: (x, before, bracket) => {
      const [low, , high] = bracketAt(bracket);
      const near = SETTLED * Math.max(Math.abs(x), (high - low) * SETTLED);
      const isInside = x >= low - near && x <= high + near;
      return isInside && Math.abs(x - before) <= near ? x : NaN;
    },
    range: (out, low, high) => interval.set(out, low, high),
    slopes: flat,
    trouble: "has no solution that was found",
  },
  [Op.Solution]: {
    name: "solution",
    kind: "smooth",
    arity: 3,
    number: newton,
    range: (out, low, high, residualLow, _residualHigh, slopeLow, slopeHigh) => {
      if (Number.isNaN(residualLow) || !(slopeLow > 0 || slopeHigh < 0)) return interval.undefinedRange(out);
      const rounding = 2 ** -44 * Math.max(Math.abs(low), Math.abs(high));
      interval.set(out, low - rounding, high + rounding);
    },
    slopes: (out, _low, _high, _residualLow, _residualHigh, slopeLow, slopeHigh) => {
      noSlope(out, 0);
      noSlope(out, 2);
      interval.divide(out, -1, -1, slopeLow, slopeHigh);
      const isKnown = !Number.isNaN(out[0]);
      out[2] = isKnown ? out[0] : -Infinity;
      out[3] = isKnown ? out[1] : Infinity;
      slope(out, 0, 0);
    },
    trouble: "may hold several solutions, or one where the sides touch only",
  },
} satisfies Partial<Record<Op, Operation>>;

/** Newton's iteration has settled when it moves by less than this share of the solution; the next step squares it. */
const SETTLED = 1e-7;

/** The operand that stands for a bracket, and for the place in it where the search starts. */
export function bracketNumber(low: number, start: number, high: number): number {
  return pointTable([0, 1, 2], [low, start, high]);
}

const NO_BRACKET = [NaN, NaN, NaN];

function bracketAt(number: number): ArrayLike<number> & Iterable<number> {
  return tableAt(number)?.values ?? NO_BRACKET;
}

function newton(x: number, residual: number, slopeThere: number): number {
  return residual === 0 ? x : x - residual / slopeThere;
}

function centre(low: number, high: number): number {
  return low + (high - low) / 2;
}

function flat(out: Ends): void {
  out.fill(0);
}

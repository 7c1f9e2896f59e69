import * as interval from "./interval";
import type { Ends } from "./interval";
import { Op, type Operation } from "./operation";
import { anySlope, outward, rising, slope, slopeAtEnds, widened, type Slope } from "./operationParts";

const scratch = new Float64Array(2);
const OUTSIDE_ONE = "is taken of a value outside −1 .. 1";
const arcSlope =
  (sign: number): Slope =>
  (out, low, high) => {
    const f = (x: number) => sign / Math.sqrt(1 - x * x);
    const ends = [f(low), f(high), low <= 0 && high >= 0 ? sign : f(low)];
    slope(out, outward(Math.min(...ends), -1), outward(Math.max(...ends), 1));
  };

/** Roots, exponentials, logarithms and the functions of angles. */
export const FUNCTIONS = {
  [Op.SquareRoot]: rising(
    "sqrt",
    Math.sqrt,
    slopeAtEnds((x) => 0.5 / Math.sqrt(x)),
    "takes the root of a negative value",
  ),
  [Op.CubeRoot]: rising("cbrt", Math.cbrt, (out, low, high) => {
    const f = (x: number) => 1 / (3 * Math.cbrt(x) ** 2);
    if (low <= 0 && high >= 0) slope(out, outward(Math.min(f(low), f(high)), -1), Infinity);
    else slopeAtEnds(f)(out, low, high);
  }),
  [Op.Exp]: {
    ...rising("exp", Math.exp, slopeAtEnds(Math.exp)),
    range: (out, low, high) => {
      interval.rising(out, Math.exp, low, high);
      if (out[1] === 0) out[1] = interval.SMALLEST;
    },
  },
  [Op.Ln]: logarithm("ln", Math.log, 1),
  [Op.Log10]: logarithm("log10", Math.log10, Math.LN10),
  [Op.Log2]: logarithm("log2", Math.log2, Math.LN2),
  [Op.Sin]: {
    ...rising("sin", Math.sin, (out, low, high) => interval.wave(out, Math.cos, Math.PI, low, high)),
    range: (out, low, high) => interval.wave(out, Math.sin, -Math.PI / 2, low, high),
  },
  [Op.Cos]: {
    ...rising("cos", Math.cos, (out, low, high) => interval.wave(out, (x) => -Math.sin(x), Math.PI / 2, low, high)),
    range: (out, low, high) => interval.wave(out, Math.cos, Math.PI, low, high),
  },
  [Op.Tan]: {
    ...rising("tan", Math.tan, (out, low, high) => {
      tangentRange(scratch, low, high);
      interval.even(out, (t) => 1 + t * t, scratch[0], scratch[1]);
    }),
    range: tangentRange,
    trouble: "passes a right angle, where the tangent has no value",
  },
  [Op.Asin]: rising("asin", Math.asin, arcSlope(1), OUTSIDE_ONE),
  [Op.Acos]: {
    ...rising("acos", Math.acos, arcSlope(-1), OUTSIDE_ONE),
    range: (out, low, high) => interval.falling(out, Math.acos, low, high),
  },
  [Op.Atan]: rising("atan", Math.atan, (out, low, high) => {
    interval.even(scratch, (x) => 1 + x * x, low, high);
    interval.divide(out, 1, 1, scratch[0], scratch[1]);
  }),
  [Op.Sinh]: rising("sinh", Math.sinh, (out, low, high) => interval.even(out, Math.cosh, low, high)),
  [Op.Cosh]: {
    ...rising("cosh", Math.cosh, slopeAtEnds(Math.sinh)),
    range: (out, low, high) => interval.even(out, Math.cosh, low, high),
  },
  [Op.Tanh]: rising("tanh", Math.tanh, (out, low, high) => {
    interval.even(scratch, Math.cosh, low, high);
    interval.multiply(scratch, scratch[0], scratch[1], scratch[0], scratch[1]);
    if (Number.isNaN(scratch[0])) slope(out, 0, 1);
    else interval.divide(out, 1, 1, scratch[0], scratch[1]);
  }),
  [Op.Atan2]: {
    name: "atan2",
    kind: "switch",
    arity: 2,
    number: (y, x) => (x === 0 && y === 0 ? NaN : Math.atan2(y, x)),
    range: atan2Range,
    slopes: atan2Slopes,
    trouble: "has no direction at the origin",
  },
} satisfies Partial<Record<Op, Operation>>;

/** A logarithm, undefined from zero down. */
function logarithm(name: string, f: (x: number) => number, lnOfBase: number): Operation {
  return {
    ...rising(
      name,
      (x) => (x === 0 ? NaN : f(x)),
      slopeAtEnds((x) => 1 / (x * lnOfBase)),
      "takes the logarithm of zero or of a negative value",
    ),
    range: (out, low, high) => (low > 0 ? interval.rising(out, f, low, high) : interval.undefinedRange(out)),
  };
}

/** tan, undefined where a pole lies in the range. */
function tangentRange(out: Ends, low: number, high: number): void {
  if (high - low >= Math.PI || Math.floor(low / Math.PI + 0.5) !== Math.floor(high / Math.PI + 0.5))
    return interval.undefinedRange(out);
  interval.rising(out, Math.tan, low, high);
}

/** The angle of the point (x, y), undefined where that can be the origin. Across negative x it jumps by a full turn. */
function atan2Range(out: Ends, yLow: number, yHigh: number, xLow: number, xHigh: number): void {
  if (xLow <= 0 && yLow <= 0 && yHigh >= 0) {
    if (xHigh >= 0) return interval.undefinedRange(out);
    return widened(out, -Math.PI, Math.PI);
  }
  const corners = [Math.atan2(yLow, xLow), Math.atan2(yLow, xHigh), Math.atan2(yHigh, xLow), Math.atan2(yHigh, xHigh)];
  widened(out, Math.min(...corners), Math.max(...corners));
}

function atan2Slopes(out: Ends, yLow: number, yHigh: number, xLow: number, xHigh: number): void {
  if (xLow <= 0 && yLow <= 0 && yHigh >= 0) {
    anySlope(out, 0);
    anySlope(out, 1);
    return;
  }
  const square = new Float64Array(2);
  interval.even(square, (x) => x * x, xLow, xHigh);
  const low = square[0];
  const high = square[1];
  interval.even(square, (x) => x * x, yLow, yHigh);
  interval.add(square, low, high, square[0], square[1]);
  const sumLow = square[0];
  const sumHigh = square[1];
  // The squares of the smallest numbers vanish.
  if (!(sumLow > 0)) {
    anySlope(out, 0);
    anySlope(out, 1);
    return;
  }
  interval.divide(square, xLow, xHigh, sumLow, sumHigh);
  slope(out, square[0], square[1]);
  interval.divide(square, -yHigh, -yLow, sumLow, sumHigh);
  out[2] = square[0];
  out[3] = square[1];
}

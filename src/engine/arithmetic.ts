import * as interval from "./interval";
import type { Ends } from "./interval";
import { EQUALITY, Op, type Operation } from "./operation";
import { anySlope, noSlope, outward, slope, steady, TOO_LARGE, widened } from "./operationParts";

const scratch = new Float64Array(2);

/** Arithmetic: the signs of the language, and what engineers write as one sign. */
export const ARITHMETIC = {
  [Op.Store]: {
    name: "store",
    kind: "smooth",
    arity: 1,
    number: (a) => a,
    range: (out, low, high) => interval.set(out, low, high),
    slopes: (out) => slope(out, 1, 1),
    trouble: TOO_LARGE,
  },
  [Op.Add]: {
    name: "+",
    kind: "smooth",
    arity: 2,
    number: (a, b) => a + b,
    range: interval.add,
    slopes: (out) => {
      slope(out, 1, 1);
      out[2] = out[3] = 1;
    },
    trouble: TOO_LARGE,
  },
  [Op.Subtract]: {
    name: "-",
    kind: "smooth",
    arity: 2,
    number: (a, b) => a - b,
    range: interval.subtract,
    slopes: (out) => {
      slope(out, 1, 1);
      out[2] = out[3] = -1;
    },
    trouble: TOO_LARGE,
  },
  [Op.Multiply]: {
    name: "*",
    kind: "smooth",
    arity: 2,
    number: (a, b) => a * b,
    range: interval.multiply,
    slopes: productSlopes,
    trouble: TOO_LARGE,
  },
  [Op.Total]: {
    // So many pieces, of which one stands for all: see `total.ts`. Draws replace it by the sum: see `everyPiece.ts`.
    name: "total",
    kind: "smooth",
    arity: 2,
    number: (a, b) => a * b,
    range: interval.multiply,
    slopes: productSlopes,
    trouble: TOO_LARGE,
  },
  [Op.Divide]: {
    name: "/",
    kind: "smooth",
    arity: 2,
    number: (a, b) => (b === 0 ? NaN : a / b),
    range: interval.divide,
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      interval.divide(out, 1, 1, bLow, bHigh);
      interval.divide(scratch, -aHigh, -aLow, bLow, bHigh);
      interval.divide(scratch, scratch[0], scratch[1], bLow, bHigh);
      out[2] = scratch[0];
      out[3] = scratch[1];
    },
    trouble: "divides by zero",
  },
  [Op.Negate]: {
    name: "negate",
    kind: "smooth",
    arity: 1,
    number: (a) => -a,
    range: (out, low, high) => interval.set(out, -high, -low),
    slopes: (out) => slope(out, -1, -1),
    trouble: TOO_LARGE,
  },
  [Op.Power]: {
    name: "^",
    kind: "smooth",
    arity: 2,
    number: power,
    range: (out, aLow, aHigh, bLow, bHigh) => {
      powerRange(out, aLow, aHigh, bLow, bHigh);
      // A power that vanishes although its base does not is none the less no zero.
      if (out[1] === 0 && (aHigh > 0 || (aLow < 0 && bLow % 2 === 0))) out[1] = interval.SMALLEST;
      if (out[0] === 0 && aLow < 0 && bLow % 2 !== 0) out[0] = -interval.SMALLEST;
    },
    slopes: powerSlopes,
    trouble: "has no real value there, or one too large to be computed",
  },
  [Op.Modulo]: {
    name: "mod",
    kind: "switch",
    arity: 2,
    number: modulo,
    range: moduloRange,
    slopes: moduloSlopes,
    trouble: "divides by zero",
  },
  [Op.Hypot]: {
    name: "hypot",
    kind: "smooth",
    arity: 2,
    number: (a, b) => Math.hypot(a, b),
    range: hypotRange,
    slopes: hypotSlopes,
    trouble: TOO_LARGE,
  },
  [Op.Parallel]: {
    name: "||",
    kind: "smooth",
    arity: 2,
    number: parallel,
    range: parallelRange,
    slopes: parallelSlopes,
    trouble: "puts in parallel what cancels out",
  },
} satisfies Partial<Record<Op, Operation>>;

/** ∂(ab)/∂a = b, and the same with a and b exchanged. */
function productSlopes(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  slope(out, bLow, bHigh);
  out[2] = aLow;
  out[3] = aHigh;
}

function power(a: number, b: number): number {
  // In JavaScript even what is no number, to the power of zero, is 1.
  return Number.isNaN(a) || (a === 0 && b < 0) ? NaN : a ** b;
}

/** x^n over a range, for a constant exponent; for a varying one the base must be positive, e^(n·ln x), or zero if n is. */
function powerRange(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  if (Number.isNaN(aLow) || Number.isNaN(bLow)) return interval.undefinedRange(out);
  if (bLow !== bHigh) {
    if (!(aLow > 0 || (aLow === 0 && bLow > 0))) return interval.undefinedRange(out);
    // 1^x is 1 however large x is, which JavaScript calls no number.
    const corner = (a: number, b: number) => (a === 1 ? 1 : a ** b);
    const corners = [corner(aLow, bLow), corner(aLow, bHigh), corner(aHigh, bLow), corner(aHigh, bHigh)];
    return widened(out, Math.min(...corners), Math.max(...corners));
  }
  const f = (x: number) => power(x, bLow);
  if (bLow === 0) return interval.set(out, 1, 1);
  if (bLow === 1) return interval.set(out, aLow, aHigh);
  if (bLow < 0 && !(aLow > 0 || aHigh < 0)) return interval.undefinedRange(out);
  if (!Number.isInteger(bLow)) {
    if (aLow < 0) return interval.undefinedRange(out);
    return bLow > 0 ? interval.rising(out, f, aLow, aHigh) : interval.falling(out, f, aLow, aHigh);
  }
  if (bLow % 2 === 0) {
    if (bLow > 0) return interval.even(out, f, aLow, aHigh);
    return aLow > 0 ? interval.falling(out, f, aLow, aHigh) : interval.rising(out, f, aLow, aHigh);
  }
  return bLow > 0 ? interval.rising(out, f, aLow, aHigh) : interval.falling(out, f, aLow, aHigh);
}

function powerSlopes(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  const below = new Float64Array(2);
  powerRange(below, aLow, aHigh, bLow - 1, bHigh - 1);
  interval.multiply(out, below[0], below[1], bLow, bHigh);
  if (Number.isNaN(out[0])) anySlope(out, 0);
  if (bLow === bHigh) return noSlope(out, 1);
  powerRange(below, aLow, aHigh, bLow, bHigh);
  interval.multiply(scratch, below[0], below[1], Math.log(aLow), Math.log(aHigh));
  out[2] = Number.isNaN(scratch[0]) ? -Infinity : outward(scratch[0], -1);
  out[3] = Number.isNaN(scratch[1]) ? Infinity : outward(scratch[1], 1);
}

const wholeTurns = steady(Math.floor);

/**
 * a − b·floor(a / b): the remainder has the sign of the divisor, as `mod` in number theory. What is left by the float
 * noise of decimal fractions is nothing: mod(0.3, 0.1) is 0.
 */
function modulo(a: number, b: number): number {
  if (b === 0) return NaN;
  const rest = a - b * wholeTurns(a / b);
  if (Number.isNaN(rest)) return NaN;
  return Math.abs(rest) <= EQUALITY * Math.abs(a) || rest < 0 !== b < 0 ? 0 : rest;
}

function moduloRange(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  interval.divide(scratch, aLow, aHigh, bLow, bHigh);
  if (Number.isNaN(scratch[0])) return interval.undefinedRange(out);
  const turns = wholeTurns(scratch[0]);
  if (turns !== wholeTurns(scratch[1])) return interval.set(out, Math.min(0, bLow), Math.max(0, bHigh));
  interval.multiply(scratch, turns, turns, bLow, bHigh);
  interval.subtract(out, aLow, aHigh, scratch[0], scratch[1]);
  const noise = EQUALITY * Math.max(Math.abs(aLow), Math.abs(aHigh));
  if (bLow > 0) interval.set(out, out[0] <= noise ? 0 : out[0], Math.max(0, out[1]));
  else interval.set(out, Math.min(0, out[0]), out[1] >= -noise ? 0 : out[1]);
}

function moduloSlopes(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  interval.divide(scratch, aLow, aHigh, bLow, bHigh);
  const turns = wholeTurns(scratch[0]);
  if (turns === wholeTurns(scratch[1])) {
    slope(out, 1, 1);
    out[2] = -turns;
    out[3] = -turns;
  } else {
    anySlope(out, 0);
    anySlope(out, 1);
  }
}

function hypotRange(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  const square = (x: number) => x * x;
  interval.even(scratch, square, aLow, aHigh);
  const low = scratch[0];
  const high = scratch[1];
  interval.even(scratch, square, bLow, bHigh);
  interval.add(scratch, low, high, scratch[0], scratch[1]);
  interval.rising(out, Math.sqrt, Math.max(0, scratch[0]), scratch[1]);
  out[0] = Math.max(0, out[0]);
}

function hypotSlopes(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  hypotRange(scratch, aLow, aHigh, bLow, bHigh);
  const low = scratch[0];
  const high = scratch[1];
  const part = new Float64Array(2);
  interval.divide(part, aLow, aHigh, low, high);
  slope(out, Number.isNaN(part[0]) ? -1 : Math.max(-1, part[0]), Number.isNaN(part[1]) ? 1 : Math.min(1, part[1]));
  interval.divide(part, bLow, bHigh, low, high);
  out[2] = Number.isNaN(part[0]) ? -1 : Math.max(-1, part[0]);
  out[3] = Number.isNaN(part[1]) ? 1 : Math.min(1, part[1]);
}

/** Two in parallel: a·b / (a + b). */
function parallel(a: number, b: number): number {
  if (a === 0 || b === 0) return Number.isNaN(a + b) ? NaN : 0;
  return a + b === 0 ? NaN : 1 / (1 / a + 1 / b);
}

/** It rises with both where neither is negative; elsewhere the bounds are those of 1 / (1/a + 1/b). */
function parallelRange(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  if (aLow >= 0 && bLow >= 0) return widened(out, parallel(aLow, bLow), parallel(aHigh, bHigh));
  const sum = new Float64Array(2);
  interval.divide(scratch, 1, 1, aLow, aHigh);
  interval.divide(sum, 1, 1, bLow, bHigh);
  interval.add(sum, scratch[0], scratch[1], sum[0], sum[1]);
  interval.divide(out, 1, 1, sum[0], sum[1]);
}

/** ∂/∂a = (b / (a + b))², and the same with a and b exchanged. */
function parallelSlopes(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  const share = (low: number, high: number, otherLow: number, otherHigh: number, place: number) => {
    interval.divide(scratch, otherLow, otherHigh, low, high);
    interval.add(scratch, scratch[0], scratch[1], 1, 1);
    interval.divide(scratch, 1, 1, scratch[0], scratch[1]);
    interval.even(scratch, (x) => x * x, scratch[0], scratch[1]);
    const known = !Number.isNaN(scratch[0]);
    out[place] = known ? scratch[0] : 0;
    out[place + 1] = known ? scratch[1] : Infinity;
  };
  share(bLow, bHigh, aLow, aHigh, 0);
  share(aLow, aHigh, bLow, bHigh, 2);
}

import * as interval from "./interval";
import type { Ends } from "./interval";

/**
 * The native operations of the tape: one entry each, which says its kind and what it does in each arithmetic.
 * A new native function is one more entry; functions of the handbook and of notes are inlined and need none.
 * All numbers are in coherent SI units; an argument or result that is not finite is NaN.
 */
export const enum Op {
  Store,
  Add,
  Subtract,
  Multiply,
  Divide,
  Negate,
  Power,
  SquareRoot,
  CubeRoot,
  Exp,
  Ln,
  Log10,
  Log2,
  Sin,
  Cos,
  Tan,
  Asin,
  Acos,
  Atan,
  Sinh,
  Cosh,
  Tanh,
  Abs,
  Sign,
  Floor,
  Ceil,
  Round,
  Min,
  Max,
  Modulo,
  Atan2,
  Hypot,
  Parallel,
  Less,
  LessOrEqual,
  Equal,
  And,
  Or,
  Not,
  If,
}

/**
 * `smooth`: differentiable wherever defined. `jumps`: monotone with jumps, slope [0, ∞).
 * `switch`: the result can jump either way, so an undecided one has the slope (−∞, ∞).
 */
export type OperationKind = "smooth" | "jumps" | "switch";

export interface Operation {
  readonly name: string;
  readonly kind: OperationKind;
  /** Number of operands, 1 to 3. */
  readonly arity: 1 | 2 | 3;
  /** The value at a point. */
  readonly number: (a: number, b: number, c: number) => number;
  /** Encloses all values over the operands' ranges; undefined (NaN) where one of them is undefined or unbounded. */
  readonly range: (
    out: Ends,
    aLow: number,
    aHigh: number,
    bLow: number,
    bHigh: number,
    cLow: number,
    cHigh: number,
  ) => void;
  /**
   * Encloses the partial derivatives over the operands' ranges: out[0..1] by a, out[2..3] by b, out[4..5] by c.
   * At a point (ends equal) it is the derivative there.
   */
  readonly slopes: (
    out: Ends,
    aLow: number,
    aHigh: number,
    bLow: number,
    bHigh: number,
    cLow: number,
    cHigh: number,
  ) => void;
  /** Why there is no value, as the end of a sentence: "… is divided by zero". Asked only where there is none. */
  readonly trouble: string;
}

/** Relative difference within which two numbers count as equal, so that decimal fractions behave as on paper. */
export const EQUALITY = 1e-12;

/** How far apart two numbers may be and still count as equal. */
export function slack(a: number, b: number): number {
  return EQUALITY * Math.max(Math.abs(a), Math.abs(b));
}

const TOO_LARGE = "becomes too large to be computed";
const scratch = new Float64Array(2);

function slope(out: Ends, low: number, high: number): void {
  out[0] = low;
  out[1] = high;
}

function anySlope(out: Ends, operand: number): void {
  out[2 * operand] = -Infinity;
  out[2 * operand + 1] = Infinity;
}

function noSlope(out: Ends, operand: number): void {
  out[2 * operand] = 0;
  out[2 * operand + 1] = 0;
}

type NumberFunction = (x: number) => number;
type Slope = (out: Ends, low: number, high: number) => void;

/** A rising smooth function of one argument. */
function rising(name: string, f: NumberFunction, slopes: Slope, trouble = TOO_LARGE): Operation {
  return {
    name,
    kind: "smooth",
    arity: 1,
    number: f,
    range: (out, low, high) => interval.rising(out, f, low, high),
    slopes,
    trouble,
  };
}

/** A rising step function of one argument: its slope is [0, ∞), and zero where it takes one value only. */
function stepping(name: string, f: NumberFunction): Operation {
  return {
    name,
    kind: "jumps",
    arity: 1,
    number: f,
    range: (out, low, high) => interval.stepping(out, f, low, high),
    slopes: (out, low, high) => slope(out, 0, f(low) === f(high) ? 0 : Infinity),
    trouble: TOO_LARGE,
  };
}

/** The derivative of a function whose derivative is itself rising or falling: the ends of it at the ends. */
function slopeAtEnds(derivative: NumberFunction): Slope {
  return (out, low, high) => {
    const a = derivative(low);
    const b = derivative(high);
    slope(out, outward(Math.min(a, b), -1), outward(Math.max(a, b), 1));
  };
}

/** A slope is only ever used by its sign and as a factor, so a generous relative step outward is enough. */
function outward(x: number, way: number): number {
  if (Number.isNaN(x)) return way * Infinity;
  return Number.isFinite(x) ? x + way * Math.abs(x) * 2 ** -48 : x;
}

/** A pick from two by size: between 0 and 1 of each, decided where the ranges do not overlap. */
function pick(
  name: string,
  f: (a: number, b: number) => number,
  aWins: (aLow: number, aHigh: number, bLow: number, bHigh: number) => boolean | undefined,
): Operation {
  return {
    name,
    kind: "smooth",
    arity: 2,
    number: f,
    range: (out, aLow, aHigh, bLow, bHigh) => interval.set(out, f(aLow, bLow), f(aHigh, bHigh)),
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      const a = aWins(aLow, aHigh, bLow, bHigh);
      slope(out, a === true ? 1 : 0, a === false ? 0 : 1);
      out[2] = a === false ? 1 : 0;
      out[3] = a === true ? 0 : 1;
    },
    trouble: TOO_LARGE,
  };
}

/**
 * A comparison: 1 if it holds, 0 if not, [0, 1] where the ranges leave it open.
 * `certain` answers for the pair of ends that makes it hardest, `possible` for the easiest.
 */
function comparison(
  name: string,
  holds: (a: number, b: number) => boolean,
  certain: (aLow: number, aHigh: number, bLow: number, bHigh: number) => boolean,
  possible: (aLow: number, aHigh: number, bLow: number, bHigh: number) => boolean,
): Operation {
  return {
    name,
    kind: "switch",
    arity: 2,
    number: (a, b) => (Number.isNaN(a) || Number.isNaN(b) ? NaN : holds(a, b) ? 1 : 0),
    range: (out, aLow, aHigh, bLow, bHigh) => {
      if (Number.isNaN(aLow) || Number.isNaN(bLow)) return interval.undefinedRange(out);
      interval.set(out, certain(aLow, aHigh, bLow, bHigh) ? 1 : 0, possible(aLow, aHigh, bLow, bHigh) ? 1 : 0);
    },
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      const decided = certain(aLow, aHigh, bLow, bHigh) || !possible(aLow, aHigh, bLow, bHigh);
      for (let operand = 0; operand < 2; operand++)
        if (decided) noSlope(out, operand);
        else anySlope(out, operand);
    },
    trouble: "cannot be compared",
  };
}

/** Truth values are 0 and 1, so that they are rising functions of their operands. */
function connective(name: string, arity: 1 | 2, f: (a: number, b: number) => number, falls: boolean): Operation {
  return {
    name,
    kind: "switch",
    arity,
    number: f,
    range: (out, aLow, aHigh, bLow, bHigh) =>
      falls ? interval.set(out, f(aHigh, bHigh), f(aLow, bLow)) : interval.set(out, f(aLow, bLow), f(aHigh, bHigh)),
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      const open = aLow !== aHigh || (arity === 2 && bLow !== bHigh);
      for (let operand = 0; operand < arity; operand++)
        if (open) anySlope(out, operand);
        else noSlope(out, operand);
    },
    trouble: "cannot be judged",
  };
}

const lessOrEqual = (a: number, b: number) => a <= b + slack(a, b);
const less = (a: number, b: number) => a < b - slack(a, b);

function power(a: number, b: number): number {
  const result = a ** b;
  return a === 0 && b < 0 ? NaN : result;
}

/** x^n over a range, for a constant exponent; for a varying one the base must be positive: e^(n·ln x). */
function powerRange(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  if (bLow !== bHigh) {
    if (!(aLow > 0)) return interval.undefinedRange(out);
    const corners = [aLow ** bLow, aLow ** bHigh, aHigh ** bLow, aHigh ** bHigh];
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

/** Four units in the last place outward, as for all elementary functions. */
function widened(out: Ends, low: number, high: number): void {
  const identity = (x: number) => x;
  interval.rising(out, identity, low, high);
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

/** a − b·floor(a / b): the remainder has the sign of the divisor, as `mod` in number theory. */
function modulo(a: number, b: number): number {
  return b === 0 ? NaN : a - b * Math.floor(a / b);
}

function moduloRange(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  if (!(bLow > 0 || bHigh < 0)) return interval.undefinedRange(out);
  interval.divide(scratch, aLow, aHigh, bLow, bHigh);
  const turns = Math.floor(scratch[0]);
  if (turns === Math.floor(scratch[1])) {
    interval.multiply(scratch, turns, turns, bLow, bHigh);
    return interval.subtract(out, aLow, aHigh, scratch[0], scratch[1]);
  }
  interval.set(out, Math.min(0, bLow), Math.max(0, bHigh));
}

function moduloSlopes(out: Ends, aLow: number, aHigh: number, bLow: number, bHigh: number): void {
  interval.divide(scratch, aLow, aHigh, bLow, bHigh);
  const turns = Math.floor(scratch[0]);
  if (turns === Math.floor(scratch[1])) {
    slope(out, 1, 1);
    out[2] = -turns;
    out[3] = -turns;
  } else {
    anySlope(out, 0);
    anySlope(out, 1);
  }
}

/** The angle of the point (x, y): the cut along negative x is left out, where the angle jumps by a full turn. */
function atan2Range(out: Ends, yLow: number, yHigh: number, xLow: number, xHigh: number): void {
  if (xLow <= 0 && yLow <= 0 && yHigh >= 0) {
    if (xHigh >= 0 && yLow <= 0 && yHigh >= 0 && xLow === 0 && xHigh === 0 && yLow === 0)
      return interval.undefinedRange(out);
    return interval.set(out, -Math.PI, Math.PI);
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
  interval.divide(square, xLow, xHigh, sumLow, sumHigh);
  slope(out, square[0], square[1]);
  interval.divide(square, -yHigh, -yLow, sumLow, sumHigh);
  out[2] = square[0];
  out[3] = square[1];
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
  if (a === 0 || b === 0) return a + b === 0 && (a !== 0 || b !== 0) ? NaN : 0;
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

/** Round half away from zero, as on paper. */
function roundHalfAway(x: number): number {
  return Math.sign(x) * Math.floor(Math.abs(x) + 0.5);
}

/** Rounds after taking off the float noise that decimal fractions leave: 3.0000000000000004 is 3. */
function steady(f: NumberFunction): NumberFunction {
  return (x) => {
    const whole = Math.round(x);
    return Math.abs(x - whole) <= EQUALITY * Math.abs(x) ? whole : f(x);
  };
}

/** tan, undefined where a pole lies in the range. */
function tangentRange(out: Ends, low: number, high: number): void {
  if (high - low >= Math.PI || Math.floor(low / Math.PI + 0.5) !== Math.floor(high / Math.PI + 0.5))
    return interval.undefinedRange(out);
  interval.rising(out, Math.tan, low, high);
}

/** The table, in the order of {@link Op}. */
export const OPERATIONS: readonly Operation[] = makeOperations();

function makeOperations(): Operation[] {
  const table: Operation[] = [];
  table[Op.Store] = {
    name: "store",
    kind: "smooth",
    arity: 1,
    number: (a) => a,
    range: (out, low, high) => interval.set(out, low, high),
    slopes: (out) => slope(out, 1, 1),
    trouble: TOO_LARGE,
  };
  table[Op.Add] = {
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
  };
  table[Op.Subtract] = {
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
  };
  table[Op.Multiply] = {
    name: "*",
    kind: "smooth",
    arity: 2,
    number: (a, b) => a * b,
    range: interval.multiply,
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      slope(out, bLow, bHigh);
      out[2] = aLow;
      out[3] = aHigh;
    },
    trouble: TOO_LARGE,
  };
  table[Op.Divide] = {
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
    trouble: "is divided by zero",
  };
  table[Op.Negate] = {
    name: "negate",
    kind: "smooth",
    arity: 1,
    number: (a) => -a,
    range: (out, low, high) => interval.set(out, -high, -low),
    slopes: (out) => slope(out, -1, -1),
    trouble: TOO_LARGE,
  };
  table[Op.Power] = {
    name: "^",
    kind: "smooth",
    arity: 2,
    number: power,
    range: powerRange,
    slopes: powerSlopes,
    trouble: "has no real value there, or one too large to be computed",
  };
  table[Op.SquareRoot] = rising(
    "sqrt",
    Math.sqrt,
    slopeAtEnds((x) => 0.5 / Math.sqrt(x)),
    "takes the root of a negative value",
  );
  table[Op.CubeRoot] = rising("cbrt", Math.cbrt, (out, low, high) => {
    const f = (x: number) => 1 / (3 * Math.cbrt(x) ** 2);
    if (low <= 0 && high >= 0) slope(out, outward(Math.min(f(low), f(high)), -1), Infinity);
    else slopeAtEnds(f)(out, low, high);
  });
  table[Op.Exp] = rising("exp", Math.exp, slopeAtEnds(Math.exp));
  table[Op.Ln] = rising(
    "ln",
    Math.log,
    slopeAtEnds((x) => 1 / x),
    "takes the logarithm of zero or of a negative value",
  );
  table[Op.Log10] = rising(
    "log10",
    Math.log10,
    slopeAtEnds((x) => 1 / (x * Math.LN10)),
    "takes the logarithm of zero or of a negative value",
  );
  table[Op.Log2] = rising(
    "log2",
    Math.log2,
    slopeAtEnds((x) => 1 / (x * Math.LN2)),
    "takes the logarithm of zero or of a negative value",
  );
  table[Op.Sin] = {
    ...rising("sin", Math.sin, (out, low, high) => interval.wave(out, Math.cos, Math.PI, low, high)),
    range: (out, low, high) => interval.wave(out, Math.sin, -Math.PI / 2, low, high),
  };
  table[Op.Cos] = {
    ...rising("cos", Math.cos, (out, low, high) => interval.wave(out, (x) => -Math.sin(x), Math.PI / 2, low, high)),
    range: (out, low, high) => interval.wave(out, Math.cos, Math.PI, low, high),
  };
  table[Op.Tan] = {
    ...rising("tan", Math.tan, (out, low, high) => {
      tangentRange(scratch, low, high);
      interval.even(out, (t) => 1 + t * t, scratch[0], scratch[1]);
    }),
    range: tangentRange,
    trouble: "passes a right angle, where the tangent has no value",
  };
  const OUTSIDE_ONE = "is taken of a value outside −1 .. 1";
  const arcSlope =
    (sign: number): Slope =>
    (out, low, high) => {
      const f = (x: number) => sign / Math.sqrt(1 - x * x);
      const ends = [f(low), f(high), low <= 0 && high >= 0 ? sign : f(low)];
      slope(out, outward(Math.min(...ends), -1), outward(Math.max(...ends), 1));
    };
  table[Op.Asin] = rising("asin", Math.asin, arcSlope(1), OUTSIDE_ONE);
  table[Op.Acos] = {
    ...rising("acos", Math.acos, arcSlope(-1), OUTSIDE_ONE),
    range: (out, low, high) => interval.falling(out, Math.acos, low, high),
  };
  table[Op.Atan] = rising("atan", Math.atan, (out, low, high) => {
    interval.even(scratch, (x) => 1 + x * x, low, high);
    interval.divide(out, 1, 1, scratch[0], scratch[1]);
  });
  table[Op.Sinh] = rising("sinh", Math.sinh, (out, low, high) => interval.even(out, Math.cosh, low, high));
  table[Op.Cosh] = {
    ...rising("cosh", Math.cosh, slopeAtEnds(Math.sinh)),
    range: (out, low, high) => interval.even(out, Math.cosh, low, high),
  };
  table[Op.Tanh] = rising("tanh", Math.tanh, (out, low, high) => {
    interval.even(scratch, Math.cosh, low, high);
    interval.multiply(scratch, scratch[0], scratch[1], scratch[0], scratch[1]);
    if (Number.isNaN(scratch[0])) slope(out, 0, 1);
    else interval.divide(out, 1, 1, scratch[0], scratch[1]);
  });
  table[Op.Abs] = {
    name: "abs",
    kind: "smooth",
    arity: 1,
    number: Math.abs,
    range: (out, low, high) => {
      const a = Math.abs(low);
      const b = Math.abs(high);
      interval.set(out, low <= 0 && high >= 0 ? 0 : Math.min(a, b), Math.max(a, b));
    },
    slopes: (out, low, high) => slope(out, low >= 0 ? 1 : -1, high <= 0 ? -1 : 1),
    trouble: TOO_LARGE,
  };
  table[Op.Sign] = stepping("sign", Math.sign);
  table[Op.Floor] = stepping("floor", steady(Math.floor));
  table[Op.Ceil] = stepping("ceil", steady(Math.ceil));
  table[Op.Round] = stepping("round", roundHalfAway);
  table[Op.Min] = pick("min", Math.min, (aLow, aHigh, bLow, bHigh) =>
    aHigh < bLow ? true : bHigh < aLow ? false : undefined,
  );
  table[Op.Max] = pick("max", Math.max, (aLow, aHigh, bLow, bHigh) =>
    aLow > bHigh ? true : bLow > aHigh ? false : undefined,
  );
  table[Op.Modulo] = {
    name: "mod",
    kind: "switch",
    arity: 2,
    number: modulo,
    range: moduloRange,
    slopes: moduloSlopes,
    trouble: "divides by zero",
  };
  table[Op.Atan2] = {
    name: "atan2",
    kind: "switch",
    arity: 2,
    number: Math.atan2,
    range: atan2Range,
    slopes: atan2Slopes,
    trouble: "has no direction at the origin",
  };
  table[Op.Hypot] = {
    name: "hypot",
    kind: "smooth",
    arity: 2,
    number: Math.hypot,
    range: hypotRange,
    slopes: hypotSlopes,
    trouble: TOO_LARGE,
  };
  table[Op.Parallel] = {
    name: "||",
    kind: "smooth",
    arity: 2,
    number: parallel,
    range: parallelRange,
    slopes: parallelSlopes,
    trouble: "puts in parallel what cancels out",
  };
  table[Op.Less] = comparison(
    "<",
    less,
    (_aLow, aHigh, bLow) => less(aHigh, bLow),
    (aLow, _aHigh, _bLow, bHigh) => less(aLow, bHigh),
  );
  table[Op.LessOrEqual] = comparison(
    "<=",
    lessOrEqual,
    (_aLow, aHigh, bLow) => lessOrEqual(aHigh, bLow),
    (aLow, _aHigh, _bLow, bHigh) => lessOrEqual(aLow, bHigh),
  );
  table[Op.Equal] = comparison(
    "=",
    (a, b) => Math.abs(a - b) <= slack(a, b),
    (aLow, aHigh, bLow, bHigh) => lessOrEqual(aHigh, bLow) && lessOrEqual(bHigh, aLow),
    (aLow, aHigh, bLow, bHigh) => lessOrEqual(aLow, bHigh) && lessOrEqual(bLow, aHigh),
  );
  table[Op.And] = connective("and", 2, (a, b) => a * b, false);
  table[Op.Or] = connective("or", 2, (a, b) => Math.max(a, b), false);
  table[Op.Not] = connective("not", 1, (a) => 1 - a, true);
  table[Op.If] = {
    name: "if",
    kind: "switch",
    arity: 3,
    number: (condition, a, b) => (Number.isNaN(condition) ? NaN : condition === 1 ? a : b),
    range: (out, cLow, cHigh, aLow, aHigh, bLow, bHigh) => {
      if (cLow === 1) interval.set(out, aLow, aHigh);
      else if (cHigh === 0) interval.set(out, bLow, bHigh);
      else if (Number.isNaN(cLow)) interval.undefinedRange(out);
      else interval.set(out, Math.min(aLow, bLow), Math.max(aHigh, bHigh));
    },
    slopes: (out, cLow, cHigh) => {
      if (cLow === cHigh) noSlope(out, 0);
      else anySlope(out, 0);
      out[2] = cLow === 1 ? 1 : 0;
      out[3] = cHigh === 0 ? 0 : 1;
      out[4] = cHigh === 0 ? 1 : 0;
      out[5] = cLow === 1 ? 0 : 1;
    },
    trouble: "depends on a condition that has no value",
  };
  return table;
}

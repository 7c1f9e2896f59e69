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
  Total,
  Parallel,
  Less,
  LessOrEqual,
  Equal,
  And,
  Or,
  Not,
  Nearest,
  Below,
  Above,
  StepLookup,
  ExactLookup,
  Interpolate,
  PairMember,
  If,
  Resistance,
  Share,
  Blend,
  Bracketed,
  Centre,
  Contract,
  Settled,
  Solution,
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
  /** The value at a point. It is always called with three numbers, of which those beyond {@link arity} mean nothing. */
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
  /** Why there is no value, as the end of a sentence: "… divides by zero". Asked only where there is none. */
  readonly trouble: string;
}

/** Relative difference within which two numbers count as equal, so that decimal fractions behave as on paper. */
export const EQUALITY = 1e-12;

/** How far apart two numbers may be and still count as equal. From an end that is not known, nothing is near. */
export function slack(a: number, b: number): number {
  const size = Math.max(Math.abs(a), Math.abs(b));
  return size < Infinity ? EQUALITY * size : 0;
}

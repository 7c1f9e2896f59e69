import * as interval from "./interval";
import type { Ends } from "./interval";
import { EQUALITY, type Operation } from "./operation";

/** What the entries of the operations' table are made of. */

export const TOO_LARGE = "becomes too large to be computed";

export type NumberFunction = (x: number) => number;
export type Slope = (out: Ends, low: number, high: number) => void;

export function slope(out: Ends, low: number, high: number): void {
  out[0] = low;
  out[1] = high;
}

export function anySlope(out: Ends, operand: number): void {
  out[2 * operand] = -Infinity;
  out[2 * operand + 1] = Infinity;
}

export function noSlope(out: Ends, operand: number): void {
  out[2 * operand] = 0;
  out[2 * operand + 1] = 0;
}

/** A rising smooth function of one argument. */
export function rising(name: string, f: NumberFunction, slopes: Slope, trouble = TOO_LARGE): Operation {
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
export function stepping(name: string, f: NumberFunction): Operation {
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
export function slopeAtEnds(derivative: NumberFunction): Slope {
  return (out, low, high) => {
    const a = derivative(low);
    const b = derivative(high);
    slope(out, outward(Math.min(a, b), -1), outward(Math.max(a, b), 1));
  };
}

/** A slope is only ever used by its sign and as a factor, so a generous relative step outward is enough. */
export function outward(x: number, way: number): number {
  if (Number.isNaN(x)) return way * Infinity;
  if (!Number.isFinite(x)) return x * way > 0 ? x : -way * Number.MAX_VALUE;
  return x + way * Math.abs(x) * 2 ** -48;
}

/** Four units in the last place outward, as for all elementary functions. */
export function widened(out: Ends, low: number, high: number): void {
  const identity = (x: number) => x;
  interval.rising(out, identity, low, high);
}

/** Rounds after taking off the float noise that decimal fractions leave: 3.0000000000000004 is 3. */
export function steady(f: NumberFunction): NumberFunction {
  return (x) => {
    const whole = Math.round(x);
    return Math.abs(x - whole) <= EQUALITY * Math.abs(x) ? whole : f(x);
  };
}

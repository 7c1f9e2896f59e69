import * as interval from "./interval";
import type { Operation } from "./operation";
import { noSlope, slope, TOO_LARGE } from "./operationParts";
import { OPERATIONS } from "./operations";

/**
 * Operations that exist on the tape of a cone only, where equal registers have been found: what depends on one quantity
 * twice is there known to, and so `x − x` is exactly zero. They come behind those of the notes' tape.
 */
const SAME: readonly Operation[] = [
  {
    name: "square",
    kind: "smooth",
    arity: 1,
    number: (a) => a * a,
    range: (out, low, high) => {
      interval.even(out, (x) => x * x, low, high);
      out[0] = Math.max(0, out[0]);
    },
    slopes: (out, low, high) => slope(out, 2 * low, 2 * high),
    trouble: TOO_LARGE,
  },
  constant("itself less itself", 0, () => true, TOO_LARGE),
  constant("itself over itself", 1, (low, high) => low > 0 || high < 0, "divides by zero"),
];

/** a · a, a − a and a / a, by their places in the table. */
export const SQUARE = OPERATIONS.length;
export const NOTHING = SQUARE + 1;
export const ONE = SQUARE + 2;

/** The table of operations on the tape of a cone. */
export const CONE_OPERATIONS: readonly Operation[] = [...OPERATIONS, ...SAME];

/** One value wherever the operand is defined and allowed. */
function constant(
  name: string,
  value: number,
  isAllowed: (low: number, high: number) => boolean,
  trouble: string,
): Operation {
  return {
    name,
    kind: "smooth",
    arity: 1,
    number: (a) => (Number.isNaN(a) || !isAllowed(a, a) ? NaN : value),
    range: (out, low, high) => {
      if (Number.isNaN(low) || !isAllowed(low, high)) interval.undefinedRange(out);
      else interval.set(out, value, value);
    },
    slopes: (out) => noSlope(out, 0),
    trouble,
  };
}

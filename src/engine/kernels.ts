import { CONE_OPERATIONS, SQUARE } from "./coneOperations";
import { Op } from "./operation";

/**
 * The samples arithmetic: each operation on a block of numbers at once. It agrees with the number arithmetic, place by
 * place; a result that is not finite is NaN there too.
 *
 * What is written most in formulas has a loop of its own; the other operations apply their number function, and their
 * own work outweighs the call.
 */
export type Kernel = (out: Float64Array, a: Float64Array, b: Float64Array, c: Float64Array, count: number) => void;

/** Below, v + (v − v) is v where v is finite, and NaN where it is not, without a branch. */
const LOOPS: Readonly<Record<number, Kernel | undefined>> = {
  [Op.Add]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = a[i] + b[i];
      out[i] = v + (v - v);
    }
  },
  [Op.Subtract]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = a[i] - b[i];
      out[i] = v + (v - v);
    }
  },
  [Op.Multiply]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = a[i] * b[i];
      out[i] = v + (v - v);
    }
  },
  [Op.Divide]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = a[i] / b[i];
      out[i] = v + (v - v);
    }
  },
  [Op.Negate]: (out, a, _b, _c, count) => {
    for (let i = 0; i < count; i++) out[i] = -a[i];
  },
  [Op.SquareRoot]: (out, a, _b, _c, count) => {
    for (let i = 0; i < count; i++) out[i] = Math.sqrt(a[i]);
  },
  [Op.Power]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = b[i] === 2 ? a[i] * a[i] : a[i] ** b[i];
      out[i] = v + (v - v);
    }
  },
  [Op.Min]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) out[i] = Math.min(a[i], b[i]);
  },
  [Op.Max]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) out[i] = Math.max(a[i], b[i]);
  },
  [Op.And]: (out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) out[i] = a[i] * b[i];
  },
  [Op.If]: (out, condition, yes, no, count) => {
    for (let i = 0; i < count; i++) out[i] = condition[i] === 1 ? yes[i] : condition[i] === 0 ? no[i] : NaN;
  },
  [SQUARE]: (out, a, _b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = a[i] * a[i];
      out[i] = v + (v - v);
    }
  },
};

/** The kernel of each operation on the tape of a cone, by its number. */
export const KERNELS: readonly Kernel[] = CONE_OPERATIONS.map(
  ({ number }, op) =>
    LOOPS[op] ??
    ((out, a, b, c, count) => {
      for (let i = 0; i < count; i++) {
        const v = number(a[i], b[i], c[i]);
        out[i] = v + (v - v);
      }
    }),
);

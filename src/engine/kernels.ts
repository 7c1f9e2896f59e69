import { CONE_OPERATIONS, SQUARE } from "./coneOperations";
import { Op } from "./operation";

/**
 * The samples arithmetic: each operation on blocks of numbers, which lie in one memory from the places given. It agrees
 * with the number arithmetic, place by place; a result that is not finite is NaN there too.
 *
 * What is written most in formulas has a loop of its own; the other operations apply their number function.
 * Where code may be generated, {@link fused} does the same faster; this is what is always there.
 */
export type Kernel = (memory: Float64Array, out: number, a: number, b: number, c: number, count: number) => void;

/** Below, v + (v − v) is v where v is finite, and NaN where it is not, without a branch. */
const LOOPS: Readonly<Record<number, Kernel | undefined>> = {
  [Op.Add]: (memory, out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = memory[a + i] + memory[b + i];
      memory[out + i] = v + (v - v);
    }
  },
  [Op.Subtract]: (memory, out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = memory[a + i] - memory[b + i];
      memory[out + i] = v + (v - v);
    }
  },
  [Op.Multiply]: (memory, out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = memory[a + i] * memory[b + i];
      memory[out + i] = v + (v - v);
    }
  },
  [Op.Divide]: (memory, out, a, b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = memory[a + i] / memory[b + i];
      memory[out + i] = v + (v - v);
    }
  },
  [SQUARE]: (memory, out, a, _b, _c, count) => {
    for (let i = 0; i < count; i++) {
      const v = memory[a + i] * memory[a + i];
      memory[out + i] = v + (v - v);
    }
  },
};

/** The kernel of each operation on the tape of a cone, by its number. */
export const KERNELS: readonly Kernel[] = CONE_OPERATIONS.map(
  ({ number }, op) =>
    LOOPS[op] ??
    ((memory, out, a, b, c, count) => {
      for (let i = 0; i < count; i++) {
        const v = number(memory[a + i], memory[b + i], memory[c + i]);
        memory[out + i] = v + (v - v);
      }
    }),
);

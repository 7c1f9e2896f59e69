import type { Cone } from "./cone";
import { fused, type Loop } from "./fused";
import { KERNELS } from "./kernels";

/** Samples in a block: long enough that a call is worth it, short enough that what is in use stays in the nearest cache. */
export const BLOCK = 256;

/** Computes a cone for a block of samples at once: write the inputs, {@link run}, read the result. */
export class Samples {
  /** One block for each input of the cone. */
  readonly inputs: readonly Float64Array[];
  readonly result: Float64Array;
  private readonly memory: Float64Array;
  /** Where the block of each register of the cone starts; registers that are not needed at the same time share one. */
  private readonly places: Int32Array;
  private readonly loops: readonly Loop[] | undefined;

  /** `mayGenerate`: whether code may be generated; where the surroundings forbid it, it is not anyway. */
  constructor(
    private readonly cone: Cone,
    mayGenerate = true,
  ) {
    const { inputs, constants } = cone;
    const numbers = sharedBlocks(cone);
    this.places = numbers.map((number) => number * BLOCK);
    this.memory = new Float64Array((Math.max(...numbers) + 1) * BLOCK);
    constants.forEach((constant, i) => this.block(inputs.length + i).fill(constant));
    this.inputs = inputs.map((_input, i) => this.block(i));
    this.result = this.block(cone.result);
    this.loops = mayGenerate ? fused(cone, this.memory, this.places) : undefined;
  }

  /** Computes the first `count` places of all registers. */
  run(count: number): void {
    if (this.loops) for (const loop of this.loops) loop(count);
    else this.runKernels(count);
  }

  private runKernels(count: number): void {
    const { memory, places } = this;
    const { op, a, b, c } = this.cone;
    const first = places.length - op.length;
    for (let k = 0; k < op.length; k++)
      KERNELS[op[k]](memory, places[first + k], places[a[k]], places[b[k]], places[c[k]], count);
  }

  private block(register: number): Float64Array {
    return this.memory.subarray(this.places[register], this.places[register] + BLOCK);
  }
}

/**
 * For each register of a cone the number of its block. Inputs and constants keep theirs; that of an operation
 * is free again once its last reader has run, and the result has none. An operation may write where it reads.
 */
function sharedBlocks({ inputs, constants, op, a, b, c }: Cone): Int32Array {
  const first = inputs.length + constants.length;
  const lastReader = new Int32Array(first + op.length).fill(-1);
  for (let k = 0; k < op.length; k++) for (const register of [a[k], b[k], c[k]]) lastReader[register] = k;
  const blocks = new Int32Array(first + op.length);
  const free: number[] = [];
  let used = 0;
  for (let register = 0; register < first; register++) blocks[register] = used++;
  for (let k = 0; k < op.length; k++) {
    for (const register of new Set([a[k], b[k], c[k]]))
      if (register >= first && lastReader[register] === k) free.push(blocks[register]);
    blocks[first + k] = free.pop() ?? used++;
  }
  return blocks;
}

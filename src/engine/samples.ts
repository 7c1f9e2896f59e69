import type { Cone } from "./cone";
import { KERNELS } from "./kernels";

/** Samples in a block: registers of this length stay in the nearest cache, and one call serves enough of them. */
export const BLOCK = 256;

/** Computes a cone for a block of samples at once: write the inputs, {@link run}, read the result. */
export class Samples {
  /** One block for each input of the cone. */
  readonly inputs: readonly Float64Array[];
  readonly result: Float64Array;
  private readonly registers: readonly Float64Array[];

  constructor(private readonly cone: Cone) {
    const { inputs, constants, op } = cone;
    const first = inputs.length + constants.length;
    const memory = new Float64Array((first + op.length) * BLOCK);
    this.registers = Array.from({ length: first + op.length }, (_, register) =>
      memory.subarray(register * BLOCK, (register + 1) * BLOCK),
    );
    constants.forEach((constant, i) => this.registers[inputs.length + i].fill(constant));
    this.inputs = this.registers.slice(0, inputs.length);
    this.result = this.registers[cone.result];
  }

  /** Computes the first `count` places of all registers. */
  run(count: number): void {
    const { registers } = this;
    const { op, a, b, c } = this.cone;
    const first = registers.length - op.length;
    for (let k = 0; k < op.length; k++)
      KERNELS[op[k]](registers[first + k], registers[a[k]], registers[b[k]], registers[c[k]], count);
  }
}

import type { Cone } from "./cone";
import { CONE_OPERATIONS } from "./coneOperations";
import { PARTIALS } from "./partials";

/**
 * The value of a cone at a point, and its derivatives by every input there: one forward and one backward sweep,
 * whatever the number of inputs.
 */
export class Gradient {
  private readonly register: Float64Array;
  private readonly adjoint: Float64Array;
  private readonly partials = new Float64Array(3);
  /** Derivatives of the result by each input, at the point of the last {@link at}; NaN where there is none. */
  readonly derivatives: Float64Array;

  constructor(private readonly cone: Cone) {
    const { inputs, constants, op } = cone;
    this.register = new Float64Array(inputs.length + constants.length + op.length);
    this.register.set(constants, inputs.length);
    this.adjoint = new Float64Array(this.register.length);
    this.derivatives = this.adjoint.subarray(0, inputs.length);
  }

  /** The value where the inputs are at `point`; NaN where there is none, and no derivatives then. */
  at(point: ArrayLike<number>): number {
    const { cone, register } = this;
    register.set(point);
    const first = register.length - cone.op.length;
    for (let k = 0; k < cone.op.length; k++) {
      const value = CONE_OPERATIONS[cone.op[k]].number(register[cone.a[k]], register[cone.b[k]], register[cone.c[k]]);
      register[first + k] = Number.isFinite(value) ? value : NaN;
    }
    this.sweepBack(first);
    return register[cone.result];
  }

  private sweepBack(first: number): void {
    const { cone, register, adjoint, partials } = this;
    adjoint.fill(0);
    adjoint[cone.result] = 1;
    for (let k = cone.op.length - 1; k >= 0; k--) {
      const passed = adjoint[first + k];
      if (passed === 0) continue;
      const a = cone.a[k];
      const b = cone.b[k];
      const c = cone.c[k];
      const { arity } = CONE_OPERATIONS[cone.op[k]];
      PARTIALS[cone.op[k]](partials, register[a], register[b], register[c], register[first + k]);
      // An operand that does not matter passes nothing on, even where its own derivative is infinite.
      if (partials[0] !== 0) adjoint[a] += passed * partials[0];
      if (arity > 1 && partials[1] !== 0) adjoint[b] += passed * partials[1];
      if (arity > 2 && partials[2] !== 0) adjoint[c] += passed * partials[2];
    }
  }
}

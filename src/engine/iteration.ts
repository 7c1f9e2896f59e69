import type { Compiler } from "./compile";
import { derivativeOf, type Emit } from "./derivativeCode";
import type { Op } from "./operation";
import type { Residual, Step } from "./residual";

/** Writes a residual, and its derivative by the unknown, to the tape as often as it is asked; what the unknown does not reach once. */
export class ResidualWriter {
  /** Of each operation of the residual, the operand of its copy; of those that the unknown reaches, for one value of it. */
  private readonly fixed: (number | undefined)[] = [];

  constructor(
    private readonly compiler: Compiler,
    private readonly residual: Residual,
  ) {}

  /** The operand of left − right where the unknown is that operand. */
  at(x: number): number {
    return placeIn(this.copy(x), this.residual.sides.difference);
  }

  /** The operand of the derivative of left − right there; "jumps" where there is none. */
  slopeAt(x: number): number | "jumps" {
    return this.slopeOf(this.copy(x));
  }

  private slopeOf(copies: readonly number[]): number | "jumps" {
    const { compiler, residual } = this;
    const constant = (value: number) => compiler.constant(value);
    const slopes: (number | undefined)[] = [];
    for (const [k, step] of residual.steps.entries()) {
      if (!step.isOpen) continue;
      if (k === residual.unknown) {
        slopes[k] = constant(1);
        continue;
      }
      const [a, b, c] = step.operands;
      const derivative = derivativeOf(
        {
          op: step.op,
          operands: [placeIn(copies, a), placeIn(copies, b), placeIn(copies, c)],
          value: copies[k],
          derivatives: [slopeIn(slopes, a), slopeIn(slopes, b), slopeIn(slopes, c)],
        },
        this.emitFor(step),
        constant,
      );
      if (derivative === "jumps") return "jumps";
      slopes[k] = derivative;
    }
    return slopeIn(slopes, residual.sides.difference) ?? constant(0);
  }

  private copy(x: number): readonly number[] {
    const { residual, fixed } = this;
    const copies: number[] = [];
    for (const [k, step] of residual.steps.entries()) {
      if (k === residual.unknown) copies[k] = x;
      else if (!step.isOpen) copies[k] = fixed[k] ??= this.emitStep(step, copies);
      else copies[k] = this.emitStep(step, copies);
    }
    return copies;
  }

  private emitStep(step: Step, copies: readonly number[]): number {
    const [a, b, c] = step.operands;
    return this.emitFor(step)(step.op, placeIn(copies, a), placeIn(copies, b), placeIn(copies, c));
  }

  private emitFor({ node, entry }: Step): Emit {
    return (op: Op, a, b = 0, c = 0) => this.compiler.code.emit(op, node, entry, a, b, c);
  }
}

function placeIn(copies: readonly number[], operand: number): number {
  return operand >= 0 ? operand : copies[-1 - operand];
}

function slopeIn(slopes: readonly (number | undefined)[], operand: number): number | undefined {
  return operand >= 0 ? undefined : slopes[-1 - operand];
}

import type { Node } from "../syntax/tree";
import type { Op } from "./operation";
import { OPERATIONS } from "./operations";
import { peek, type Peeked } from "./peek";
import type { Code, Slots } from "./tape";

/** The operands of both sides of an equation, and of left − right. */
export interface Sides {
  readonly left: number;
  readonly right: number;
  readonly difference: number;
}

/** An operation that was compiled, apart from the code that it was compiled to. */
export interface Step {
  readonly op: Op;
  readonly operands: readonly [number, number, number];
  readonly node: Node;
  readonly entry: number;
  /** The unknown reaches it. */
  readonly isOpen: boolean;
}

/**
 * left − right of an equation as a function of its unknown, while all else is as it stands: computed by the operations
 * that were compiled, at numbers and over the ranges of what else is in it.
 */
export class Residual {
  /** The operations, of which the one at {@link unknown} is the unknown. */
  readonly steps: readonly Step[];
  /** How often it was computed. */
  evaluations = 0;
  private readonly known: readonly Peeked[];
  private readonly number: Float64Array;
  private readonly low: Float64Array;
  private readonly high: Float64Array;
  private readonly ends = new Float64Array(6);

  constructor(
    code: Code,
    private readonly slots: Slots,
    readonly unknown: number,
    readonly sides: Sides,
  ) {
    const steps: Step[] = [];
    for (let k = 0; k < code.count; k++) {
      const op = code.op[k];
      const { arity } = OPERATIONS[op];
      const [a, b, c] = [code.a[k], arity > 1 ? code.b[k] : 0, arity > 2 ? code.c[k] : 0];
      const isOpen = k === unknown || [a, b, c].some((operand) => operand < 0 && steps[-1 - operand].isOpen);
      steps.push({ op, operands: [a, b, c], node: code.node[k], entry: code.entry[k], isOpen });
    }
    this.steps = steps;
    this.known = peek(
      code,
      slots,
      steps.map((_, k) => -1 - k),
    );
    this.number = Float64Array.from(this.known, ({ nominal }) => nominal);
    this.low = Float64Array.from(this.known, ({ low }) => low);
    this.high = Float64Array.from(this.known, ({ high }) => high);
  }

  /** Whether the unknown reaches a result at all. */
  isOpen(operand: number): boolean {
    return operand < 0 && this.steps[-1 - operand].isOpen;
  }

  /** left − right where the unknown is x; NaN where there is no value. */
  at(x: number): number {
    this.evaluations++;
    const { number, steps } = this;
    number[this.unknown] = x;
    for (let k = this.unknown + 1; k < steps.length; k++) {
      const { op, operands, isOpen } = steps[k];
      if (!isOpen) continue;
      const [a, b, c] = operands.map((operand) => this.nominal(operand));
      const value = OPERATIONS[op].number(a, b, c);
      number[k] = Number.isFinite(value) ? value : NaN;
    }
    return this.nominal(this.sides.difference);
  }

  /** The sides where the unknown is x. */
  sidesAt(x: number): { readonly left: number; readonly right: number } {
    this.at(x);
    return { left: this.nominal(this.sides.left), right: this.nominal(this.sides.right) };
  }

  /** The sign that left − right has at x for all values of what else is in it; 0 where it can have either, or is not known. */
  signAt(x: number): -1 | 0 | 1 {
    const { low, high, steps, ends } = this;
    low[this.unknown] = high[this.unknown] = x;
    for (let k = this.unknown + 1; k < steps.length; k++) {
      const { op, operands, isOpen } = steps[k];
      if (!isOpen) continue;
      const [a, b, c] = operands;
      OPERATIONS[op].range(ends, this.least(a), this.most(a), this.least(b), this.most(b), this.least(c), this.most(c));
      [low[k], high[k]] = ends;
    }
    const { difference } = this.sides;
    return this.least(difference) >= 0 ? 1 : this.most(difference) <= 0 ? -1 : 0;
  }

  private nominal(operand: number): number {
    return operand < 0 ? this.number[-1 - operand] : this.slots.nominal[operand];
  }

  private least(operand: number): number {
    return operand < 0 ? this.low[-1 - operand] : this.slots.low[operand];
  }

  private most(operand: number): number {
    return operand < 0 ? this.high[-1 - operand] : this.slots.high[operand];
  }
}

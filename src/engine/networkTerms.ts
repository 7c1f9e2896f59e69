import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { Op } from "./operation";

/** A value on the tape, with its sign; undefined where it is nothing, whatever the values. */
export type Term = { readonly at: number; readonly isNegative: boolean } | undefined;

/** So that an operation and two operands, slots or results, make one exact number: far more than a note has. */
const OPERANDS = 2 ** 23;

/** What is exactly nothing, such as a value less itself. */
export const NOTHING: Term = undefined;

/**
 * Writes the operations of networks to the tape, each once: what several branches, or several cases of the same network, have
 * in common is worked out in common. Signs are carried beside the operands, so that nothing is negated to and fro.
 */
export class NetworkTerms {
  private readonly known = new Map<number | string, number>();

  constructor(
    private readonly compiler: Compiler,
    /** Where what is said of its operations is told. */
    private readonly node: Node,
  ) {}

  emit(op: Op, a: number, b = 0, c = 0, node = this.node): number {
    const key = c === 0 ? (op * OPERANDS + (a + OPERANDS / 2)) * OPERANDS + (b + OPERANDS / 2) : `${op} ${a} ${b} ${c}`;
    let at = this.known.get(key);
    if (at === undefined) this.known.set(key, (at = this.compiler.emit(op, node, a, b, c)));
    return at;
  }

  /** The number one. */
  get one(): number {
    return this.compiler.constant(1);
  }

  term(at: number | undefined): Term {
    return at === undefined ? NOTHING : { at, isNegative: false };
  }

  /** The operand of a term, to be stored or read by other operations. */
  value(x: Term): number {
    if (!x) return this.compiler.constant(0);
    return x.isNegative ? this.emit(Op.Negate, x.at) : x.at;
  }

  negative(x: Term): Term {
    return x && { at: x.at, isNegative: !x.isNegative };
  }

  plus(x: Term, y: Term): Term {
    if (!x || !y) return x ?? y;
    if (x.isNegative === y.isNegative) return { at: this.sum(x.at, y.at), isNegative: x.isNegative };
    if (x.at === y.at) return NOTHING;
    const [added, taken] = x.isNegative ? [y, x] : [x, y];
    return { at: this.emit(Op.Subtract, added.at, taken.at), isNegative: false };
  }

  minus(x: Term, y: Term): Term {
    return this.plus(x, this.negative(y));
  }

  sum(a: number, b: number): number {
    return this.emit(Op.Add, Math.max(a, b), Math.min(a, b));
  }

  times(factor: number, x: Term): Term {
    return x && { at: this.emit(Op.Multiply, factor, x.at), isNegative: x.isNegative };
  }

  over(x: Term, divisor: number): Term {
    return x && { at: this.emit(Op.Divide, x.at, divisor), isNegative: x.isNegative };
  }

  /** w·x + (1 − w)·y. */
  blend(w: number, x: Term, y: Term): Term {
    if (!x && !y) return NOTHING;
    if (x && !y) return this.times(w, x);
    if (x?.at === y?.at && x?.isNegative === y?.isNegative) return x;
    const isNegative = (x?.isNegative ?? true) && (y?.isNegative ?? true);
    const [a, b] = isNegative ? [this.negative(x), this.negative(y)] : [x, y];
    return { at: this.emit(Op.Blend, w, this.value(a), this.value(b)), isNegative };
  }
}

import { RATIO, type Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { Node } from "../syntax/tree";

/** What a compiled expression gives: its type, and where on the tape its value is. */
export interface Operand {
  readonly kind: "quantity" | "truth";
  readonly dimension: Dimension;
  readonly point: boolean;
  /** One operand of the tape; for a list one a member. */
  readonly at: readonly number[];
  readonly isList: boolean;
  readonly node: Node;
  /** A bare `0`, which takes the dimension of what it meets. */
  readonly isZero: boolean;
  /** Its value, where it is written out of exact numbers only. */
  readonly constant?: number;
  /** The unit in which it was stated, as long as that still fits. */
  readonly unit?: Unit;
}

export function quantity(
  node: Node,
  dimension: Dimension,
  at: readonly number[],
  more: Partial<Operand> = {},
): Operand {
  return { kind: "quantity", dimension, point: false, at, isList: false, isZero: false, node, ...more };
}

export function truth(node: Node, at: readonly number[], isList: boolean): Operand {
  return { kind: "truth", dimension: RATIO, point: false, at, isList, isZero: false, node };
}

/**
 * The unit for a sum, a pick or a scaled value of these operands: that of the author where all agree.
 * SI units are left to the display, which finds the prefix; inches, hours and degrees are kept.
 */
export function commonUnit(operands: readonly Operand[]): Unit | undefined {
  let unit: Unit | undefined;
  for (const operand of operands) {
    if (operand.isZero) continue;
    if (operand.unit === undefined || operand.unit.decimal !== undefined) return undefined;
    if (unit !== undefined && unit.text !== operand.unit.text) return undefined;
    unit = operand.unit;
  }
  return unit;
}

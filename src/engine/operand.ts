import { RATIO, type Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { Node } from "../syntax/tree";

/** What a compiled expression gives: its type, and where on the tape its value is. */
export interface Operand {
  readonly kind: "quantity" | "truth" | "text";
  readonly dimension: Dimension;
  readonly point: boolean;
  /** One operand of the tape; for a list one a member. */
  readonly at: readonly number[];
  readonly isList: boolean;
  readonly node: Node;
  /** A bare `0`, which takes the dimension of what it meets. */
  readonly isZero: boolean;
  /** Its value, where it is written out of exact numbers only; of a condition 1 or 0, where texts decide it. */
  readonly constant?: number;
  /** The same of a list that is written out, one a member. */
  readonly constants?: readonly number[];
  /** Of text: what it says; of a list of texts one a member. It is known when it is compiled. */
  readonly texts?: readonly string[];
  /** The unit in which it was stated, as long as that still fits. */
  readonly unit?: Unit;
  /** Of a number as written: the place of the last digit that was typed, in SI units. */
  readonly step?: number;
}

/** What a quantity has beyond its dimension and place. */
export type QuantityTraits = Partial<
  Pick<Operand, "point" | "isList" | "isZero" | "constant" | "constants" | "unit" | "step">
>;

const PLAIN: QuantityTraits = {};

// Operands are made by the thousand while a note is compiled. Written out field by field they all have one shape to the
// machine, and cost a fraction of spread ones.

export function quantity(
  node: Node,
  dimension: Dimension,
  at: readonly number[],
  { point = false, isList = false, isZero = false, constant, constants, unit, step }: QuantityTraits = PLAIN,
): Operand {
  const texts = undefined;
  return { kind: "quantity", dimension, point, at, isList, node, isZero, constant, constants, texts, unit, step };
}

export function truth(node: Node, at: readonly number[], isList: boolean, constant?: number): Operand {
  const [dimension, none] = [RATIO, undefined];
  const [point, isZero, constants, texts, unit, step] = [false, false, none, none, none, none];
  return { kind: "truth", dimension, point, at, isList, node, isZero, constant, constants, texts, unit, step };
}

/** Text, of a cell or in quotes. It has no place on the tape: what it decides is decided while compiling. */
export function textual(node: Node, texts: readonly string[], isList: boolean): Operand {
  const [dimension, none] = [RATIO, undefined];
  const [point, at, isZero, constant, constants, unit, step] = [false, NOWHERE, false, none, none, none, none];
  return { kind: "text", dimension, point, at, isList, node, isZero, constant, constants, texts, unit, step };
}

const NOWHERE: readonly number[] = [];

/** The same operand, seen at another node: in brackets, by its name, as the result of a call. */
export function seenAt(operand: Operand, node: Node): Operand {
  const { kind, dimension, point, at, isList, isZero, constant, constants, texts, unit, step } = operand;
  return { kind, dimension, point, at, isList, node, isZero, constant, constants, texts, unit, step };
}

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
  /** Its value, where it is written out of exact numbers only. */
  readonly constant?: number;
  /** The unit in which it was stated, as long as that still fits. */
  readonly unit?: Unit;
  /** Of text: what it says. It is known when it is compiled, and has no place on the tape. */
  readonly texts?: readonly string[];
}

/** What a quantity has beyond its dimension and place. */
export type QuantityTraits = Partial<Pick<Operand, "point" | "isList" | "isZero" | "constant" | "unit">>;

const PLAIN: QuantityTraits = {};

// Operands are made by the thousand while a note is compiled. Written out field by field they all have one shape to the
// machine, and cost a fraction of spread ones.

export function quantity(
  node: Node,
  dimension: Dimension,
  at: readonly number[],
  { point = false, isList = false, isZero = false, constant, unit }: QuantityTraits = PLAIN,
): Operand {
  return { kind: "quantity", dimension, point, at, isList, node, isZero, constant, unit };
}

export function truth(node: Node, at: readonly number[], isList: boolean): Operand {
  const none = undefined;
  return { kind: "truth", dimension: RATIO, point: false, at, isList, node, isZero: false, constant: none, unit: none };
}

/** Text, of a cell or in quotes: compared when it is compiled, and nothing else is done with it. */
export function textual(node: Node, texts: readonly string[], isList: boolean): Operand {
  const none = undefined;
  return {
    kind: "text",
    dimension: RATIO,
    point: false,
    at: NOWHERE,
    isList,
    node,
    isZero: false,
    constant: none,
    unit: none,
    texts,
  };
}

const NOWHERE: readonly number[] = [];

/** The same operand, seen at another node: in brackets, by its name, as the result of a call. */
export function seenAt(operand: Operand, node: Node): Operand {
  const { kind, dimension, point, at, isList, isZero, constant, unit, texts } = operand;
  return texts ? textual(node, texts, isList) : { kind, dimension, point, at, isList, node, isZero, constant, unit };
}

import type { Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { Node } from "../syntax/tree";
import { slack } from "./operation";

/**
 * One comparison of a rule, judged on a single output, left − right, so that inputs on both sides cancel.
 * The slots hold, one behind the other: left, right, left − right.
 */
export interface Clause {
  readonly relation: Relation;
  readonly left: Node;
  readonly right: Node;
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
  /** Of the finer side, where both are numbers as written. */
  readonly step?: number;
  /** First of the three slots, counted from the entry's results. */
  readonly slot: number;
  /** Of `!=`, which fails inside a range and not at its ends: the result that holds its truth, to be searched. */
  readonly truth?: number;
  /** The row of a list that it is about, from 0; undefined where neither side is a list. */
  readonly row?: number;
  readonly rowName?: string;
}

export type Relation = "<" | "<=" | ">" | ">=" | "=" | "!=";

/** What holds where the relation does not. */
export const OPPOSITE: Readonly<Record<Relation, Relation>> = {
  "<": ">=",
  "<=": ">",
  ">": "<=",
  ">=": "<",
  "=": "!=",
  "!=": "=",
};

/** Whether a relation holds for left − right, with the sides to see what is noise. */
export function holds(relation: Relation, margin: number, left: number, right: number): boolean {
  const tolerance = slack(left, right);
  switch (relation) {
    case "<":
      return margin < -tolerance;
    case "<=":
      return margin <= tolerance;
    case ">":
      return margin > tolerance;
    case ">=":
      return margin >= -tolerance;
    case "=":
      return Math.abs(margin) <= tolerance;
    case "!=":
      return Math.abs(margin) > tolerance;
  }
}

import type { Statement } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import { statedName, type Entry } from "./entry";
import type { Literal } from "./literal";
import type { InputPlace } from "./outcome";

const HELD = { shape: "held" } as const;

/** An uncertain literal as its readers are told of it; by a name that is given, where its statement does not tell. */
export function placeOf(entry: Entry, node: Node, literal: Literal, given: string | undefined): InputPlace {
  const { tree, text } = entry.statement;
  const stated = statesWhole(entry.statement, node) ? statedName(entry.statement) : undefined;
  const name = given ?? stated ?? text.slice(tree.start(node), tree.end(node));
  const { nominal, low, high, dimension, point, unit } = literal;
  const spread = entry.statement.kind === "over" ? HELD : literal.spread;
  return { name, nominal, low, high, spread, dimension, point, unit };
}

/** Whether a literal is all that a statement says of its name: an input, or what was chosen. */
function statesWhole(statement: Statement, node: Node): boolean {
  if (statement.kind === "function" || !("value" in statement)) return false;
  return statement.value === node || (statement.kind === "derived" && statement.choice?.value === node);
}

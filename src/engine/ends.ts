import { Kind, NONE, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { NATIVES } from "./natives";
import { quantity, type Operand } from "./operand";
import { probed } from "./probe";

type End = "nominal" | "lowest" | "highest";

/**
 * Compiles `nominal(x)`, `lowest(x)` and `highest(x)`: numbers that are worked out once, and exact from there on. Of a list,
 * member by member. They are the same for every piece.
 */
export function compileEnd(compiler: Compiler, node: Node, name: string): Operand | undefined {
  const { tree, frame } = compiler;
  const of = tree.next(tree.first(node));
  const { signature } = NATIVES.get(name)!;
  const refuse = (at: Node, reason: string) =>
    compiler.fail(at, { code: "function.arguments", name, reason, signature });
  if (of === NONE) return refuse(node, "needs another argument");
  if (tree.kind(of) === Kind.Argument) return refuse(of, "takes its arguments by position");
  if (tree.next(of) !== NONE) return refuse(node, "has an argument too many");
  compiler.isWatchful = true;
  const x = compiler.inFrame({ ...frame, piece: undefined }, () => compiler.expression(of));
  if (!x || !compiler.isQuantity(x, `in ${name}(…)`)) return undefined;
  const end = name as End;
  const values = probed(compiler, x).map(({ nominal, low, high }) => ({ nominal, lowest: low, highest: high })[end]);
  const text = compiler.text(of);
  if (values.some((value) => !Number.isFinite(value))) return compiler.fail(node, { code: "range.noEnd", end, text });
  const { point, isList, unit, isZero } = x;
  const at = values.map((value) => compiler.constant(value));
  const constant = isList || point ? undefined : values[0];
  return quantity(node, x.dimension, at, { point, isList, unit, isZero, constant });
}

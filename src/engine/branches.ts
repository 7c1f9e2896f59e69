import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { quantity, seenAt, type Operand } from "./operand";
import { Op } from "./operation";
import { commonUnit } from "./statedUnit";

/** Compiles `if c then a else b`. */
export function compileIf(compiler: Compiler, node: Node): Operand | undefined {
  const [conditionNode, yesNode, noNode] = compiler.tree.children(node);
  const condition = compiler.expression(conditionNode);
  // What texts decide is decided here: the other branch is for other texts, and has no meaning with these.
  if (condition?.kind === "truth" && condition.constant !== undefined) {
    const taken = compiler.expression(condition.constant === 1 ? yesNode : noNode);
    return taken && seenAt(taken, node);
  }
  const yes = compiler.domains.inBranch(condition, true, yesNode);
  const no = compiler.domains.inBranch(condition, false, noNode);
  if (!condition || !yes || !no || !compiler.isTruth(condition, "behind `if`")) return undefined;
  if (yes.kind !== no.kind)
    return (compiler.isQuantity(yes.kind === "quantity" ? no : yes, "in the other branch"), undefined);
  if (yes.kind === "text") return compiler.refuseText(yes, "in a branch that only numbers decide");
  const agreed = compiler.agree({ kind: "branches" }, yes, no);
  const at = agreed && compiler.each(Op.If, node, [condition, yes, no]);
  if (!agreed || !at) return undefined;
  const isList = condition.isList || yes.isList || no.isList;
  return {
    ...quantity(node, agreed.dimension, at, { isList, point: agreed.point, unit: commonUnit([yes, no]) }),
    kind: yes.kind,
  };
}

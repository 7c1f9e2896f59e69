import type { Cursor } from "./cursor";
import { Kind, Operator, type Node } from "./tree";

/** Whether the node is `a || b` without brackets. */
export function isParallel(at: Cursor, node: Node): boolean {
  return at.tree.kind(node) === Kind.Binary && at.tree.operator(node) === Operator.Parallel;
}

/** Whether the node is a bracket around something that is true or false. */
export function isCondition(at: Cursor, node: Node): boolean {
  const { tree } = at;
  if (tree.kind(node) !== Kind.Group) return false;
  const inside = tree.first(node);
  if (tree.kind(inside) === Kind.Comparison) return true;
  const operator = tree.operator(inside);
  if (tree.kind(inside) === Kind.Unary) return operator === Operator.Not;
  return tree.kind(inside) === Kind.Binary && (operator === Operator.And || operator === Operator.Or);
}

/** `a < 1 || b < 2`: the chain `a < (1 || b) < 2` is what the grammar reads, and hardly ever what is meant. */
export function parallelOfConditions(at: Cursor, comparison: Node, inner: Node): Node {
  const { tree, text } = at;
  const left = tree.first(inner);
  const right = tree.next(left);
  const [start, end] = [tree.start(inner), tree.end(inner)];
  const or = text.slice(start, tree.end(left)) + " or " + text.slice(tree.start(right), end);
  at.report(start, end, { code: "syntax.parallelOfConditions", rewritten: [or, `(${text.slice(start, end)})`] });
  return at.spoil(comparison);
}

/** `a * b || c`: the sign binds tighter, but not everyone reads it so. */
export function parallelNeedsBrackets(at: Cursor, node: Node, left: Node, right: Node, sign: string): Node {
  const { tree, text } = at;
  const inBrackets = (from: Node, to: Node): string => `(${text.slice(tree.start(from), tree.end(to))})`;
  const plain = (of: Node): string => text.slice(tree.start(of), tree.end(of));
  const rewritten: string[] = [];
  const around = isParallel(at, left) ? inBrackets(left, left) : plain(left);
  rewritten.push(`${around} ${sign} ${isParallel(at, right) ? inBrackets(right, right) : plain(right)}`);
  if (!isParallel(at, left)) {
    const first = tree.first(right);
    rewritten.push(`${inBrackets(left, first)} || ${plain(tree.next(first))}`);
  } else if (!isParallel(at, right)) {
    const first = tree.first(left);
    rewritten.push(`${plain(first)} || ${inBrackets(tree.next(first), right)}`);
  }
  const span = [tree.start(left), tree.end(right)] as const;
  at.report(span[0], span[1], { code: "syntax.parallelNeedsBrackets", rewritten });
  return at.spoil(node);
}

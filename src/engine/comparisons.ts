import { Kind, Operator, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { Relation } from "./condition";
import { quantity, truth, type Operand } from "./operand";
import { joined } from "./operators";
import { Op } from "./operation";
import { unitOfLiteral } from "./statedUnit";

/** Two operands of a comparison. */
export interface Pair {
  readonly relation: Relation;
  readonly left: Operand;
  readonly right: Operand;
}

const RELATIONS: ReadonlyMap<Operator, Relation> = new Map([
  [Operator.Less, "<"],
  [Operator.LessOrEqual, "<="],
  [Operator.Greater, ">"],
  [Operator.GreaterOrEqual, ">="],
  [Operator.Equal, "="],
  [Operator.NotEqual, "!="],
]);

/** Compiles a comparison to one truth value. */
export function compileComparison(compiler: Compiler, node: Node): Operand | undefined {
  const pairs = pairsOf(compiler, node);
  return pairs && truthOf(compiler, pairs, node);
}

/** Whether all the pairs of a chained comparison hold. */
export function truthOf(compiler: Compiler, pairs: readonly Pair[], node: Node): Operand | undefined {
  let result: Operand | undefined;
  for (const pair of pairs) {
    const one = isOfText(pair) ? compareTexts(compiler, pair, node) : compared(compiler, pair, node);
    if (!one) return undefined;
    result = result ? joined(compiler, node, Operator.And, result, one) : one;
    if (!result) return undefined;
  }
  return result;
}

/** Texts are compared while compiling. */
export function isOfText({ left }: Pair): boolean {
  return left.kind === "text";
}

function compared(compiler: Compiler, pair: Pair, node: Node): Operand | undefined {
  const at = compare(compiler, pair, node);
  return at && truth(node, at, pair.left.isList || pair.right.isList);
}

/** Text is equal to text or not; it is not less or more, and nothing else is equal to it. */
function areTexts(compiler: Compiler, relation: Relation, left: Operand, right: Operand): boolean {
  for (const [one, other] of [
    [left, right],
    [right, left],
  ]) {
    if (one.kind === "text" && other.kind !== "text")
      return (compiler.refuseText(one, `beside \`${compiler.text(other.node)}\``), false);
  }
  if (relation === "=" || relation === "!=") return areOfOneLength(compiler, left, right);
  compiler.refuseText(left, `on the left of \`${relation}\``);
  return false;
}

/** The pairs that a chained comparison sets against each other; `x inside a .. b` is two of them. */
export function pairsOf(compiler: Compiler, node: Node): readonly Pair[] | undefined {
  const { tree } = compiler;
  const parts = tree.children(node);
  const result: Pair[] = [];
  let left = compiler.expression(parts[0]);
  for (let i = 1; i < parts.length; i += 2) {
    const sign = tree.operator(parts[i]) as Operator;
    if (sign === Operator.Inside) {
      const limits = left && band(compiler, left, parts[i + 1]);
      if (!limits) return undefined;
      result.push(...limits);
      continue;
    }
    const right = compiler.expression(parts[i + 1]);
    if (!left || !right) return undefined;
    const relation = RELATIONS.get(sign)!;
    if (left.kind === "text" || right.kind === "text") {
      if (!areTexts(compiler, relation, left, right)) return undefined;
      result.push({ relation, left, right });
      left = right;
      continue;
    }
    if (!compiler.isQuantity(left, "in a comparison") || !compiler.isQuantity(right, "in a comparison"))
      return undefined;
    if (!compiler.agree({ kind: "compare" }, left, right)) return undefined;
    result.push({ relation, left, right });
    left = right;
  }
  return result;
}

/** A band is a pair of limits, not an uncertain quantity. */
function band(compiler: Compiler, left: Operand, node: Node): readonly Pair[] | undefined {
  const { tree } = compiler;
  if (tree.kind(node) !== Kind.Literal)
    return compiler.fail(node, { code: "literal.bandNeeded", text: compiler.text(node) });
  const literal = compiler.readLiteral(node);
  if (!literal) return undefined;
  const { low, high, dimension, point, step } = literal;
  const unit = unitOfLiteral(literal);
  const limit = (value: number) => quantity(node, dimension, [compiler.constant(value)], { point, unit, step });
  if (!compiler.isQuantity(left, "in a comparison")) return undefined;
  const upper = limit(high);
  if (!compiler.agree({ kind: "compare" }, left, upper)) return undefined;
  const below: Pair = { relation: "<=", left, right: upper };
  return Number.isFinite(low) ? [{ relation: ">=", left, right: limit(low) }, below] : [below];
}

/** Whether texts are the same is known when they are compiled. */
function compareTexts(compiler: Compiler, { relation, left, right }: Pair, node: Node): Operand {
  const length = Math.max(left.texts!.length, right.texts!.length);
  const isList = left.isList || right.isList;
  const holds = Array.from({ length }, (_, i) => {
    const isSame = left.texts![left.isList ? i : 0] === right.texts![right.isList ? i : 0];
    return isSame === (relation === "=") ? 1 : 0;
  });
  const at = holds.map((value) => compiler.constant(value));
  return truth(node, at, isList, isList ? undefined : holds[0]);
}

function areOfOneLength(compiler: Compiler, left: Operand, right: Operand): boolean {
  const [leftLength, rightLength] = [left.texts!.length, right.texts!.length];
  if (!left.isList || !right.isList || leftLength === rightLength) return true;
  const [one, other] = [compiler.text(left.node), compiler.text(right.node)];
  compiler.fail(right.node, { code: "list.lengths", left: one, leftLength, right: other, rightLength });
  return false;
}

/** The truth of one pair; of lists, row by row. */
export function compare(compiler: Compiler, pair: Pair, node: Node): readonly number[] | undefined {
  const { relation, left, right } = pair;
  switch (relation) {
    case "<":
      return compiler.each(Op.Less, node, [left, right]);
    case "<=":
      return compiler.each(Op.LessOrEqual, node, [left, right]);
    case ">":
      return compiler.each(Op.Less, node, [right, left]);
    case ">=":
      return compiler.each(Op.LessOrEqual, node, [right, left]);
    default: {
      const at = compiler.each(Op.Equal, node, [left, right]);
      if (relation === "=" || !at) return at;
      return compiler.each(Op.Not, node, [truth(node, at, left.isList || right.isList)]);
    }
  }
}

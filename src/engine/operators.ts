import { divide, multiply, power as powerOf, RATIO, TEMPERATURE, type Dimension } from "../quantity/dimension";
import { Kind, Operator, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { quantity, seenAt, truth, type Operand, type QuantityTraits } from "./operand";
import { Op } from "./operation";
import { commonUnit } from "./statedUnit";
import { isTorqueTimesTurns, isTurnsBesideAngle, unitOfProduct } from "./turns";

/** Compiles a minus or a `not` before an expression. */
export function compileUnary(compiler: Compiler, node: Node): Operand | undefined {
  const operand = compiler.expression(compiler.tree.first(node));
  switch (compiler.tree.operator(node) as Operator) {
    case Operator.Negate: {
      if (!operand || !compiler.isQuantity(operand, "behind a minus") || !compiler.isPlain(operand, "negated"))
        return undefined;
      const at = compiler.each(Op.Negate, node, [operand])!;
      const constant = operand.constant === undefined ? undefined : -operand.constant;
      return { ...operand, node, at, constant };
    }
    default:
      if (!operand || !compiler.isTruth(operand, "behind `not`")) return undefined;
      if (operand.constant !== undefined) return known(compiler, node, operand.constant === 0);
      return truth(node, compiler.each(Op.Not, node, [operand])!, operand.isList);
  }
}

/** Compiles an operator between two expressions. */
export function compileBinary(compiler: Compiler, node: Node): Operand | undefined {
  const { tree } = compiler;
  const first = tree.first(node);
  if (tree.kind(first) !== Kind.Binary) return compileLink(compiler, node, compiler.expression(first));
  const chain = tree.chain(node);
  let left = compiler.expression(tree.first(chain[0]));
  for (const link of chain) {
    left = compileLink(compiler, link, left);
    if (!left && compiler.isTooLarge) break;
  }
  return left;
}

/** An operator whose left side is compiled. */
function compileLink(compiler: Compiler, node: Node, left: Operand | undefined): Operand | undefined {
  const { tree } = compiler;
  const operator = tree.operator(node) as Operator;
  const right = compiler.expression(tree.next(tree.first(node)));
  if (!left || !right) return undefined;
  if (operator === Operator.And || operator === Operator.Or) {
    const word = operator === Operator.And ? "`and`" : "`or`";
    if (!compiler.isTruth(left, `on the left of ${word}`) || !compiler.isTruth(right, `on the right of ${word}`))
      return undefined;
    return joined(compiler, node, operator, left, right);
  }
  if (!compiler.isQuantity(left, "in a calculation") || !compiler.isQuantity(right, "in a calculation"))
    return undefined;
  switch (operator) {
    case Operator.Add:
      return sum(compiler, node, left, right, Op.Add);
    case Operator.Subtract:
      return sum(compiler, node, left, right, Op.Subtract);
    case Operator.Multiply:
      return product(compiler, node, left, right, Op.Multiply);
    case Operator.Divide:
      return product(compiler, node, left, right, Op.Divide);
    case Operator.Power:
      return power(compiler, node, left, right);
    default:
      return parallel(compiler, node, left, right);
  }
}

/** A condition that is decided while compiling. */
export function known(compiler: Compiler, node: Node, isTrue: boolean): Operand {
  const value = isTrue ? 1 : 0;
  return truth(node, [compiler.constant(value)], false, value);
}

/** Two conditions, joined by `and` or `or`; one that is decided decides for both, or leaves it to the other. */
export function joined(
  compiler: Compiler,
  node: Node,
  operator: Operator.And | Operator.Or,
  left: Operand,
  right: Operand,
): Operand | undefined {
  const decisive = operator === Operator.And ? 0 : 1;
  for (const [one, other] of [
    [left, right],
    [right, left],
  ])
    if (one.constant !== undefined)
      return one.constant === decisive ? known(compiler, node, decisive === 1) : seenAt(other, node);
  const at = compiler.each(operator === Operator.And ? Op.And : Op.Or, node, [left, right]);
  return at && truth(node, at, left.isList || right.isList);
}

function arithmetic(
  compiler: Compiler,
  node: Node,
  op: Op,
  left: Operand,
  right: Operand,
  dimension: Dimension,
  more: QuantityTraits,
): Operand | undefined {
  const at = compiler.eachOfTwo(op, node, left, right);
  const { point, constant, unit } = more;
  return at && quantity(node, dimension, at, { isList: left.isList || right.isList, point, constant, unit });
}

/** Point ± difference is a point, point − point is a difference; a ratio cannot be added to a quantity. */
function sum(
  compiler: Compiler,
  node: Node,
  left: Operand,
  right: Operand,
  op: Op.Add | Op.Subtract,
): Operand | undefined {
  const sign = op === Op.Add ? "+" : "-";
  const kind = op === Op.Add ? "add" : "subtract";
  if (left.point || right.point) {
    const isDifference = op === Op.Subtract && left.point && right.point;
    const isPoint = left.point
      ? !right.point && right.dimension === TEMPERATURE
      : op === Op.Add && left.dimension === TEMPERATURE;
    if (!isDifference && !isPoint)
      return compiler.fail(right.node, {
        code: "temperature.pair",
        operation: kind,
        left: compiler.side(left),
        right: compiler.side(right),
      });
    const unit = isPoint ? (left.point ? left.unit : right.unit) : undefined;
    return arithmetic(compiler, node, op, left, right, TEMPERATURE, { point: isPoint, unit });
  }
  if (left.dimension !== right.dimension && !left.isZero && !right.isZero) {
    if (right.dimension === RATIO || left.dimension === RATIO)
      return compiler.fail(node, {
        code: "unit.ratioAdded",
        sign,
        left: compiler.side(left),
        right: compiler.side(right),
      });
    return compiler.mismatch({ kind }, left, right, right.node);
  }
  if (isTurnsBesideAngle(compiler, left, right)) return undefined;
  const dimension = left.isZero ? right.dimension : left.dimension;
  const constant = folded(left, right, (a, b) => (op === Op.Add ? a + b : a - b));
  return arithmetic(compiler, node, op, left, right, dimension, { unit: commonUnit([left, right]), constant });
}

function product(
  compiler: Compiler,
  node: Node,
  left: Operand,
  right: Operand,
  op: Op.Multiply | Op.Divide,
): Operand | undefined {
  const operation = op === Op.Multiply ? "multiplied" : "divided";
  if (!compiler.isPlain(left, operation) || !compiler.isPlain(right, operation)) return undefined;
  const dimension = (op === Op.Multiply ? multiply : divide)(left.dimension, right.dimension);
  const constant = folded(left, right, (a, b) => (op === Op.Multiply ? a * b : a / b));
  if (op === Op.Multiply && isTorqueTimesTurns(compiler, node, left, right)) return undefined;
  const unit = unitOfProduct(dimension, left, right, op === Op.Multiply ? 1 : -1);
  return arithmetic(compiler, node, op, left, right, dimension, { constant, unit });
}

function power(compiler: Compiler, node: Node, base: Operand, exponent: Operand): Operand | undefined {
  if (!compiler.isPlain(base, "raised to a power") || !compiler.isPlain(exponent, "used as an exponent"))
    return undefined;
  if (exponent.dimension !== RATIO)
    return compiler.fail(exponent.node, {
      code: "unit.ratioNeeded",
      where: "an exponent",
      side: compiler.side(exponent),
    });
  const constant = folded(base, exponent, (a, b) => a ** b);
  if (base.dimension === RATIO) return arithmetic(compiler, node, Op.Power, base, exponent, RATIO, { constant });
  if (exponent.constant === undefined)
    return compiler.fail(exponent.node, { code: "unit.exponent", base: compiler.side(base), reason: "not constant" });
  const dimension = powerOf(base.dimension, exponent.constant);
  if (!dimension)
    return compiler.fail(exponent.node, { code: "unit.exponent", base: compiler.side(base), reason: "not in sixths" });
  if (exponent.constant === 0.5) {
    const at = compiler.each(Op.SquareRoot, node, [base])!;
    return quantity(node, dimension, at, { isList: base.isList });
  }
  return arithmetic(compiler, node, Op.Power, base, exponent, dimension, { constant });
}

function parallel(compiler: Compiler, node: Node, left: Operand, right: Operand): Operand | undefined {
  if (!compiler.isPlain(left, "put in parallel") || !compiler.isPlain(right, "put in parallel")) return undefined;
  const agreed = compiler.agree({ kind: "parallel" }, left, right);
  return (
    agreed &&
    arithmetic(compiler, node, Op.Parallel, left, right, agreed.dimension, { unit: commonUnit([left, right]) })
  );
}

function folded(left: Operand, right: Operand, f: (a: number, b: number) => number): number | undefined {
  if (left.constant === undefined || right.constant === undefined) return undefined;
  const value = f(left.constant, right.constant);
  return Number.isFinite(value) ? value : undefined;
}

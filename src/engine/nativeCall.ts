import { power, RATIO, TEMPERATURE, withoutCounts, type Dimension } from "../quantity/dimension";
import { Kind, NONE, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { compileRollup } from "./assembly";
import { compileFilter, compileSorted } from "./listCalls";
import { columnAt } from "./members";
import { compileInterpolation, compileLookup, compileMemberOf, compilePair, compileSeriesPick } from "./lookupCall";
import { NATIVES, type Native } from "./natives";
import { quantity, type Operand, type QuantityTraits } from "./operand";
import { Op } from "./operation";
import { commonUnit } from "./statedUnit";

/** Compiles a call of a built-in function: its arguments, their units, and the operations. */
export function compileNative(compiler: Compiler, node: Node, name: string): Operand | undefined {
  const native = NATIVES.get(name)!;
  const operands = argumentsOf(compiler, node, name, native);
  if (!operands) return undefined;
  if (native.rule === "size" && operands[0].kind === "text")
    return quantity(node, RATIO, [compiler.constant(operands[0].texts!.length)]);
  const call = { compiler, node, name, native, operands };
  if (native.rule === "series") return compileSeriesPick(call);
  if (native.rule === "pair") return compilePair(call);
  if (native.rule === "member") return compileMemberOf(call);
  if (native.rule === "lookup") return compileLookup(call);
  if (native.rule === "interpolate") return compileInterpolation(call);
  if (native.rule === "filter") return compileFilter(compiler, node, operands);
  if (native.rule === "sorted") return compileSorted(compiler, node, operands);
  if (native.rule === "rollup") return compileRollupOf(compiler, node, operands[0], native.signature);
  for (const operand of operands) if (!compiler.isQuantity(operand, `in ${name}(…)`)) return undefined;
  return new Call(compiler, node, name, native).result(operands);
}

/** Quantities are multiplied along the tree of a table, so that a column of one is needed. */
function compileRollupOf(compiler: Compiler, node: Node, list: Operand, signature: string): Operand | undefined {
  const found = columnAt(compiler, list.node);
  if (found && compiler.isQuantity(list, "in rollup(…)") && compiler.isPlain(list, "used in rollup(…)"))
    return compileRollup(compiler, node, list, found.column, found.table);
  if (found) return undefined;
  const reason = "takes a column of a table";
  return compiler.fail(list.node, { code: "function.arguments", name: "rollup", reason, signature });
}

function argumentsOf(compiler: Compiler, node: Node, name: string, native: Native): Operand[] | undefined {
  const { tree } = compiler;
  const operands: (Operand | undefined)[] = [];
  for (let child = tree.next(tree.first(node)); child !== NONE; child = tree.next(child)) {
    if (tree.kind(child) === Kind.Argument) {
      compiler.fail(child, {
        code: "function.arguments",
        name,
        reason: "takes its arguments by position",
        signature: native.signature,
      });
      return undefined;
    }
    operands.push(native.rule === "size" ? compiler.counted(child) : compiler.expression(child));
  }
  if (operands.length < native.least || operands.length > native.most) {
    const reason = operands.length < native.least ? "needs another argument" : "has an argument too many";
    compiler.fail(node, { code: "function.arguments", name, reason, signature: native.signature });
    return undefined;
  }
  return operands.every((operand) => operand !== undefined) ? operands : undefined;
}

class Call {
  constructor(
    private readonly compiler: Compiler,
    private readonly node: Node,
    private readonly name: string,
    private readonly native: Native,
  ) {}

  result(operands: readonly Operand[]): Operand | undefined {
    const [x] = operands;
    switch (this.native.rule) {
      case "ratio":
        return this.isRatio(x) ? this.apply(x, RATIO) : undefined;
      case "same":
        return this.isPlain(x) ? this.apply(x, x.dimension, { unit: commonUnit([x]) }) : undefined;
      case "sign":
        return this.isPlain(x) ? this.apply(x, RATIO) : undefined;
      case "root":
        return this.root(x);
      case "rounding":
        return this.rounding(x, operands[1]);
      case "pick":
        return this.fold(operands, this.native.op!, true);
      case "sum":
        return this.fold(operands, this.native.op!, false);
      case "angle": {
        const folded = this.fold(operands, this.native.op!, false);
        return folded && { ...folded, dimension: RATIO, unit: undefined };
      }
      case "mean":
        return this.mean(operands);
      case "rss":
        return this.rootOfSquares(operands);
      case "size":
        return quantity(this.node, RATIO, [this.compiler.constant(x.at.length)], { constant: x.at.length });
      case "kelvin":
        return this.kelvin(x);
      case "point":
        return this.point(x);
      default:
        throw new Error(`${this.name} is compiled elsewhere.`);
    }
  }

  private apply(x: Operand, dimension: Dimension, more: QuantityTraits = {}): Operand {
    const at = this.compiler.each(this.native.op!, this.node, [x])!;
    return quantity(this.node, dimension, at, { isList: x.isList, ...more });
  }

  private isRatio(x: Operand): boolean {
    if (!this.isPlain(x)) return false;
    if (x.dimension === RATIO) return true;
    this.compiler.fail(x.node, { code: "unit.ratioNeeded", where: `${this.name}(…)`, side: this.compiler.side(x) });
    return false;
  }

  private isPlain(x: Operand): boolean {
    return this.compiler.isPlain(x, `used in ${this.name}(…)`);
  }

  private root(x: Operand): Operand | undefined {
    if (!this.isPlain(x)) return undefined;
    const dimension = power(x.dimension, this.native.op === Op.CubeRoot ? 1 / 3 : 1 / 2);
    if (dimension) return this.apply(x, dimension);
    return this.compiler.fail(x.node, { code: "unit.exponent", base: this.compiler.side(x), reason: "not in sixths" });
  }

  /** Plain numbers and counts are rounded as they are; anything else needs a step: `ceil(x, 0.5 V)`. */
  private rounding(x: Operand, step: Operand | undefined): Operand | undefined {
    const { compiler, node } = this;
    if (!this.isPlain(x)) return undefined;
    if (step) {
      if (!this.isPlain(step) || !compiler.agree({ kind: "pick", name: this.name }, x, step)) return undefined;
      const steps = compiler.each(Op.Divide, node, [x, step]);
      const whole =
        steps &&
        compiler.each(this.native.op!, node, [quantity(node, RATIO, steps, { isList: x.isList || step.isList })]);
      const at =
        whole &&
        compiler.each(Op.Multiply, node, [quantity(node, RATIO, whole, { isList: x.isList || step.isList }), step]);
      return at && quantity(node, x.dimension, at, { isList: x.isList || step.isList, unit: commonUnit([x]) });
    }
    if (onlyCounts(x.dimension)) return this.apply(x, x.dimension);
    return compiler.fail(x.node, {
      code: "unit.ratioNeeded",
      where: `${this.name}(…) without a step`,
      side: compiler.side(x),
    });
  }

  /** Members of lists and single arguments alike, from the left. */
  private fold(operands: readonly Operand[], op: Op, allowsPoints: boolean): Operand | undefined {
    const { compiler, node } = this;
    let type = operands[0];
    for (const operand of operands) {
      if (!allowsPoints && !this.isPlain(operand)) return undefined;
      const agreed = compiler.agree({ kind: "pick", name: this.name }, type, operand);
      if (!agreed) return undefined;
      type = { ...type, ...agreed, isZero: type.isZero && operand.isZero };
    }
    const members = operands.flatMap(({ at }) => at);
    const at = members.slice(1).reduce((total, member) => compiler.emit(op, node, total, member), members[0]);
    return quantity(node, type.dimension, [at], { point: type.point, unit: commonUnit(operands) });
  }

  /** The mean of temperatures on a scale is one too: they are kept in kelvins. */
  private mean(operands: readonly Operand[]): Operand | undefined {
    const { compiler, node } = this;
    const sum = this.fold(operands, Op.Add, true);
    if (!sum) return undefined;
    const count = compiler.constant(operands.reduce((total, { at }) => total + at.length, 0));
    return { ...sum, at: [compiler.emit(Op.Divide, node, sum.at[0], count)] };
  }

  private rootOfSquares(operands: readonly Operand[]): Operand | undefined {
    const total = this.fold(operands, Op.Hypot, false);
    if (!total || operands.flatMap(({ at }) => at).length > 1) return total;
    return { ...total, at: [this.compiler.emit(Op.Abs, this.node, total.at[0])] };
  }

  private kelvin(x: Operand): Operand | undefined {
    if (x.point) return { ...x, node: this.node, point: false, unit: undefined };
    return this.compiler.fail(x.node, {
      code: "temperature.point",
      operation: "turned into kelvins, for it is none on a scale",
      side: this.compiler.side(x),
    });
  }

  private point(x: Operand): Operand | undefined {
    const { compiler } = this;
    if (!this.isPlain(x)) return undefined;
    if (x.dimension === TEMPERATURE)
      return { ...x, node: this.node, point: true, unit: undefined, constant: undefined };
    const wanted = quantity(this.node, TEMPERATURE, []);
    return compiler.mismatch({ kind: "argument", name: "point" }, x, wanted, x.node);
  }
}

/** Whether a dimension is made of counted units only, so that whole numbers of it make sense. */
function onlyCounts(dimension: Dimension): boolean {
  return withoutCounts(dimension, [...dimension.counts.keys()]) === RATIO;
}

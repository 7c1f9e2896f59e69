import { multiply, RATIO, withoutCounts } from "../quantity/dimension";
import { Kind, NONE, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { MOST_COPIED } from "./instances";
import { NATIVES } from "./natives";
import { quantity, type Operand } from "./operand";
import { probed } from "./probe";
import { Op } from "./operation";
import { pieceAt, type Piece } from "./piece";

/** Pieces of a value with jumps, each of which is computed by itself. */
const MOST_JUMPING = 100;

/**
 * Compiles `total(n, x)`: the sum over n pieces, in which the `each` inputs of x are drawn anew for every piece and all
 * others are shared.
 *
 * One piece stands for all. At given shared inputs, x of one piece takes all values between two ends, because it has no
 * jumps; a sum of n of them takes all values between n times those ends, and n times the one takes the same. So ranges
 * are exact, however large n is. To first order the sum is n times x at the mean of the pieces' inputs, which is
 * how the one is spread. For draws the pieces are written out: see `everyPiece.ts`.
 *
 * Where x has jumps, it can skip values that the sum does not, and every piece is computed by itself.
 */
export function compileTotal(compiler: Compiler, node: Node): Operand | undefined {
  const { tree, frame, top } = compiler;
  compiler.isWatchful = true;
  const nodes = argumentsOf(compiler, node);
  if (!nodes) return undefined;
  const [countNode, of] = nodes;
  const counted = compiler.expression(countNode);
  const count = counted && countOf(compiler, counted);
  if (counted === undefined || count === undefined) return undefined;
  const start = compiler.code.count;
  const { operand, differs } = compiler.instances.drawnAnew(pieceAt(frame, node, top, count), of);
  if (!operand || !isAddable(compiler, operand)) return undefined;
  if (!differs && !frame.piece)
    compiler.fail(node, {
      code: "piece.same",
      text: compiler.text(node),
      of: "total",
      whole: `${factor(compiler, countNode)} * ${factor(compiler, of)}`,
    });
  const dimension = multiply(counted.dimension, operand.dimension);
  const unit = counted.dimension === RATIO ? operand.unit : undefined;
  const isJumping = count > 0 && differs && compiler.instances.canSkipValues(start);
  const at = isJumping
    ? oneByOne(compiler, node, of, count)
    : count === 0
      ? compiler.constant(0)
      : compiler.emit(differs ? Op.Total : Op.Multiply, tree.first(node), operand.at[0], compiler.constant(count));
  return at === undefined ? undefined : quantity(node, dimension, [at], { unit });
}

/** An expression as written, in brackets where it would not hold together as a factor. */
function factor(compiler: Compiler, node: Node): string {
  const isLoose = [Kind.Binary, Kind.Comparison, Kind.If, Kind.Without].includes(compiler.tree.kind(node));
  return isLoose ? `(${compiler.text(node)})` : compiler.text(node);
}

function argumentsOf(compiler: Compiler, node: Node): readonly [Node, Node] | undefined {
  const { tree } = compiler;
  const { signature } = NATIVES.get("total")!;
  const refuse = (at: Node, reason: string) =>
    compiler.fail(at, { code: "function.arguments", name: "total", reason, signature });
  const nodes: Node[] = [];
  for (let child = tree.next(tree.first(node)); child !== NONE; child = tree.next(child)) {
    if (tree.kind(child) === Kind.Argument) return refuse(child, "takes its arguments by position");
    nodes.push(child);
  }
  if (nodes.length < 2) return refuse(node, "needs another argument");
  return nodes.length > 2 ? refuse(node, "has an argument too many") : [nodes[0], nodes[1]];
}

/** How many pieces: a whole number that is certain, plain or of something counted. */
function countOf(compiler: Compiler, n: Operand): number | undefined {
  if (!compiler.isQuantity(n, "in total(…)") || !compiler.isPlain(n, "a number of pieces")) return undefined;
  if (n.isList) return refuseList(compiler, n);
  if (withoutCounts(n.dimension, [...n.dimension.counts.keys()]) !== RATIO)
    return compiler.fail(n.node, { code: "unit.ratioNeeded", where: "total(n, x) for n", side: compiler.side(n) });
  const [{ nominal, low, high }] = probed(compiler, n);
  const text = compiler.text(n.node);
  if (Number.isNaN(nominal)) return compiler.fail(n.node, { code: "piece.count", text, is: "no value" });
  if (low !== high) return compiler.fail(n.node, { code: "piece.count", text, is: "uncertain" });
  const whole = Math.round(nominal);
  const isWhole = whole >= 0 && Math.abs(nominal - whole) <= 1e-9 && whole <= Number.MAX_SAFE_INTEGER;
  return isWhole ? whole : compiler.fail(n.node, { code: "piece.count", text, is: nominal });
}

function isAddable(compiler: Compiler, x: Operand): boolean {
  if (!compiler.isQuantity(x, "in total(…)") || !compiler.isPlain(x, "used in total(…)")) return false;
  if (x.isList) refuseList(compiler, x);
  return !x.isList;
}

function refuseList(compiler: Compiler, x: Operand): undefined {
  return compiler.fail(x.node, { code: "list.unexpected", where: "in total(n, x)", text: compiler.text(x.node) });
}

function oneByOne(compiler: Compiler, node: Node, of: Node, count: number): number | undefined {
  const { frame, top, code } = compiler;
  const outer = pieceAt(frame, node, top);
  const before = code.count;
  let sum: number | undefined;
  for (let i = 0; i < count; i++) {
    const piece: Piece = { ...outer, key: `${outer.key}#${i}` };
    const { operand } = compiler.instances.drawnAnew(piece, of);
    if (!operand) return undefined;
    const size = code.count - before;
    if (count > MOST_JUMPING || (i === 0 && count * size > MOST_COPIED))
      return compiler.fail(node, {
        code: "piece.tooMany",
        text: compiler.text(node),
        reason: "jumps",
        most: Math.min(MOST_JUMPING, Math.floor(MOST_COPIED / size)),
      });
    sum = sum === undefined ? operand.at[0] : compiler.emit(Op.Add, node, sum, operand.at[0]);
  }
  return sum;
}

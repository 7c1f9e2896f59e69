import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { textual, type Operand } from "./operand";
import { Op } from "./operation";
import type { Peeked } from "./peek";

/** Members that are sorted though their ranges overlap; each pair of them costs two operations. */
const MOST_COMPARED = 64;

/** `filter(list, condition)`: the members for which the condition is true. */
export function compileFilter(
  compiler: Compiler,
  node: Node,
  [list, condition]: readonly Operand[],
): Operand | undefined {
  const text = compiler.text(list.node);
  if (!list.isList) return compiler.fail(list.node, { code: "list.needed", name: "filter", text });
  if (!compiler.isTruth(condition, "in filter(…)") || !isAsLong(compiler, list, condition)) return undefined;
  const verdicts = compiler.peek(condition.at);
  const open = verdicts.findIndex(({ low, high }) => low !== 1 && high !== 0);
  const missing = verdicts.findIndex(hasNoValue);
  if (missing >= 0) return undecided(compiler, condition, "filter", verdicts.length, missing, true);
  if (open >= 0) return undecided(compiler, condition, "filter", verdicts.length, open);
  const picked = verdicts.flatMap(({ low }, i) => (low === 1 ? [i] : []));
  if (picked.length === 0)
    return compiler.fail(condition.node, { code: "list.unexpected", where: "here, because none is left of it", text });
  const names = picked.map((i) => compiler.rowName(verdicts.length, i) ?? "");
  if (names.some((name) => name !== "")) compiler.seeRows(names);
  return inOrder(list, node, picked);
}

/** `sorted(list)`, `sorted(list, by)`: from the least up. */
export function compileSorted(
  compiler: Compiler,
  node: Node,
  [list, by = list]: readonly Operand[],
): Operand | undefined {
  const text = compiler.text(list.node);
  if (!list.isList) return compiler.fail(list.node, { code: "list.needed", name: "sorted", text });
  if (!isAsLong(compiler, list, by)) return undefined;
  if (by.kind === "text")
    return inOrder(
      list,
      node,
      ranks(by.texts!, (a, b) => (a < b ? -1 : a > b ? 1 : 0)),
    );
  if (!compiler.isQuantity(by, "as what is sorted by")) return undefined;
  const values = compiler.peek(by.at);
  const missing = by === list ? -1 : values.findIndex(hasNoValue);
  if (missing >= 0) return undecided(compiler, by, "sorted", values.length, missing, true);
  const order = ranks(values, (a, b) => a.nominal - b.nominal);
  const overlap = order.findIndex((at, i) => i > 0 && !(values[order[i - 1]].high <= values[at].low));
  if (overlap < 0) return inOrder(list, node, order);
  if (by !== list || values.length > MOST_COMPARED)
    return undecided(compiler, by, "sorted", values.length, order[overlap]);
  return { ...list, node, at: exchanged(compiler, node, list.at), constant: undefined, constants: undefined };
}

/** The order statistics of values whose ranges overlap: neighbours are exchanged until none is above the next. */
function exchanged(compiler: Compiler, node: Node, members: readonly number[]): number[] {
  const at = [...members];
  for (let end = at.length - 1; end > 0; end--) {
    for (let i = 0; i < end; i++) {
      const [a, b] = [at[i], at[i + 1]];
      at[i] = compiler.emit(Op.Min, node, a, b);
      at[i + 1] = compiler.emit(Op.Max, node, a, b);
    }
  }
  return at;
}

function ranks<Member>(members: readonly Member[], compare: (a: Member, b: Member) => number): number[] {
  return members.map((_, i) => i).sort((a, b) => compare(members[a], members[b]) || a - b);
}

function inOrder(list: Operand, node: Node, order: readonly number[]): Operand {
  if (list.kind === "text")
    return textual(
      node,
      order.map((i) => list.texts![i]),
      true,
    );
  return { ...list, node, at: order.map((i) => list.at[i]), constant: undefined, constants: undefined };
}

function isAsLong(compiler: Compiler, list: Operand, other: Operand): boolean {
  const lengthOf = ({ at, texts }: Operand) => texts?.length ?? at.length;
  const [leftLength, rightLength] = [lengthOf(list), lengthOf(other)];
  if (leftLength === rightLength && other.isList) return true;
  const [left, right] = [compiler.text(list.node), compiler.text(other.node)];
  compiler.fail(other.node, { code: "list.lengths", left, leftLength, right, rightLength });
  return false;
}

function hasNoValue({ nominal }: Peeked): boolean {
  return Number.isNaN(nominal);
}

function undecided(
  compiler: Compiler,
  of: Operand,
  name: string,
  length: number,
  member: number,
  isMissing = false,
): undefined {
  const row = compiler.rowName(length, member) ?? `member ${member + 1}`;
  return compiler.fail(of.node, { code: "list.undecided", name, row, ...(isMissing ? { isMissing } : {}) });
}

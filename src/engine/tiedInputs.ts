import type { Statement } from "../syntax/statement";
import { Kind, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import { readLiteral, type Literal } from "./literal";
import type { Note } from "./note";
import { Op, slack } from "./operation";
import { degreesOfFreedomOf } from "./spread";

/**
 * Inputs with the correlation 1 or −1 are one variable: each of a group is what its root makes of it, by the same share of
 * the way from the nominal value to the limits. The root is the one whose name comes first, wherever it stands.
 */
export interface Tie {
  readonly root: Entry;
  /** 1: both are high together; −1: one is low where the other is high. */
  readonly sign: 1 | -1;
}

/** What the input that an entry states is tied to; undefined where it is free, and for the root itself. */
export function tieOf(entry: Entry): Tie | undefined {
  const { note, name } = entry;
  if (note.correlations.size === 0 || name === undefined || note.declared.get(name)?.[0] !== entry) return undefined;
  const group = new Groups(note).groupOf(name);
  if (!group) return undefined;
  const root = [...group.keys()].sort()[0];
  if (root === name) return undefined;
  const sign = group.get(name)! * group.get(root)! > 0 ? 1 : -1;
  return { root: note.declared.get(root)![0], sign };
}

/** The names that are tied in a note. */
export function tiedNames(note: Note): readonly string[] {
  const names: string[] = [];
  for (const { statement } of note.correlations) {
    if (statement.kind !== "correlation" || Math.abs(statement.coefficient) !== 1) continue;
    names.push(statement.tree.text(statement.first), statement.tree.text(statement.second));
  }
  return names;
}

/** An uncertain number with a name of its own: the literal by which a statement states what is used from there on. */
export interface OneLiteral {
  readonly statement: Statement;
  readonly node: Node;
  /** It differs from piece to piece. */
  readonly isEach: boolean;
}

/** The literal that is all of what an entry states, or all that it chooses. */
export function inputOf(entry: Entry | undefined): OneLiteral | undefined {
  const { statement } = entry ?? {};
  const value = statement && usedValue(statement);
  if (!statement || value === undefined) return undefined;
  let node = value;
  while (statement.tree.kind(node) === Kind.Group) node = statement.tree.first(node);
  if (statement.tree.kind(node) !== Kind.Literal) return undefined;
  return { statement, node, isEach: "each" in statement && statement.each !== undefined };
}

function usedValue(statement: Statement): Node | undefined {
  switch (statement.kind) {
    case "given":
    case "assume":
    case "order":
    case "choice":
      return statement.value;
    case "derived":
      return statement.choice ? statement.choice.value : statement.value;
    default:
      return undefined;
  }
}

/** What the literal of an input says; undefined where it cannot be read, or the entry is no such input. */
export function literalOf(entry: Entry, isCounted: (name: string) => boolean): Literal | undefined {
  const input = inputOf(entry);
  const read = input && readLiteral(input.statement.text, input.statement.tree, input.node, isCounted);
  return read && "literal" in read ? read.literal : undefined;
}

/** Whether two literals can be one variable: they have the same shape about the nominal value. */
export function haveOneShape(a: Literal, b: Literal, sign: 1 | -1): boolean {
  const isAlike = a.spread.shape === b.spread.shape && degreesOfFreedomOf(a.spread) === degreesOfFreedomOf(b.spread);
  if (!isAlike) return false;
  const [below, above] = [share(a.nominal - a.low, a), share(a.high - a.nominal, a)];
  const [low, high] = [share(b.nominal - b.low, b), share(b.high - b.nominal, b)];
  const [first, second] = sign > 0 ? [low, high] : [high, low];
  return Math.abs(below - first) <= SAME_SHARE && Math.abs(above - second) <= SAME_SHARE;
}

/** So that limits written in different units can have one shape. */
const SAME_SHARE = 1e-9;

function share(part: number, { low, high }: Literal): number {
  return part / (high - low);
}

/** The operand of a literal that is tied: what its root makes of it. Undefined where it is free. */
export function compileTied(compiler: Compiler, node: Node, literal: Literal): number | undefined {
  const { entry } = compiler.frame;
  const tie = inputOf(entry)?.node === node ? tieOf(entry) : undefined;
  const root = inputOf(tie?.root);
  if (!tie || !root || literal.low === literal.high) return undefined;
  const other = literalOf(tie.root, (name) => compiler.around.isCounted(tie.root, name));
  if (!other || !haveOneShape(other, literal, tie.sign)) return undefined;
  compiler.isWatchful = true;
  const { nominal, low, high } = other;
  const slot = compiler.slotOf(tie.root, root.node, other);
  const scale = (tie.sign * (literal.high - literal.low)) / (high - low);
  const scaled = compiler.emit(Op.Multiply, node, slot, compiler.constant(scale));
  // With limits in proportion nothing is left over, and what cancels does so exactly.
  const offset = literal.nominal - scale * nominal;
  const isProportional = Math.abs(offset) <= slack(literal.nominal, scale * nominal);
  return isProportional ? scaled : compiler.emit(Op.Add, node, scaled, compiler.constant(offset));
}

/** Names that hang together by correlations of 1 and −1, each with its sign against the first of its group. */
class Groups {
  private readonly groups = new Map<string, Map<string, number>>();

  constructor(note: Note) {
    const inOrder = [...note.correlations].sort((a, b) => a.order - b.order);
    for (const { statement } of inOrder) {
      if (statement.kind !== "correlation" || Math.abs(statement.coefficient) !== 1) continue;
      const { tree, coefficient } = statement;
      const [first, second] = [tree.text(statement.first), tree.text(statement.second)];
      if (canBeTied(note, first, second)) this.join(first, second, coefficient);
    }
  }

  groupOf(name: string): ReadonlyMap<string, number> | undefined {
    return this.groups.get(name);
  }

  /** Of two that are in one group already nothing is changed: a contradiction is told elsewhere. */
  private join(a: string, b: string, sign: number): void {
    const [one, other] = [this.groups.get(a) ?? new Map([[a, 1]]), this.groups.get(b) ?? new Map([[b, 1]])];
    if (one === other) return;
    const turn = one.get(a)! * sign * other.get(b)!;
    for (const [name, its] of other) one.set(name, its * turn);
    for (const name of one.keys()) this.groups.set(name, one);
  }
}

function canBeTied(note: Note, first: string, second: string): boolean {
  const [a, b] = [first, second].map((name) => inputOf(note.declared.get(name)?.[0]));
  if (first === second || !a || !b) return false;
  const isReplaced = [first, second].some((name) => note.replacements.has(name));
  return !isReplaced && a.isEach === b.isEach;
}

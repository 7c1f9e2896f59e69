import type { Statement } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import type { Span } from "../text/span";
import type { ConeInput } from "./cone";
import { canHoldTogether, type Correlation } from "./correlation";
import type { Entry } from "./entry";
import type { Literal } from "./literal";
import { slotIn } from "./literalSlots";
import type { Note } from "./note";
import type { EngineProblem, EngineTrouble } from "./problem";
import type { Program } from "./program";
import { sameData } from "./sameData";
import { haveOneShape, inputOf, literalOf, tieOf } from "./tiedInputs";

/** Two inputs that a note states to be correlated, by their entries. */
interface Pair {
  readonly entry: Entry;
  readonly first: Entry;
  readonly second: Entry;
  readonly r: number;
}

/**
 * Judges the `correlation` statements of notes: each by itself, then whether there can be quantities with all of its note.
 * @returns whether others hold than when they were last judged
 */
export function judgeCorrelations(program: Program, notes: Iterable<Note>): boolean {
  let isAnew = false;
  for (const note of notes) if (judgeNote(program, note)) isAnew = true;
  return isAnew;
}

function judgeNote(program: Program, note: Note): boolean {
  if (note.correlations.size === 0 && note.correlated === "") return false;
  const { pairs, problems } = readCorrelations(program, note);
  for (const entry of note.correlations) {
    const own = problems.get(entry) ?? [];
    if (!sameData(own, entry.correlationProblems)) entry.correlationProblems = own;
  }
  const before = note.correlated;
  note.correlated = pairs.map(({ first, second, r }) => `${first.id} ${second.id} ${r}`).join();
  return note.correlated !== before;
}

/**
 * The correlations among inputs, by their places in the list (JCGM 100, 5.2). Inputs of further pieces are correlated
 * within a piece.
 */
export function correlationsIn(program: Program): (inputs: readonly ConeInput[]) => readonly Correlation[] {
  return (inputs) => correlationsAmong(program, inputs);
}

function correlationsAmong(program: Program, inputs: readonly ConeInput[]): readonly Correlation[] {
  const placeOf = new Map(inputs.map(({ slot }, i) => [slot, i]));
  const found: Correlation[] = [];
  for (const note of program.notes.values()) {
    if (note.correlations.size === 0) continue;
    for (const { first, second, r } of readCorrelations(program, note).pairs) {
      const [one, other] = [variableOf(first), variableOf(second)];
      for (const [piece, slot] of slotsOf(one.entry)) {
        const a = placeOf.get(slot);
        const b = placeOf.get(slotsOf(other.entry).get(piece) ?? -1);
        if (a !== undefined && b !== undefined && a !== b) found.push({ a, b, r: r * one.sign * other.sign });
      }
    }
  }
  return found;
}

/** The input that an entry is, or that it is tied to. */
function variableOf(entry: Entry): { readonly entry: Entry; readonly sign: number } {
  const tie = tieOf(entry);
  return tie ? { entry: tie.root, sign: tie.sign } : { entry, sign: 1 };
}

/** The slots of an input, by the piece; "" is the one that its name means. */
function slotsOf(entry: Entry): ReadonlyMap<string, number> {
  const node = inputOf(entry)?.node;
  const slots = new Map<string, number>();
  if (node === undefined) return slots;
  const own = slotIn(entry, node);
  if (own !== undefined) slots.set("", own);
  for (const [key, slot] of entry.pieceLiterals ?? []) {
    const at = key.indexOf("@");
    if (Number(key.slice(0, at)) === node) slots.set(key.slice(at + 1), slot);
  }
  return slots;
}

interface Read {
  readonly pairs: readonly Pair[];
  readonly problems: ReadonlyMap<Entry, readonly EngineProblem[]>;
}

/** The correlations of a note that hold, and what is wrong with the others. Of several that contradict, the first count. */
function readCorrelations(program: Program, note: Note): Read {
  const pairs: Pair[] = [];
  const problems = new Map<Entry, readonly EngineProblem[]>();
  for (const entry of [...note.correlations].sort((a, b) => a.order - b.order)) {
    if (entry.statement.kind !== "correlation") continue;
    const { tree, first, second, coefficient: r } = entry.statement;
    const own = [first, second].flatMap((node) => inputProblems(program, entry, entry.statement, node));
    const [one, other] = [first, second].map((node) => program.find(entry, tree.text(node)));
    if (own.length > 0) problems.set(entry, own);
    if (own.length > 0 || !one || !other) continue;
    const pair = { entry, first: one, second: other, r };
    const trouble = pairTrouble(program, pair, pairs);
    if (trouble) problems.set(entry, [{ span: spanOf(entry), ...trouble }]);
    else pairs.push(pair);
  }
  const kept = linked(pairs).flatMap((group) => {
    const { entry, first, second, r } = group.at(-1)!;
    const trouble = { code: "correlation.together", name: first.name!, other: second.name!, r } as const;
    if (!areTogether(group)) problems.set(entry, [{ span: spanOf(entry), ...trouble }]);
    while (!areTogether(group)) group.pop();
    return group;
  });
  return { pairs: kept, problems };
}

/** Pairs in groups that share no input, so that none has a say in whether there can be another. */
function linked(pairs: readonly Pair[]): Pair[][] {
  let groups: Pair[][] = [];
  for (const pair of pairs) {
    const ends = inputsOf(pair);
    const isNear = (group: readonly Pair[]) => group.some((other) => inputsOf(other).some((end) => ends.includes(end)));
    const near = groups.filter(isNear);
    groups = [...groups.filter((group) => !near.includes(group)), [...near.flat(), pair]];
  }
  return groups.map((group) => group.sort((a, b) => a.entry.order - b.entry.order));
}

function inputsOf({ first, second }: Pair): readonly Entry[] {
  return [first, second].map((entry) => variableOf(entry).entry);
}

/** Both names of a statement. */
function spanOf({ statement }: Entry): Span {
  if (statement.kind !== "correlation") return { start: 0, end: statement.text.length };
  return { start: statement.tree.start(statement.first), end: statement.tree.end(statement.second) };
}

/** What is wrong with one of the names; nothing where its own line says what is wrong. */
function inputProblems(program: Program, entry: Entry, { tree }: Statement, node: Node): readonly EngineProblem[] {
  const name = tree.text(node);
  const found = program.find(entry, name);
  const at = (trouble: EngineTrouble) => [{ span: tree.span(node), ...trouble }];
  if (!found) return at({ code: "name.unknown", name, isUnit: false });
  const because = (reason: CorrelationReason) => at({ code: "correlation.inputs", name, reason });
  const { kind } = found.statement;
  if (kind === "over") return because("condition");
  if (kind === "broken") return [];
  const isStated = kind === "given" || kind === "assume" || kind === "order";
  if (!inputOf(found)) return because(isStated ? "formula" : kind === "choice" ? "part" : "no input");
  if (found.note.replacements.has(name)) return because("measured");
  const literal = literalIn(program, found);
  return literal && literal.low === literal.high ? because("exact") : [];
}

function pairTrouble(program: Program, { first, second, r }: Pair, pairs: readonly Pair[]): EngineTrouble | undefined {
  const because = (reason: CorrelationReason, [a, b] = [first, second]): EngineTrouble => ({
    code: "correlation.inputs",
    name: a.name!,
    other: b.name!,
    reason,
  });
  if (first === second) return because("same");
  const isPair = (pair: Pair) => [pair.first, pair.second].every((entry) => entry === first || entry === second);
  if (pairs.some(isPair)) return because("doubled");
  const [one, other] = [inputOf(first)?.isEach, inputOf(second)?.isEach];
  if (one !== other) return because("pieces", one ? [first, second] : [second, first]);
  const [a, b] = [literalIn(program, first), literalIn(program, second)];
  if (Math.abs(r) === 1 && a && b && !haveOneShape(a, b, r > 0 ? 1 : -1)) return because("shapes");
  return undefined;
}

/**
 * Whether there can be quantities with all of these. Inputs that are one variable have what each of them has; a pair that
 * is not stated is independent.
 */
function areTogether(pairs: readonly Pair[]): boolean {
  const places = new Map<Entry, number>();
  const placeOf = (entry: Entry) => places.get(entry) ?? (places.set(entry, places.size), places.size - 1);
  const matrix = new Map<string, Correlation>();
  for (const { first, second, r } of pairs) {
    const [one, other] = [variableOf(first), variableOf(second)];
    const between = r * one.sign * other.sign;
    const [a, b] = [placeOf(one.entry), placeOf(other.entry)].sort((x, y) => x - y);
    const known = a === b ? 1 : matrix.get(`${a} ${b}`)?.r;
    if (known !== undefined && Math.abs(known - between) > SAME) return false;
    if (a !== b) matrix.set(`${a} ${b}`, { a, b, r: between });
  }
  return canHoldTogether([...matrix.values()]);
}

const SAME = 1e-9;

function literalIn(program: Program, entry: Entry): Literal | undefined {
  return literalOf(entry, (name) => program.find(entry, name)?.statement.kind === "items");
}

type CorrelationReason = Extract<EngineTrouble, { code: "correlation.inputs" }>["reason"];

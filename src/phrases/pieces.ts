import type { Notes } from "../engine/referent";
import { referentOf } from "../engine/referent";
import { nameUsesOf } from "../engine/nameUses";
import type { Row, Snapshot } from "../engine/snapshot";
import { Kind, Operator, type Node, type Tree } from "../syntax/tree";
import type { Span } from "../text/span";
import { code } from "./markdown";

/** Readings that are told of one formula, and inputs that are named; nobody reads more. */
const MOST_TOLD = 3;
const MOST_NAMED = 8;

/**
 * Which reading of pieces a formula means, as Markdown: what a further piece draws anew and what it shares; and of a piece
 * that is counted several times, that it is one piece.
 */
export function piecesText(row: Row, home: Snapshot, notes: Notes): string {
  const { tree } = row.statement;
  const lines: string[] = [];
  for (let node = 0; node < tree.count && lines.length < MOST_TOLD; node++) {
    const line = readingOf(row, node, home, notes);
    if (line !== "") lines.push(line);
  }
  return lines.join("  \n");
}

/** The reading of one node; empty where it is about no pieces. */
export function readingOf(row: Row, node: Node, home: Snapshot, notes: Notes): string {
  const { tree } = row.statement;
  const text = written(row, node);
  if (isAnother(tree, node)) {
    const inputs = inputsOf(row, tree.span(tree.first(node)), home, notes);
    return inputs.drawn.length === 0 ? "" : `${code(text)} is a further piece: ${drawnText(inputs)}`;
  }
  if (isTotal(tree, node)) {
    const [, count, of] = tree.children(node);
    const inputs = of === undefined ? NOTHING : inputsOf(row, tree.span(of), home, notes);
    if (inputs.drawn.length === 0) return "";
    return `${code(text)} adds up ${code(written(row, count))} pieces: for each, ${drawnText(inputs)}`;
  }
  return countedText(row, node, home, notes);
}

interface Inputs {
  readonly drawn: readonly string[];
  readonly shared: readonly string[];
}

const NOTHING: Inputs = { drawn: [], shared: [] };

function drawnText({ drawn, shared }: Inputs): string {
  const all = (names: readonly string[]) =>
    names.slice(0, MOST_NAMED).map(code).join(", ") + (names.length > MOST_NAMED ? " and others" : "");
  return `${all(drawn)} drawn anew, ${shared.length === 0 ? "nothing else is uncertain" : `${all(shared)} shared`}.`;
}

/** `6 * t`, where t differs from piece to piece. */
function countedText(row: Row, node: Node, home: Snapshot, notes: Notes): string {
  const { tree } = row.statement;
  if (tree.kind(node) !== Kind.Binary || tree.operator(node) !== Operator.Multiply) return "";
  const [left, right] = tree.children(node);
  const [count, of] = tree.kind(left) === Kind.Literal ? [left, right] : [right, left];
  const times = written(row, count);
  if (tree.kind(count) !== Kind.Literal || !/^\d+$/.test(times) || Number(times) < 2) return "";
  if (tree.kind(of) !== Kind.Name && tree.kind(of) !== Kind.Member) return "";
  if (inputsOf(row, tree.span(of), home, notes).drawn.length === 0) return "";
  return `${code(written(row, node))} is one piece counted ${times} times; ${times} pieces are ${code(`total(${times}, ${written(row, of)})`)}.`;
}

/** The uncertain inputs that a part of a statement rests on: those drawn for each piece, and those that all share. */
function inputsOf(row: Row, part: Span, home: Snapshot, notes: Notes): Inputs {
  const drawn = new Set<string>();
  const shared = new Set<string>();
  const seen = new Set<Row>();
  const open: { row: Row; home: Snapshot; part?: Span }[] = [{ row, home, part }];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const use of nameUsesOf(at.row.statement)) {
      const isInside = at.part === undefined || (use.span.start >= at.part.start && use.span.end <= at.part.end);
      if (!isInside || (use.role !== "value" && use.role !== "call")) continue;
      const referent = referentOf(at.home, at.row, use, notes);
      if (referent?.kind !== "defined" || seen.has(referent.row)) continue;
      seen.add(referent.row);
      const kind = inputKind(referent.row);
      if (kind !== undefined) (kind === "each" ? drawn : shared).add(referent.name);
      const note = notes.get(referent.path);
      if (kind !== "shared" && note) open.push({ row: referent.row, home: note });
    }
  }
  return { drawn: [...drawn], shared: [...shared] };
}

/** What an uncertain input or choice is to the pieces; undefined for what is exact, and for what rests on inputs. */
function inputKind({ statement, outcome }: Row): "each" | "shared" | undefined {
  if (outcome.kind !== "quantity" || outcome.values.every(({ standing }) => standing === "exact")) return undefined;
  switch (statement.kind) {
    case "given":
    case "assume":
      return statement.each ? "each" : statement.tree.kind(statement.value) === Kind.Literal ? "shared" : undefined;
    case "over":
    case "choice":
      return "shared";
    case "derived":
      return statement.choice ? "shared" : undefined;
    default:
      return undefined;
  }
}

function isAnother(tree: Tree, node: Node): boolean {
  return tree.kind(node) === Kind.Unary && tree.operator(node) === Operator.Another;
}

function isTotal(tree: Tree, node: Node): boolean {
  if (tree.kind(node) !== Kind.Call) return false;
  const callee = tree.first(node);
  return tree.kind(callee) === Kind.Name && tree.text(callee) === "total";
}

function written({ statement: { tree, text } }: Row, node: Node): string {
  return text.slice(tree.start(node), tree.end(node)).replace(/\s+/g, " ");
}

import type { Cursor } from "./cursor";
import { expression, name } from "./expression";
import { Token } from "./lexer";
import { onlyLiteral, text } from "./operand";
import type { SyntaxProblem } from "./problem";
import type { Broken } from "./statement";
import { Kind, Operator, type Node, type Tree } from "./tree";
import { KEYWORDS } from "./name";
import { Word, wordSet, type WordSet } from "./word";

/** The words that begin a clause behind a value, in any kind of statement. */
const ANY_CLAUSE = wordSet(
  Word.Choose,
  Word.Each,
  Word.From,
  Word.Of,
  Word.At,
  Word.On,
  Word.Instead,
  Word.Log,
  Word.Where,
);

/** Of these, the ones that say where a value comes from: in the wrong place they change nothing of it. */
const REMARKS = wordSet(Word.Each, Word.From);

/** What all statements have. Called last, when the text has been read to its end. */
export function base(at: Cursor): {
  text: string;
  tree: Tree;
  problems: readonly SyntaxProblem[];
  comment: string;
} {
  finish(at);
  return { text: at.text, tree: at.tree, problems: at.problems, comment: at.comment };
}

/** A statement that has been given up. Its problem has been reported. */
export function broken(at: Cursor, named?: Node): Broken {
  while (!at.is(Token.End)) at.advance();
  return { kind: "broken", ...base(at), name: named };
}

/** The name that a statement defines, from its word; a word of the language is no good name. */
export function definedName(at: Cursor): Node {
  if (!at.is(Token.Word)) return at.missing("name");
  const word = at.found;
  if (KEYWORDS.has(word)) at.report(at.start, at.end, { code: "syntax.reservedName", word });
  return name(at);
}

/** Whether the node is there: broken statements keep a name only if they have one. */
export function present(at: Cursor, node: Node): Node | undefined {
  return at.tree.kind(node) === Kind.Missing ? undefined : node;
}

/** A value behind `=`, up to one of the clause words or the end; anything else in between costs the value. */
export function assigned(at: Cursor, clauses: WordSet, statement: string): Node {
  const equals = at.start;
  if (!at.expect(Token.Equal, "=")) {
    passTo(at, clauses);
    return at.absent();
  }
  const node = at.is(Token.End) && at.start === equals ? at.absent() : expression(at);
  return upTo(at, secondEquals(at, node), clauses, statement);
}

/** As {@link assigned}, for a number as written. */
export function assignedLiteral(at: Cursor, clauses: WordSet, statement: string): Node {
  if (!at.expect(Token.Equal, "=")) {
    passTo(at, clauses);
    return at.absent();
  }
  return upTo(at, onlyLiteral(at), clauses, statement);
}

/** Steps to the next clause word or the end. What is passed over on the way is reported, and costs the node its value. */
export function upTo(at: Cursor, node: Node, clauses: WordSet, statement: string): Node {
  if (at.is(Token.End) || at.isOneOf(clauses)) return node;
  if (semicolon(at)) return node;
  if (at.isOneOf(ANY_CLAUSE)) {
    const isRemark = at.isOneOf(REMARKS);
    at.report(at.start, at.end, { code: "syntax.clauseNotHere", word: at.found, statement });
    passTo(at, clauses);
    return isRemark ? node : at.spoil(node);
  }
  at.unexpected("end");
  passTo(at, clauses);
  return at.spoil(node);
}

/**
 * As {@link upTo}, behind a clause of a value. A slip inside the clause costs the clause only; what goes on behind one that
 * was read might have belonged to the value.
 * @param problems how many there were before the clause.
 */
export function behindClause(at: Cursor, value: Node, problems: number, clauses: WordSet, statement: string): Node {
  const isRead = at.problems.length === problems;
  const passed = upTo(at, value, clauses, statement);
  return isRead ? passed : value;
}

/** `from "source"`, from the word. Empty quotes name no source. */
export function source(at: Cursor): Node | undefined {
  at.advance();
  const node = quoted(at);
  return node !== undefined && at.tree.text(node).trim() === "" ? undefined : node;
}

/** Text in quotes, or a problem. */
export function quoted(at: Cursor): Node | undefined {
  if (at.is(Token.Text)) return text(at);
  at.unexpected("text");
  return undefined;
}

export function repeated(at: Cursor): void {
  at.report(at.start, at.end, { code: "syntax.repeatedClause", word: at.found });
}

export function passTo(at: Cursor, clauses: WordSet): void {
  while (!at.is(Token.End) && !at.isOneOf(clauses)) at.advance();
}

/** `a = b` behind a definition's `=` would be a comparison; hardly anyone means that without brackets. */
function secondEquals(at: Cursor, node: Node): Node {
  const { tree, text } = at;
  if (tree.kind(node) !== Kind.Comparison) return node;
  const sign = tree.next(tree.first(node));
  if (tree.operator(sign) !== Operator.Equal) return node;
  const [start, end] = [tree.start(node), tree.end(node)];
  const comparison = text.slice(start, tree.start(sign)) + "=" + text.slice(tree.end(sign), end);
  at.report(start, end, { code: "syntax.secondEquals", rewritten: [`(${comparison})`] });
  return at.spoil(node);
}

/** A semicolon at the end of a statement does nothing and is not in the language. */
function semicolon(at: Cursor): boolean {
  if (!at.is(Token.Semicolon)) return false;
  const [start, end] = [at.start, at.end];
  at.advance();
  if (at.is(Token.End)) {
    at.report(start, end, { code: "syntax.semicolon", rewritten: [""] });
    return true;
  }
  at.resume(start);
  return false;
}

/** Nothing may follow a statement. */
function finish(at: Cursor): void {
  if (at.is(Token.End) || semicolon(at)) return;
  at.unexpected("end");
  while (!at.is(Token.End)) at.advance();
}

import { Cursor } from "./cursor";
import { Token } from "./lexer";
import { OPENING_WORDS } from "./name";
import { definition, functionDefinition, isFunctionShape } from "./definition";
import { STATEMENTS } from "./openings";
import { broken } from "./parts";
import type { SyntaxProblem } from "./problem";
import type { Statement } from "./statement";
import { Arena, Kind } from "./tree";
import { comparand, name } from "./expression";

/**
 * Reads one statement. It always succeeds: what cannot be read becomes a problem, and what can be is kept.
 * @param text the statement from its first character to the end of its last line.
 */
export function parseStatement(arena: Arena, text: string): Statement {
  cursor.open(arena, text);
  return statement(cursor);
}

/**
 * Whether a line of prose reads as a statement: it parses without a problem, and its shape is one that prose does not
 * have by chance (`choose wisely` and `must be so` do not).
 */
export function readsAsStatement(line: string): boolean {
  const text = line.trim();
  if (!couldBeStatement(text)) return false;
  const read = parseStatement(scratch(), text);
  if (read.kind === "broken" || read.problems.length > 0) return false;
  if (read.kind === "rule") return isJudgement(read.tree.kind(read.condition));
  if (read.kind === "items") return read.names.length > 1;
  return true;
}

/** The first thing that is wrong with a text as a statement; undefined where nothing is. Nothing of it is kept. */
export function firstProblem(text: string): SyntaxProblem | undefined {
  return parseStatement(scratch(), text).problems[0];
}

/** How far behind a name `] =` is looked for. */
const LONGEST_BRACKET = 200;

const cursor = new Cursor();
let scratchArena = new Arena();

/** Rows of an arena that nobody keeps; a new one before it grows large. */
function scratch(): Arena {
  if (scratchArena.count > 10_000) scratchArena = new Arena();
  return scratchArena;
}

function couldBeStatement(text: string): boolean {
  const word = /^[\p{L}_]+/u.exec(text.slice(0, 40))?.[0];
  return word !== undefined && (text.includes("=") || OPENING_WORDS.has(word));
}

function isJudgement(kind: Kind): boolean {
  return kind === Kind.Comparison || kind === Kind.Binary || kind === Kind.Unary || kind === Kind.Call;
}

function statement(at: Cursor): Statement {
  if (!at.is(Token.Word)) {
    if (at.is(Token.Number) || at.is(Token.Open) || at.is(Token.Minus)) return unnamed(at);
    at.unexpected("statement");
    return broken(at);
  }
  if (at.isAssigned) return definition(at);
  const word = at.found;
  const opening = STATEMENTS.get(word);
  if (opening !== undefined) return opening(at);
  if (isFunctionShape(at)) return functionDefinition(at);
  if (isDefinitionShape(at)) return definition(at);
  return unopened(at, word);
}

/** `NAME [unit] =`, with or without something wrong in the brackets; `NAME :=` and `NAME ==` are meant as definitions. */
function isDefinitionShape(at: Cursor): boolean {
  return /^\s*(\[[^\]\n"]*\]\s*)?(=|:=)/.test(at.text.slice(at.end, at.end + LONGEST_BRACKET));
}

/** No opening word and no `=` behind the first word. */
function unopened(at: Cursor, word: string): Statement {
  const [start, end] = [at.start, at.end];
  at.advance();
  if (at.is(Token.Word) && isDefinitionShape(at)) {
    at.report(start, end, { code: "syntax.unknownStatement", word });
    return broken(at, name(at));
  }
  at.resume(start);
  if (looksLikeExpression(at)) return unnamed(at);
  at.resume(start);
  at.report(start, end, { code: "syntax.unknownStatement", word });
  return broken(at);
}

/** Whether an operator, dot or bracket follows the first word, or nothing at all. */
function looksLikeExpression(at: Cursor): boolean {
  at.advance();
  return !at.is(Token.Word) && !at.is(Token.Number) && !at.is(Token.Text) && !at.is(Token.Unknown);
}

/** An expression without a name, or with `=` behind something that is none. What it uses is kept in the tree. */
function unnamed(at: Cursor): Statement {
  at.resume(0);
  const problems = at.problems;
  const node = comparand(at);
  const end = at.tree.end(node);
  if (at.problems !== problems) return broken(at);
  const found = at.text.slice(0, end);
  if (at.is(Token.Equal)) at.report(0, end, { code: "syntax.unexpected", expected: "name", found });
  else at.report(0, end, { code: "syntax.unnamedValue" });
  return broken(at);
}

import { Class, classOf } from "./character";
import type { Cursor } from "./cursor";
import { expression, name } from "./expression";
import { Token } from "./lexer";
import { unit } from "./literal";
import { list, member, onlyLiteral } from "./operand";
import { assigned, base, broken, definedName, present, upTo } from "./parts";
import type { ChoicePart, Parameter, Statement } from "./statement";
import { Kind, type Node } from "./tree";
import { Word, wordSet } from "./word";

const CHOICE = wordSet(Word.Choose);
const FROM = wordSet(Word.From);
const WHERE = wordSet(Word.Where);

/** `NAME [unit] = expression [choice]`, from the name. */
export function definition(at: Cursor): Statement {
  const named = definedName(at);
  const shown = at.is(Token.OpenSquare) ? shownUnit(at) : undefined;
  const value = assigned(at, CHOICE, "derived");
  const choice = at.isWord(Word.Choose) ? choicePart(at) : undefined;
  return { kind: "derived", ...base(at), name: named, unit: shown, value, choice };
}

/** Whether a name is followed by brackets and `=`: `f(a, b [V] = 2 V) =`, which is known only at the closing bracket. */
export function isFunctionShape(at: Cursor): boolean {
  const { text, limit } = at;
  let end = at.end;
  while (end < limit && classOf(text.charCodeAt(end)) & Class.Space) end++;
  if (text.charCodeAt(end) !== 40) return false;
  const start = at.start;
  at.resume(end);
  let open = 0;
  do {
    if (at.is(Token.Open)) open++;
    else if (at.is(Token.Close)) open--;
    if (open > 0) at.advance();
  } while (open > 0 && !at.is(Token.End));
  const is = at.is(Token.Close) && BECOMES.test(text.slice(at.end, at.end + LONGEST_UNIT));
  at.resume(start);
  return is;
}

/** `=` behind the brackets of a function, or behind those and a unit. */
const BECOMES = /^\s*(\[[^\]\n"]*\]\s*)?=(?!=)/;
const LONGEST_UNIT = 200;

/** `NAME(a, b [unit] = 2) [unit] = expression [where condition]`, from the name. */
export function functionDefinition(at: Cursor): Statement {
  const named = definedName(at);
  const opened = at.start;
  at.advance();
  const parameters: Parameter[] = [];
  const told = at.problems.length;
  at.commaSeparates = true;
  while (at.is(Token.Word)) {
    const parameter = definedName(at);
    const unit = at.is(Token.OpenSquare) ? shownUnit(at) : undefined;
    const isGiven = at.is(Token.Equal);
    if (isGiven) at.advance();
    parameters.push({ name: parameter, unit, default: isGiven ? expression(at) : undefined });
    if (!at.is(Token.Comma)) break;
    at.advance();
    if (!at.is(Token.Word)) at.unexpected("name");
  }
  at.commaSeparates = false;
  // A bracket that was not closed took the rest of the line with it, and that has been said.
  if (at.is(Token.End) && at.problems.length > told) return broken(at, present(at, named));
  const before = at.problems.length;
  if (!at.is(Token.Close)) at.unexpected(parameters.length > 0 ? ")" : "name");
  at.close(opened, Token.Close);
  at.spoilt = false;
  const shown = at.is(Token.OpenSquare) ? shownUnit(at) : undefined;
  const isBroken = at.problems.length > before;
  const value = assigned(at, WHERE, "function");
  const domain = at.acceptWord(Word.Where) ? upTo(at, expression(at), 0, "function") : undefined;
  if (isBroken) return broken(at, present(at, named));
  return { kind: "function", ...base(at), name: named, parameters, unit: shown, value, domain };
}

/** `choose NAME = value`, from the word `choose`. */
export function choice(at: Cursor): Statement {
  at.advance();
  if (!at.is(Token.Word) || !(at.isAssigned || isFollowedByEquals(at))) {
    at.unexpected("name");
    return broken(at);
  }
  const named = definedName(at);
  at.expect(Token.Equal, "=");
  let value = expression(at);
  const kind = at.tree.kind(value);
  if (kind !== Kind.Literal && kind !== Kind.Member && kind !== Kind.Index && kind !== Kind.Missing) {
    const [start, end] = [at.tree.start(value), at.tree.end(value)];
    at.report(start, end, { code: "syntax.literalExpected", found: at.text.slice(start, end) });
    value = at.spoil(value);
  }
  value = upTo(at, value, 0, "choice");
  return { kind: "choice", ...base(at), name: named, value };
}

function isFollowedByEquals(at: Cursor): boolean {
  return /^\s*(:=|==)/.test(at.text.slice(at.end, at.end + 20));
}

/** `[unit]` behind a defined name, from the bracket. */
export function shownUnit(at: Cursor): Node | undefined {
  const opened = at.start;
  const { text, limit } = at;
  let start = at.end;
  while (start < limit && classOf(text.charCodeAt(start)) & Class.Space) start++;
  const end = at.unit.read(text, start, limit);
  if (end < 0) {
    at.advance();
    at.unexpected("unit");
    at.close(opened, Token.CloseSquare);
    at.spoilt = false;
    return undefined;
  }
  const node = unit(at, end);
  const isPlain = !at.spoilt;
  at.resume(end);
  at.close(opened, Token.CloseSquare);
  const isClosed = !at.spoilt || !isPlain;
  at.spoilt = false;
  return isPlain && isClosed ? node : undefined;
}

/** `choose [at least | at most] value [from SERIES | list | column]`, from the word. */
function choicePart(at: Cursor): ChoicePart {
  const start = at.start;
  at.advance();
  let sense: ChoicePart["sense"] = "nearest";
  if (at.isWord(Word.At)) {
    at.advance();
    if (at.isWord(Word.Least)) sense = "least";
    else if (at.isWord(Word.Most)) sense = "most";
    else at.unexpected("least");
    if (at.isOneOf(wordSet(Word.Least, Word.Most))) at.advance();
  }
  const used = upTo(at, onlyLiteral(at), FROM, "choice");
  const from = at.acceptWord(Word.From) ? chosenFrom(at) : undefined;
  const value = upTo(at, used, 0, "choice");
  return { sense, value, from, span: { start, end: at.previousEnd } };
}

/** A series (`E24`), a list or a column. */
function chosenFrom(at: Cursor): Node | undefined {
  if (at.is(Token.OpenSquare)) return list(at);
  if (at.is(Token.Text)) {
    at.report(at.start, at.end, { code: "syntax.clauseNotHere", word: "from", statement: "derived" });
    at.advance();
    return undefined;
  }
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return undefined;
  }
  let node = name(at);
  while (at.is(Token.Dot)) node = member(at, node);
  return node;
}

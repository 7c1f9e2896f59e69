import { Class, classOf } from "./character";
import type { Cursor } from "./cursor";
import { conditional, expression, name } from "./expression";
import { Token } from "./lexer";
import { literal, plainNumber, series } from "./literal";
import { misplaced, missingOperator } from "./misplaced";
import { Form, Kind, NONE, Operator, type Node } from "./tree";
import { RESERVED, Word, holds, wordSet } from "./word";

/** An operand with what hangs on it: members, indices, calls. */
export function postfix(at: Cursor, operand = primary(at), endsAtRange = false): Node {
  const { tree } = at;
  for (;;) {
    const height = at.height;
    if (at.is(Token.Dot) && !isNumber(at, operand)) operand = member(at, operand);
    else if (at.is(Token.OpenSquare) && canHold(at, operand)) operand = index(at, operand);
    else if (at.is(Token.Open) && tree.kind(operand) !== Kind.Missing) {
      const kind = tree.kind(operand);
      operand = kind === Kind.Name || kind === Kind.Member ? call(at, operand) : missingOperator(at, operand);
    } else break;
    if (!at.rise(Math.max(height, at.height) + 1)) return operand;
  }
  if (endsAtRange && at.is(Token.Range)) return operand;
  return at.is(Token.PlusMinus) || at.is(Token.Range) || at.is(Token.Percent) || at.is(Token.Number)
    ? misplaced(at, operand)
    : operand;
}

function primary(at: Cursor): Node {
  switch (at.kind) {
    case Token.Word:
      return holds(RESERVED, at.word) ? reserved(at) : name(at);
    case Token.Number:
    case Token.Range:
      return literal(at);
    case Token.Open:
      return group(at);
    case Token.OpenSquare:
      return list(at);
    case Token.Text:
      return text(at);
    case Token.Not:
      return tight(at, "not");
    default:
      return at.missing("expression");
  }
}

/** Text in quotes, from its token. */
export function text(at: Cursor): Node {
  const { tree, start, end } = at;
  const inside = tree.intern(at.quotedText);
  at.height = 1;
  at.advance();
  return tree.add(Kind.Text, start, end, NONE, 0, NaN, inside);
}

/** `[a, b, c]`, from the bracket. */
export function list(at: Cursor): Node {
  const start = at.start;
  at.advance();
  const commaSeparates = at.commaSeparates;
  at.commaSeparates = true;
  at.height = 1;
  const first = members(at, Token.CloseSquare, expression);
  at.commaSeparates = commaSeparates;
  const height = at.height;
  const end = at.close(start, Token.CloseSquare);
  at.rise(height + 1);
  return settled(at, at.tree.add(Kind.List, start, end, first));
}

/** `a.b`, from the dot. */
export function member(at: Cursor, owner: Node): Node {
  at.advance();
  const part = at.is(Token.Word) ? name(at) : at.missing("name");
  at.tree.join(owner, part);
  return at.tree.add(Kind.Member, at.tree.start(owner), at.tree.end(part), owner);
}

/** The comma-separated members up to a closing bracket, joined; the first of them. */
function members(at: Cursor, close: Token, read: (at: Cursor) => Node): Node {
  let first = NONE;
  let last = NONE;
  let height = 0;
  while (!at.is(Token.End) && (at.kind !== close || last !== NONE)) {
    const node = read(at);
    height = Math.max(height, at.height);
    if (last === NONE) first = node;
    else at.tree.join(last, node);
    last = node;
    if (!at.is(Token.Comma)) break;
    at.advance();
  }
  at.height = height;
  return first;
}

/** Words that end the operand before them: if one stands where an operand should, the operand is what is missing. */
const ENDING = wordSet(
  Word.Then,
  Word.Else,
  Word.From,
  Word.For,
  Word.Satisfy,
  Word.Choose,
  Word.Each,
  Word.And,
  Word.Or,
  Word.Inside,
  Word.Where,
  Word.Without,
);

/** A word of the language where an operand should stand. */
function reserved(at: Cursor): Node {
  if (at.isWord(Word.Another)) return another(at);
  if (at.isWord(Word.Readings) || at.isWord(Word.Sample)) return series(at);
  if (at.isWord(Word.If)) return tight(at, "if");
  if (at.isWord(Word.Not)) return tight(at, "not");
  if (at.isOneOf(ENDING) && !isUsed(at)) return at.missing("expression");
  at.report(at.start, at.end, { code: "syntax.reservedWord", word: at.found });
  return at.spoil(name(at));
}

/** Whether an operator or bracket follows, so that the word was meant as a name: `from * 2`. */
function isUsed(at: Cursor): boolean {
  const { text, limit } = at;
  let next = at.end;
  while (next < limit && classOf(text.charCodeAt(next)) & Class.Space) next++;
  return next < limit && "+*/^<>=.".includes(text[next]);
}

function another(at: Cursor): Node {
  const start = at.start;
  if (!at.enter()) return at.absent();
  at.advance();
  const operand = postfix(at);
  at.leave();
  at.rise(at.height + 1);
  return at.tree.add(Kind.Unary, start, at.tree.end(operand), operand, Operator.Another);
}

/** `if` and `not` bind loosely; as an operand they need brackets. What was meant is clear, so it is read. */
function tight(at: Cursor, word: "if" | "not"): Node {
  const start = at.start;
  let node: Node;
  if (word === "if") node = conditional(at);
  else {
    if (!at.enter()) return at.absent();
    at.advance();
    const operand = postfix(at);
    at.leave();
    at.rise(at.height + 1);
    node = at.tree.add(Kind.Unary, start, at.tree.end(operand), operand, Operator.Not);
  }
  const end = at.tree.end(node);
  const rewritten = [`(${at.text.slice(start, end)})`];
  at.report(start, end, { code: "syntax.needsBrackets", word, rewritten });
  return node;
}

/** Brackets that only group, from the open one. */
export function group(at: Cursor): Node {
  const start = at.start;
  at.advance();
  const commaSeparates = at.commaSeparates;
  at.commaSeparates = false;
  const inside = expression(at);
  at.commaSeparates = commaSeparates;
  const height = at.height;
  const end = at.close(start, Token.Close);
  at.rise(height + 1);
  return settled(at, at.tree.add(Kind.Group, start, end, inside));
}

/** A bracket that did not close as it should has no value. */
function settled(at: Cursor, node: Node): Node {
  if (!at.spoilt) return node;
  at.spoilt = false;
  return at.spoil(node);
}

function index(at: Cursor, owner: Node): Node {
  const start = at.start;
  at.advance();
  let key: Node;
  if (at.is(Token.Text)) key = text(at);
  else if (at.is(Token.Number)) key = literal(at);
  else key = at.missing("text");
  at.tree.join(owner, key);
  const end = at.close(start, Token.CloseSquare);
  return settled(at, at.tree.add(Kind.Index, at.tree.start(owner), end, owner));
}

function call(at: Cursor, callee: Node): Node {
  const start = at.start;
  at.advance();
  const commaSeparates = at.commaSeparates;
  at.commaSeparates = true;
  const first = members(at, Token.Close, argument);
  at.commaSeparates = commaSeparates;
  const height = at.height;
  if (first !== NONE) at.tree.join(callee, first);
  const end = at.close(start, Token.Close);
  at.height = height;
  return settled(at, at.tree.add(Kind.Call, at.tree.start(callee), end, callee));
}

/** `x`, `rise = 10 K` or `k * I for k = 1 .. 10`. */
function argument(at: Cursor): Node {
  const { tree } = at;
  if (at.is(Token.Word) && at.isAssigned) {
    const start = at.start;
    const label = tree.intern(at.name);
    at.advance();
    at.advance();
    const value = expression(at);
    at.rise(at.height + 1);
    return tree.add(Kind.Argument, start, tree.end(value), value, 0, NaN, label);
  }
  const value = expression(at);
  if (!at.isWord(Word.For)) return value;
  const height = at.height;
  at.advance();
  const variable = at.is(Token.Word) ? name(at) : at.missing("name");
  at.expect(Token.Equal, "=");
  const [low, high = low] = counterLimits(at);
  tree.join(value, variable);
  tree.join(variable, low);
  if (high !== low) tree.join(low, high);
  at.rise(height + 1);
  return tree.add(Kind.For, tree.start(value), tree.end(high), value);
}

/** `1 .. 10` as one literal; `1 .. n`, `(n - 1) .. size(list)` as two operands. */
function counterLimits(at: Cursor): readonly [Node] | readonly [Node, Node] {
  const isLiteral = at.is(Token.Number) || at.is(Token.Minus) || at.is(Token.Range);
  if (isLiteral && !NUMBER_TO_NAME.test(at.text.slice(at.start))) return [onlyLiteral(at)];
  const low = isLiteral ? wholeNumber(at) : postfix(at, primary(at), true);
  if (!at.is(Token.Range)) {
    const [start, end] = [at.tree.start(low), at.tree.end(low)];
    at.report(start, end, { code: "syntax.literalExpected", found: at.text.slice(start, end) });
    return [at.spoil(low)];
  }
  at.advance();
  return [low, at.is(Token.Number) || at.is(Token.Minus) ? wholeNumber(at) : postfix(at, primary(at), true)];
}

const NUMBER_TO_NAME = /^[-−]?\s*\d[\d_]*\s*\.\.\s*[\p{L}(]/u;

/** A number by itself, which no `..` joins to another. */
function wholeNumber(at: Cursor): Node {
  const number = plainNumber(at);
  return at.tree.kind(number) === Kind.Missing
    ? number
    : at.tree.add(Kind.Literal, at.tree.start(number), at.tree.end(number), number, Form.Exact);
}

/** A literal, where the grammar wants a number as written and nothing else. */
export function onlyLiteral(at: Cursor): Node {
  const node = expression(at);
  const { tree } = at;
  const kind = tree.kind(node);
  if (kind === Kind.Literal || kind === Kind.Missing) return node;
  const [start, end] = [tree.start(node), tree.end(node)];
  at.report(start, end, { code: "syntax.literalExpected", found: at.text.slice(start, end) });
  return at.spoil(node);
}

export function isNumber(at: Cursor, node: Node): boolean {
  return at.tree.kind(node) === Kind.Literal;
}

function canHold(at: Cursor, node: Node): boolean {
  const kind = at.tree.kind(node);
  return kind === Kind.Name || kind === Kind.Member || kind === Kind.Index || kind === Kind.Call;
}

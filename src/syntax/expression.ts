import type { Cursor } from "./cursor";
import { Token } from "./lexer";
import { literal } from "./literal";
import { postfix } from "./operand";
import { isCondition, isParallel, parallelNeedsBrackets, parallelOfConditions } from "./parallel";
import { Form, Kind, NONE, Notation, Operator, type Node } from "./tree";
import { readSuperscript } from "./unit";
import { Word } from "./word";

/**
 * An expression, from the loosest binding: or, and, not, comparison, if, without, `+ -`, `* /`, minus, `||`, `^`.
 * Of what was given up half-way nothing has a value.
 */
export function expression(at: Cursor): Node {
  const node = whole(at);
  return at.isAbandoned ? at.spoil(node) : node;
}

function whole(at: Cursor): Node {
  if (!at.enter()) return at.absent();
  let left = conjunction(at);
  while (at.isWord(Word.Or)) {
    const height = at.height;
    at.advance();
    left = binary(at, Operator.Or, left, conjunction(at), height);
  }
  at.leave();
  return left;
}

/** What can stand on one side of a comparison. */
export function comparand(at: Cursor): Node {
  const node = at.isWord(Word.If) ? conditional(at) : without(at);
  return at.isAbandoned ? at.spoil(node) : node;
}

/** A name, from its word. */
export function name(at: Cursor): Node {
  const { tree, start, end } = at;
  at.height = 1;
  const text = tree.intern(at.name);
  at.advance();
  return tree.add(Kind.Name, start, end, NONE, 0, NaN, text);
}

/** `if c then a else b`, from the word. */
export function conditional(at: Cursor): Node {
  const start = at.start;
  at.advance();
  const condition = expression(at);
  let height = at.height;
  if (!at.acceptWord(Word.Then)) at.unexpected("then");
  const yes = expression(at);
  height = Math.max(height, at.height);
  if (!at.acceptWord(Word.Else)) at.unexpected("else");
  const no = alternative(at);
  at.rise(Math.max(height, at.height) + 1);
  at.tree.join(condition, yes);
  at.tree.join(yes, no);
  return at.tree.add(Kind.If, start, at.tree.end(no), condition);
}

/** What stands behind `else`: a chain of `else if` nests like brackets. */
function alternative(at: Cursor): Node {
  if (!at.enter()) return at.absent();
  const node = comparand(at);
  at.leave();
  return node;
}

function conjunction(at: Cursor): Node {
  let left = negation(at);
  while (at.isWord(Word.And) || at.is(Token.And)) {
    const height = at.height;
    at.advance();
    left = binary(at, Operator.And, left, negation(at), height);
  }
  return left;
}

function negation(at: Cursor): Node {
  if (!at.isWord(Word.Not) && !at.is(Token.Not)) return comparison(at);
  const start = at.start;
  if (!at.enter()) return at.absent();
  at.advance();
  const operand = negation(at);
  at.leave();
  return unary(at, Operator.Not, start, operand);
}

function comparison(at: Cursor): Node {
  const { tree } = at;
  const first = comparand(at);
  let operator = comparator(at);
  if (operator === Operator.None) return first;
  let last = first;
  let height = at.height;
  let parallel = NONE;
  let signs = 0;
  for (; operator !== Operator.None; operator = comparator(at)) {
    if (signs++ > 0 && isParallel(at, last)) parallel = last;
    const sign = tree.add(Kind.Comparator, at.start, at.end, NONE, operator);
    at.advance();
    const operand = comparand(at);
    height = Math.max(height, at.height);
    tree.join(last, sign);
    tree.join(sign, operand);
    last = operand;
  }
  at.rise(height + 1);
  const node = tree.add(Kind.Comparison, tree.start(first), tree.end(last), first);
  return parallel === NONE ? node : parallelOfConditions(at, node, parallel);
}

function comparator(at: Cursor): Operator {
  switch (at.kind) {
    case Token.Less:
      return Operator.Less;
    case Token.LessOrEqual:
      return Operator.LessOrEqual;
    case Token.Greater:
      return Operator.Greater;
    case Token.GreaterOrEqual:
      return Operator.GreaterOrEqual;
    case Token.Equal:
      return Operator.Equal;
    case Token.NotEqual:
      return Operator.NotEqual;
    case Token.Word:
      return at.word === Word.Inside ? Operator.Inside : Operator.None;
    default:
      return Operator.None;
  }
}

/** `x without LED, board`. Where commas separate, only the first name belongs to it. */
function without(at: Cursor): Node {
  const operand = sum(at);
  if (!at.isWord(Word.Without)) return operand;
  const height = at.height;
  at.advance();
  let last = operand;
  for (;;) {
    const dropped = at.is(Token.Word) ? name(at) : at.missing("name");
    at.tree.join(last, dropped);
    last = dropped;
    if (!at.is(Token.Comma) || at.commaSeparates) break;
    const comma = at.start;
    at.advance();
    // In `variant "a": x = 3 LED without LED, y = 2` the comma belongs to the statement.
    if (at.is(Token.Word) && !at.isAssigned) continue;
    at.resume(comma);
    break;
  }
  at.rise(height + 1);
  return at.tree.add(Kind.Without, at.tree.start(operand), at.tree.end(last), operand);
}

function sum(at: Cursor): Node {
  let left = product(at);
  for (;;) {
    let operator: Operator;
    if (at.is(Token.Plus)) operator = Operator.Add;
    else if (at.is(Token.Minus)) operator = Operator.Subtract;
    else if (at.is(Token.Dash)) {
      at.report(at.start, at.end, { code: "syntax.otherSign", found: at.found, rewritten: ["-"] });
      operator = Operator.Subtract;
    } else return left;
    const height = at.height;
    at.advance();
    left = binary(at, operator, left, product(at), height);
  }
}

function product(at: Cursor): Node {
  let left = signed(at);
  while (at.is(Token.Times) || at.is(Token.Divide)) {
    const operator = at.is(Token.Times) ? Operator.Multiply : Operator.Divide;
    const { start, end, height } = at;
    at.advance();
    const right = signed(at);
    const mixed = isParallel(at, left) || isParallel(at, right);
    const node = binary(at, operator, left, right, height);
    left = mixed ? parallelNeedsBrackets(at, node, left, right, at.text.slice(start, end)) : node;
  }
  return left;
}

/** A minus and its operand. `-2^2` is −(2²), as in print, but in `-40 .. 85 °C` the minus belongs to the number. */
function signed(at: Cursor): Node {
  if (!at.is(Token.Minus) && !at.is(Token.Dash)) return parallel(at, at.is(Token.Plus) ? plus(at) : power(at));
  const start = at.start;
  if (at.is(Token.Dash)) at.report(start, at.end, { code: "syntax.otherSign", found: at.found, rewritten: ["-"] });
  if (!at.enter()) return at.absent();
  at.advance();
  let operand: Node;
  if (at.is(Token.Number)) {
    const numberAt = at.start;
    const number = postfix(at, literal(at, start));
    const isTied = at.is(Token.Power) || at.is(Token.Superscript) || at.is(Token.Parallel);
    if (!isTied || !takeSignOff(at, number, numberAt)) {
      at.leave();
      return parallel(at, raised(at, number));
    }
    operand = parallel(at, raised(at, number));
  } else operand = signed(at);
  at.leave();
  return unary(at, Operator.Negate, start, operand);
}

/** Whether the node is a single signed number; if so, it is the number without its sign from now on. */
function takeSignOff(at: Cursor, node: Node, start: number): boolean {
  const { tree } = at;
  if (tree.kind(node) !== Kind.Literal || tree.operator(node) !== Form.Exact) return false;
  tree.takeSignOff(node, start);
  return true;
}

/** A plus before an operand says nothing; the language has none. */
function plus(at: Cursor): Node {
  at.report(at.start, at.end, { code: "syntax.otherSign", found: "+", rewritten: [""] });
  at.advance();
  return at.is(Token.Plus) ? at.missing("expression") : power(at);
}

function parallel(at: Cursor, first: Node): Node {
  let left = first;
  while (at.is(Token.Parallel)) {
    const signStart = at.start;
    const signEnd = at.end;
    const height = at.height;
    at.advance();
    const right = power(at);
    const areConditions = isCondition(at, left) || isCondition(at, right);
    left = binary(at, Operator.Parallel, left, right, height);
    if (!areConditions) continue;
    at.report(signStart, signEnd, { code: "syntax.parallelOfConditions", rewritten: ["or"] });
    left = at.spoil(left);
  }
  return left;
}

function power(at: Cursor): Node {
  return raised(at, postfix(at));
}

/** The powers behind a base: `x²`, `x ^ 2`, `2 ^ 3 ^ 2` from the right. */
function raised(at: Cursor, base: Node): Node {
  if (at.is(Token.Unknown) || at.is(Token.End)) return base;
  if (at.is(Token.Superscript)) base = superscript(at, base);
  if (!at.is(Token.Power)) return base;
  const height = at.height;
  if (!at.enter()) return base;
  at.advance();
  const exponent = at.is(Token.Minus) ? negativeExponent(at) : power(at);
  at.leave();
  return binary(at, Operator.Power, base, exponent, height);
}

function negativeExponent(at: Cursor): Node {
  const start = at.start;
  if (!at.enter()) return at.absent();
  at.advance();
  const operand = at.is(Token.Minus) ? negativeExponent(at) : power(at);
  at.leave();
  return unary(at, Operator.Negate, start, operand);
}

function superscript(at: Cursor, base: Node): Node {
  const { tree, start } = at;
  const { value, end } = readSuperscript(at.text, start);
  const height = at.height;
  const number = tree.add(Kind.Value, start, end, NONE, Notation.Decimal, value, tree.intern(String(value)));
  const exponent = tree.add(Kind.Literal, start, end, number, Form.Exact);
  at.resume(end);
  at.height = 2;
  return binary(at, Operator.Power, base, exponent, height);
}

function binary(at: Cursor, operator: Operator, left: Node, right: Node, leftHeight: number): Node {
  const { tree } = at;
  // A chain is walked along, see `Tree.chain`: another link makes it longer and no taller.
  const isChain = tree.kind(left) === Kind.Binary;
  at.rise(Math.max(isChain ? leftHeight : leftHeight + 1, at.height + 1));
  tree.join(left, right);
  return tree.add(Kind.Binary, tree.start(left), tree.end(right), left, operator);
}

function unary(at: Cursor, operator: Operator, start: number, operand: Node): Node {
  at.rise(at.height + 1);
  return at.tree.add(Kind.Unary, start, at.tree.end(operand), operand, operator);
}

import { Class, classOf, isDigit } from "./character";
import type { Cursor } from "./cursor";
import { Token } from "./lexer";
import { passForeign } from "./foreignNumber";
import { checkFraction, checkRoot } from "./fraction";
import { conciseUncertainty, plainDigits } from "./numeral";
import { Form, Kind, NONE, Notation, type Node } from "./tree";
import { RESERVED, Word, holds, wordOf } from "./word";

/**
 * A literal, from a number or a leading `..`.
 * @param sign where a minus before the number stands (it has been stepped over), or −1.
 */
export function literal(at: Cursor, sign = -1): Node {
  const start = sign >= 0 ? sign : at.start;
  at.spoilt = false;
  at.height = 2;
  let node: Node;
  if (at.is(Token.Range)) node = range(at, start, NONE, Form.NoMinimum);
  else {
    const first = value(at, sign);
    if (at.is(Token.PlusMinus)) node = plusMinus(at, start, first);
    else if (at.is(Token.Range)) node = range(at, start, first, Form.Range);
    else node = at.tree.add(Kind.Literal, start, at.tree.end(first), first, Form.Exact);
  }
  if (at.is(Token.Dash)) node = dash(at, start, node);
  return settle(at, node);
}

/** `readings [1, 2, 3] V` and `sample [1, 2, 3] V`, from the word. */
export function series(at: Cursor): Node {
  const start = at.start;
  const form = at.word === Word.Readings ? Form.Readings : Form.Sample;
  at.spoilt = false;
  at.height = 2;
  at.advance();
  const opened = at.start;
  if (!at.expect(Token.OpenSquare, "[")) return at.absent();
  const commaSeparates = at.commaSeparates;
  at.commaSeparates = true;
  let first = NONE;
  let last = NONE;
  for (;;) {
    const member = signedValue(at, false);
    if (last === NONE) first = member;
    else at.tree.join(last, member);
    last = member;
    if (!at.is(Token.Comma)) break;
    at.advance();
  }
  at.commaSeparates = commaSeparates;
  const isClosed = at.is(Token.CloseSquare);
  let end = at.end;
  const unitAt = isClosed ? unitEnd(at, end) : -1;
  if (unitAt < 0) end = at.close(opened, Token.CloseSquare);
  else {
    at.tree.join(last, unit(at, unitAt));
    at.resume((end = unitAt));
  }
  return settle(at, at.tree.add(Kind.Literal, start, end, first, form));
}

/** A number that is not part of a literal with a unit: `of 5`, `= -0.3`. */
export function plainNumber(at: Cursor): Node {
  at.spoilt = false;
  return settle(at, signedValue(at, false));
}

/** Where the unit of a number that ends at `from` ends, or −1. The unit stands in `at.unit`. */
export function unitEnd(at: Cursor, from: number): number {
  const text = at.text;
  let start = from;
  while (start < at.limit && classOf(text.charCodeAt(start)) & Class.Space) start++;
  if (start >= at.limit) return -1;
  const code = text.charCodeAt(start);
  const begins = classOf(code) & Class.Letter || code === 37 || code === 0xb0 || code === 0x221a || code === 49;
  if (!begins) return -1;
  if (code === 49 && start === from) return -1;
  const end = at.unit.read(text, start, at.limit);
  if (end < 0) return -1;
  const word = wordOf(text.slice(start, at.unit.wordEnd[0]));
  if (word !== Word.None) {
    if (holds(RESERVED | at.clauses, word)) return -1;
    if (word === Word.In && at.isRule && isDigit(text.charCodeAt(passSpace(text, at.unit.wordEnd[0])))) return -1;
  }
  return end;
}

/** The node of the unit that stands in `at.unit`. */
export function unit(at: Cursor, end: number): Node {
  const { tree, unit: read } = at;
  let first = NONE;
  let last = NONE;
  for (let i = 0; i < read.count; i++) {
    const text = tree.intern(read.name(i));
    const power = tree.add(Kind.Power, read.start[i], read.end[i], NONE, 0, read.exponent[i], text);
    if (last === NONE) first = power;
    else tree.join(last, power);
    last = power;
  }
  const start = unitStart(at, first);
  if (read.rewritten.length > 0) {
    at.report(start, end, { code: "syntax.unitNeedsBrackets", rewritten: read.rewritten });
    at.spoilt = true;
  }
  checkRoot(at, end);
  return tree.add(Kind.Unit, start, end, first);
}

/** A unit that begins with `1/` begins before its first power. */
function unitStart(at: Cursor, first: Node): number {
  let start = at.tree.start(first);
  if (at.unit.exponent[0] < 0) {
    if (at.text.charCodeAt(start - 1) === 40) start--;
    if (at.text.startsWith("1/", start - 2)) start -= 2;
  }
  return start;
}

function settle(at: Cursor, node: Node): Node {
  if (!at.spoilt) return node;
  at.spoilt = false;
  return at.spoil(node);
}

function signedValue(at: Cursor, takesUnit: boolean): Node {
  const sign = at.is(Token.Minus) ? at.start : -1;
  if (sign >= 0) at.advance();
  if (at.is(Token.Number)) return value(at, sign, takesUnit);
  at.spoilt = true;
  return at.missing("number");
}

function range(at: Cursor, start: number, low: Node, form: Form): Node {
  at.advance();
  if (!at.is(Token.Number) && !at.is(Token.Minus) && low !== NONE) joinsNumbers(at, "..");
  const second = signedValue(at, true);
  if (low !== NONE) at.tree.join(low, second);
  let last = second;
  if (at.is(Token.Range)) {
    at.advance();
    last = signedValue(at, true);
    at.tree.join(second, last);
    if (form === Form.Range) form = Form.TypicalRange;
  }
  return at.tree.add(Kind.Literal, start, at.tree.end(last), low !== NONE ? low : second, form);
}

function plusMinus(at: Cursor, start: number, nominal: Node): Node {
  // `5 V +- 3 %` is meant as limits, and would be a sum by its signs.
  if (at.found.length === 2) {
    at.report(at.start, at.end, { code: "syntax.otherSign", found: at.found, rewritten: ["+/-", "+ -"] });
    at.spoilt = true;
  }
  at.advance();
  if (at.is(Token.Minus)) {
    at.report(at.start, at.end, { code: "syntax.negativeTolerance", rewritten: [""] });
    at.spoilt = true;
    at.advance();
  }
  if (!at.is(Token.Number)) {
    joinsNumbers(at, "±");
    return at.tree.add(Kind.Literal, start, at.tree.end(nominal), nominal, Form.Exact);
  }
  const half = value(at, -1);
  at.tree.join(nominal, half);
  if (!at.is(Token.Open)) return at.tree.add(Kind.Literal, start, at.tree.end(half), nominal, Form.PlusMinus);
  const opened = at.start;
  at.advance();
  if (at.is(Token.Word) && at.found === "k") at.advance();
  else at.unexpected("=");
  at.expect(Token.Equal, "=");
  const factor = signedValue(at, false);
  at.tree.join(half, factor);
  const end = at.close(opened, Token.Close);
  return at.tree.add(Kind.Literal, start, end, nominal, Form.Expanded);
}

/** The sign stands before something that is no number: reported once, the value is lost. */
function joinsNumbers(at: Cursor, sign: "±" | ".."): void {
  at.spoilt = true;
  if (at.is(Token.Word) || at.is(Token.Open)) at.complain({ code: "syntax.joinsNumbers", sign });
  else at.unexpected("number");
}

/** One number with its unit, from the number; `sign` as in {@link literal}. */
function value(at: Cursor, sign: number, takesUnit = true): Node {
  const { tree, numeral, text } = at;
  const start = at.start;
  let end = at.end;
  const notation = numeral.notation;
  const { sign: inner, signEnd } = numeral;
  if (notation === Notation.LetterCode) checkTolerance(at, start, end);
  else if (notation === Notation.Decimal) end = passForeign(at, start, end);
  const numberEnd = end;
  if (isTrailingDot(text, end)) {
    end++;
    at.report(start, end, { code: "syntax.numberDot", rewritten: [text.slice(start, numberEnd)] });
  }
  const written =
    notation === Notation.Concise
      ? plainDigits(text.slice(start, inner) + text.slice(signEnd + 1, numberEnd))
      : plainDigits(text.slice(start, numberEnd));
  const number = notation === Notation.LetterCode ? NaN : numberOf(written, notation);
  const first = sign >= 0 ? sign : start;
  const id = tree.keep(sign >= 0 ? "-" + written : written);
  let children = NONE;
  if (notation === Notation.Concise) {
    const uncertainty = conciseUncertainty(text, start, inner, signEnd, numberEnd);
    const uncertaintyId = tree.keep(uncertainty);
    children = tree.add(Kind.Value, inner + 1, signEnd, NONE, Notation.Decimal, Number(uncertainty), uncertaintyId);
  }
  const withUnit = takesUnit ? unitEnd(at, end) : -1;
  if (withUnit >= 0) {
    const unitNode = unit(at, withUnit);
    if (children === NONE) children = unitNode;
    else tree.join(children, unitNode);
    end = withUnit;
  }
  if (notation === Notation.Fraction) checkFraction(at, start, numberEnd, end);
  at.resume(end);
  return tree.add(Kind.Value, first, end, children, notation, sign >= 0 ? -number : number, id);
}

function numberOf(written: string, notation: Notation): number {
  if (notation !== Notation.Fraction) return Number(written);
  const solidus = written.indexOf("/");
  return Number(written.slice(0, solidus)) / Number(written.slice(solidus + 1));
}

/** `4n7F`: the last letter is a tolerance, or the unit. */
function checkTolerance(at: Cursor, start: number, end: number): void {
  const { text } = at;
  const unclear = at.numeral.unclearTolerance;
  if (unclear < 0) return;
  const rewritten = [text.slice(start, unclear) + " " + text.slice(unclear, end)];
  at.report(start, end, { code: "syntax.toleranceOrUnit", rewritten });
  at.spoilt = true;
}

/** `3–5 V`: a range or a difference. */
function dash(at: Cursor, start: number, first: Node): Node {
  const before = at.text.slice(start, at.previousEnd);
  const dashAt = at.start;
  at.advance();
  if (!at.is(Token.Number)) {
    at.resume(dashAt);
    return first;
  }
  const secondAt = at.start;
  const second = value(at, -1);
  const after = at.text.slice(secondAt, at.previousEnd);
  const rewritten = [`${before} .. ${after}`, `${before} - ${after}`];
  at.report(start, at.previousEnd, { code: "syntax.dashBetweenNumbers", rewritten });
  at.tree.join(first, second);
  return at.tree.add(Kind.Missing, start, at.tree.end(second), first);
}

/** `2.`: a dot that ends a number, not one that begins a range or a member. */
function isTrailingDot(text: string, at: number): boolean {
  if (text.charCodeAt(at) !== 46 || text.charCodeAt(at + 1) === 46) return false;
  return at + 1 >= text.length || !(classOf(text.charCodeAt(at + 1)) & Class.Follow);
}

function passSpace(text: string, at: number): number {
  while (classOf(text.charCodeAt(at)) & Class.Space) at++;
  return at;
}

import type { Cursor } from "./cursor";
import { comparand, name } from "./expression";
import { Token } from "./lexer";
import { plainNumber } from "./literal";
import { onlyLiteral } from "./operand";
import { base, broken, definedName, passTo, present, upTo } from "./parts";
import type { Statement } from "./statement";
import { Kind, type Node } from "./tree";
import { Word, wordSet } from "./word";

const SATISFY = wordSet(Word.Satisfy);

/** `items NAME, NAME`, from the opening word. */
export function items(at: Cursor): Statement {
  const names: Node[] = [];
  do {
    at.advance();
    if (!at.is(Token.Word)) {
      at.unexpected("name");
      break;
    }
    names.push(definedName(at));
  } while (at.is(Token.Comma));
  if (names.length === 0) return broken(at);
  return { kind: "items", ...base(at), names };
}

/** `correlation A, B = r`, from the opening word. */
export function correlation(at: Cursor): Statement {
  at.advance();
  const first = at.is(Token.Word) ? name(at) : at.missing("name");
  at.expect(Token.Comma, ",");
  const second = at.is(Token.Word) ? name(at) : at.missing("name");
  at.expect(Token.Equal, "=");
  const start = at.start;
  const node = plainNumber(at);
  if (at.tree.kind(node) === Kind.Missing || at.problems.length > 0) return broken(at);
  const coefficient = at.tree.number(node);
  if (!(Math.abs(coefficient) <= 1)) {
    const end = at.previousEnd;
    at.report(start, end, { code: "syntax.outOfRange", what: "correlation", found: at.text.slice(start, end) });
    return broken(at);
  }
  return { kind: "correlation", ...base(at), first, second, coefficient };
}

/** `let NAME in a .. b satisfy left = right`, from the opening word. */
export function letStatement(at: Cursor): Statement {
  at.advance();
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return broken(at);
  }
  const named = definedName(at);
  if (!at.acceptWord(Word.In)) {
    at.unexpected("in");
    return broken(at, present(at, named));
  }
  const bracket = upTo(at, onlyLiteral(at), SATISFY, "let");
  if (!at.acceptWord(Word.Satisfy)) {
    at.unexpected("satisfy");
    return broken(at, present(at, named));
  }
  let left = comparand(at);
  let right: Node;
  if (at.expect(Token.Equal, "=")) right = upTo(at, comparand(at), 0, "let");
  else {
    passTo(at, 0);
    left = at.spoil(left);
    right = at.absent();
  }
  return { kind: "let", ...base(at), name: named, bracket, left, right };
}

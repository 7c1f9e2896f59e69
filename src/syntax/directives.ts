import { Class, classOf } from "./character";
import type { Cursor } from "./cursor";
import { expression } from "./expression";
import { Token } from "./lexer";
import { onlyLiteral } from "./operand";
import { base, broken, definedName, present, quoted, upTo } from "./parts";
import type { Statement } from "./statement";
import type { Node } from "./tree";
import { Word, wordSet } from "./word";

const PLOT = wordSet(Word.Log);

/** `use "other.calcs.md" as NAME`, from the opening word. */
export function use(at: Cursor): Statement {
  at.advance();
  const path = quoted(at);
  if (path === undefined) return broken(at);
  if (!at.acceptWord(Word.As)) {
    at.unexpected("as");
    return broken(at);
  }
  const named = definedName(at);
  if (present(at, named) === undefined) return broken(at);
  return { kind: "use", ...base(at), path, name: named };
}

/** `fab NAME = "fab/"`, from the opening word. */
export function fab(at: Cursor): Statement {
  at.advance();
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return broken(at);
  }
  const named = definedName(at);
  if (!at.expect(Token.Equal, "=")) return broken(at, named);
  const path = quoted(at);
  if (path === undefined) return broken(at, named);
  return { kind: "fab", ...base(at), name: named, path };
}

/** `plot expression, … for NAME = a .. b [log]`, from the opening word. */
export function plot(at: Cursor): Statement {
  at.clauses = PLOT;
  at.commaSeparates = true;
  const expressions: Node[] = [];
  do {
    at.advance();
    expressions.push(expression(at));
  } while (at.is(Token.Comma));
  at.commaSeparates = false;
  if (!at.isWord(Word.For)) {
    at.unexpected("for");
    return broken(at);
  }
  at.advance();
  const variable = at.is(Token.Word) ? definedName(at) : at.missing("name");
  at.expect(Token.Equal, "=");
  const range = upTo(at, onlyLiteral(at), PLOT, "plot");
  const logarithmic = at.acceptWord(Word.Log);
  return { kind: "plot", ...base(at), expressions, name: variable, range, logarithmic };
}

/** `variant "title": NAME = value, NAME = value`, from the opening word. */
export function variant(at: Cursor): Statement {
  at.advance();
  const title = quoted(at);
  if (title === undefined) return broken(at);
  if (!at.is(Token.Colon)) {
    at.unexpected(":");
    return broken(at);
  }
  const settings: { name: Node; value: Node }[] = [];
  do {
    at.advance();
    if (!at.is(Token.Word)) {
      at.unexpected("name");
      break;
    }
    const named = definedName(at);
    if (!at.expect(Token.Equal, "=")) break;
    settings.push({ name: named, value: expression(at) });
  } while (at.is(Token.Comma));
  if (settings.length === 0) return broken(at);
  return { kind: "variant", ...base(at), title, settings };
}

/** `accept CODE because "reason"`, from the opening word. */
export function accept(at: Cursor): Statement {
  at.advance();
  const { text, start } = at;
  let end = start;
  while (end < at.limit && (classOf(text.charCodeAt(end)) & Class.Follow || text[end] === "." || text[end] === "-"))
    end++;
  const code = text.slice(start, end);
  if (!at.is(Token.Word)) {
    at.unexpected("code");
    return broken(at);
  }
  at.resume(end);
  if (!at.acceptWord(Word.Because)) {
    at.unexpected("because");
    return broken(at);
  }
  const reason = quoted(at);
  if (reason === undefined) return broken(at);
  return { kind: "accept", ...base(at), code, codeSpan: { start, end }, reason };
}

import type { Cursor } from "./cursor";
import { name } from "./expression";
import { Token } from "./lexer";
import { assigned, assignedLiteral, base, behindClause, broken, definedName, repeated, source } from "./parts";
import type { Statement } from "./statement";
import type { Node } from "./tree";
import { Word, wordSet } from "./word";

const CLAUSES = wordSet(Word.Each, Word.From);
const SOURCE = wordSet(Word.From);

/** `given NAME = value [each [ITEM]] [from "source"]`, and `assume`, from the opening word. */
export function input(at: Cursor, kind: "given" | "assume"): Statement {
  at.advance();
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return broken(at);
  }
  const named = definedName(at);
  let value = assigned(at, CLAUSES, kind);
  let each: { readonly item?: Node } | undefined;
  let from: Node | undefined;
  for (let clauses = 0; at.isOneOf(CLAUSES); clauses++) {
    const problems = at.problems.length;
    if (at.isWord(Word.Each)) {
      if (each !== undefined) repeated(at);
      at.advance();
      each = at.is(Token.Word) && !at.isWord(Word.From) ? { item: name(at) } : {};
    } else {
      if (from !== undefined) repeated(at);
      from = source(at) ?? from;
    }
    value = behindClause(at, value, problems, CLAUSES, kind);
  }
  return { kind, ...base(at), name: named, value, each, source: from };
}

/** `over NAME = a .. b [from "source"]`, from the opening word. */
export function condition(at: Cursor): Statement {
  at.advance();
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return broken(at);
  }
  const named = definedName(at);
  let value = assignedLiteral(at, SOURCE, "over");
  let from: Node | undefined;
  while (at.isWord(Word.From)) {
    const problems = at.problems.length;
    if (from !== undefined) repeated(at);
    from = source(at) ?? from;
    value = behindClause(at, value, problems, SOURCE, "over");
  }
  return { kind: "over", ...base(at), name: named, value, source: from };
}

/** `order NAME = value`, from the opening word. */
export function order(at: Cursor): Statement {
  at.advance();
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return broken(at);
  }
  const named = definedName(at);
  const value = assigned(at, 0, "order");
  return { kind: "order", ...base(at), name: named, value };
}

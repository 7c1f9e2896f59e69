import type { Cursor } from "./cursor";
import { Token } from "./lexer";
import { plainNumber } from "./literal";
import { onlyLiteral } from "./operand";
import { assigned, base, behindClause, broken, definedName, repeated, source } from "./parts";
import type { Statement } from "./statement";
import { Kind, type Node } from "./tree";
import { Word, wordSet } from "./word";

const CLAUSES = wordSet(Word.Of, Word.At, Word.On, Word.From, Word.Instead);

/** What the clauses behind a measured value say. */
interface Clauses {
  of?: number;
  at: { name: Node; value: Node }[];
  on?: string;
  source?: Node;
  instead: boolean;
}

/** `measured NAME = value [of N] [at NAME = value, …] [on DATE] [from "source"] [instead]`, from the opening word. */
export function measurement(at: Cursor): Statement {
  at.advance();
  if (!at.is(Token.Word)) {
    at.unexpected("name");
    return broken(at);
  }
  at.clauses = CLAUSES;
  const named = definedName(at);
  let value = assigned(at, CLAUSES, "measured");
  const read: Clauses = { at: [], instead: false };
  for (let seen = 0; at.isOneOf(CLAUSES);) {
    const problems = at.problems.length;
    const bit = 1 << at.word;
    if (seen & bit) repeated(at);
    seen |= bit;
    clause(at, read);
    value = behindClause(at, value, problems, CLAUSES, "measured");
  }
  const { of, at: conditions, on, source: from, instead } = read;
  return { kind: "measured", ...base(at), name: named, value, of, at: conditions, on, source: from, instead };
}

function clause(at: Cursor, read: Clauses): void {
  switch (at.word) {
    case Word.Of:
      at.advance();
      read.of = pieces(at);
      return;
    case Word.At:
      conditions(at, read);
      return;
    case Word.On:
      read.on = date(at);
      return;
    case Word.From:
      read.source = source(at) ?? read.source;
      return;
    default:
      at.advance();
      read.instead = true;
  }
}

/** A number of pieces: a whole one. */
function pieces(at: Cursor): number | undefined {
  const start = at.start;
  const node = plainNumber(at);
  if (at.tree.kind(node) === Kind.Missing) return undefined;
  const count = at.tree.number(node);
  if (Number.isInteger(count) && count > 0) return count;
  const end = at.previousEnd;
  at.report(start, end, { code: "syntax.wholeNumberExpected", found: at.text.slice(start, end) });
  return undefined;
}

function conditions(at: Cursor, read: Clauses): void {
  do {
    at.advance();
    if (!at.is(Token.Word)) return at.unexpected("name");
    const name = definedName(at);
    if (!at.expect(Token.Equal, "=")) return;
    read.at.push({ name, value: onlyLiteral(at) });
  } while (at.is(Token.Comma));
}

/** A calendar date of ISO 8601, from the word `on`. */
function date(at: Cursor): string | undefined {
  at.advance();
  const { text, start } = at;
  let end = start;
  while (end < at.limit && "0123456789-–−./".includes(text[end])) end++;
  if (end === start) {
    at.unexpected("date");
    return undefined;
  }
  const found = text.slice(start, end);
  at.resume(end);
  if (isDate(found)) return found;
  at.report(start, end, { code: "syntax.impossibleDate", found });
  return undefined;
}

/** Whether the text is a day that the calendar has. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const [year, month, day] = text.split("-").map(Number);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1];
}

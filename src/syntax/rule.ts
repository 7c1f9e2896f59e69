import type { Cursor } from "./cursor";
import { expression } from "./expression";
import { Token } from "./lexer";
import { base, upTo } from "./parts";
import type { Statement } from "./statement";
import { Word, wordSet } from "./word";

const SHARE = wordSet(Word.In);

/** `must condition [in 99 % of builds]`, from the opening word. */
export function rule(at: Cursor, word: "must" | "should"): Statement {
  at.isRule = true;
  at.advance();
  const condition = upTo(at, expression(at), SHARE, "rule");
  const required = at.isWord(Word.In) ? share(at) : undefined;
  return { kind: "rule", ...base(at), word, condition, share: required };
}

/** `in 99 % of builds`, from the word `in`. The share, 0 to 1. */
function share(at: Cursor): number | undefined {
  at.advance();
  if (!at.is(Token.Number)) {
    at.unexpected("number");
    return undefined;
  }
  const start = at.start;
  const percent = Number(at.found);
  at.advance();
  const end = at.end;
  if (!at.expect(Token.Percent, "%")) return undefined;
  if (!at.acceptWord(Word.Of)) at.unexpected("of");
  else if (!at.acceptWord(Word.Builds)) at.unexpected("builds");
  if (percent > 0 && percent <= 100) return percent / 100;
  at.report(start, end, { code: "syntax.outOfRange", what: "share", found: at.text.slice(start, end) });
  return undefined;
}

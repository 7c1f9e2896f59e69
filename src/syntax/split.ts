import type { Span } from "../text/span";
import { Lexer, Token } from "./lexer";
import { OPENING_WORDS } from "./name";
import { Word, holds, wordSet } from "./word";

/** Words behind which a statement cannot end. */
const OPEN_WORDS = wordSet(
  Word.And,
  Word.Another,
  Word.Choose,
  Word.Else,
  Word.For,
  Word.From,
  Word.If,
  Word.Inside,
  Word.Not,
  Word.Or,
  Word.Readings,
  Word.Sample,
  Word.Satisfy,
  Word.Then,
  Word.Where,
  Word.Without,
);

/**
 * The statements of one block. A line goes on with the statement above it only if it is indented deeper than that
 * statement's first line, no blank line lies between, and a bracket is open, the last token cannot end a statement, or
 * the line begins with `where`, which cannot begin one.
 * A line that holds only a comment is no statement.
 * @param lines the calculation lines in order, each without its line break, with its indentation; no blank ones.
 * @param from the line to begin at, if not the first
 * @param isKnown told where lines begin that begin a statement or hold only a comment; it ends with the first for which this is true
 * @returns for each statement its span from the first character to the end of its last line.
 */
export function splitStatements(
  text: string,
  lines: readonly Span[],
  from = 0,
  isKnown: (line: Span, start: number) => boolean = () => false,
): Span[] {
  const statements: Span[] = [];
  for (let line = from; line < lines.length;) {
    const first = lines[line];
    const start = first.start + indentation(text, first);
    if (isKnown(first, start)) break;
    if (text.charCodeAt(start) === HASH) {
      line++;
      continue;
    }
    const columns = column(text, first);
    const openness = new Openness(text, start);
    let last = first;
    for (line++; line < lines.length; line++) {
      const next = lines[line];
      if (column(text, next) <= columns || !isAdjacent(text, last, next)) break;
      if (!openness.isOpenAfter(last) && !beginsWithWhere(text, next)) break;
      last = next;
    }
    statements.push({ start, end: trimmedEnd(text, start, last.end) });
  }
  return statements;
}

const HASH = 35;

const lexer = new Lexer();

/** Whether a statement is still open at the end of a line; reads each line once, and only when asked. */
class Openness {
  private depth = 0;
  private tokens = 0;
  /** The last token so far wants something behind it. A line that holds only a comment leaves it as it is. */
  private wantsMore = false;

  constructor(
    private readonly text: string,
    private start: number,
  ) {}

  isOpenAfter(line: Span): boolean {
    const begin = Math.max(this.start, line.start);
    let last = Token.End;
    for (lexer.begin(this.text, begin, line.end); lexer.kind !== Token.End; lexer.advance()) {
      const isMember = last === Token.Dot;
      last = lexer.kind;
      if (last === Token.Open || last === Token.OpenSquare) this.depth++;
      else if (last === Token.Close || last === Token.CloseSquare) this.depth = Math.max(0, this.depth - 1);
      this.wantsMore = isOpenSign(last) || (last === Token.Word && !isMember && this.isOpenWord());
      this.tokens++;
    }
    return this.depth > 0 || this.wantsMore;
  }

  /** A word that wants something behind it: `then`, or an opening word that stands alone. */
  private isOpenWord(): boolean {
    if (lexer.word !== Word.None) return holds(OPEN_WORDS, lexer.word);
    return this.tokens === 0 && OPENING_WORDS.has(lexer.found);
  }
}

/** Whether a line begins with the clause that may stand on a line of its own. `where =` would be a definition. */
function beginsWithWhere(text: string, line: Span): boolean {
  lexer.begin(text, line.start + indentation(text, line), line.end);
  return lexer.kind === Token.Word && lexer.word === Word.Where && !lexer.isAssigned;
}

/** A sign that cannot end a statement. `%` can: it is a unit. */
function isOpenSign(token: Token): boolean {
  switch (token) {
    case Token.Plus:
    case Token.Minus:
    case Token.Times:
    case Token.Divide:
    case Token.Power:
    case Token.Parallel:
    case Token.PlusMinus:
    case Token.Range:
    case Token.Dot:
    case Token.Comma:
    case Token.Colon:
    case Token.Equal:
    case Token.NotEqual:
    case Token.Less:
    case Token.LessOrEqual:
    case Token.Greater:
    case Token.GreaterOrEqual:
    case Token.And:
    case Token.Not:
      return true;
    default:
      return false;
  }
}

/** Nothing but one line break lies between the two lines. */
function isAdjacent(text: string, line: Span, next: Span): boolean {
  const gap = next.start - line.end;
  return gap === 1 || (gap === 2 && text.charCodeAt(line.end) === 13 && text.charCodeAt(line.end + 1) === 10);
}

/** How many characters of white space a line begins with. */
function indentation(text: string, line: Span): number {
  let at = line.start;
  while (at < line.end && (text.charCodeAt(at) === 32 || text.charCodeAt(at) === 9)) at++;
  return at - line.start;
}

/** The column of a line's first character; tabs go to the next multiple of four. */
function column(text: string, line: Span): number {
  let columns = 0;
  for (let at = line.start; at < line.end; at++) {
    const code = text.charCodeAt(at);
    if (code === 32) columns++;
    else if (code === 9) columns += 4 - (columns % 4);
    else break;
  }
  return columns;
}

function trimmedEnd(text: string, start: number, end: number): number {
  while (end > start && (text.charCodeAt(end - 1) === 32 || text.charCodeAt(end - 1) === 9)) end--;
  return end;
}

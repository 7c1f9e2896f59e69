import { Class, classOf, isDigit, isTurning, nameLength } from "./character";
import { foldName } from "./name";
import { Numeral } from "./numeral";
import type { SyntaxTrouble } from "./problem";
import { LONGEST_WORD, Word, wordOf } from "./word";

export const enum Token {
  End,
  Word,
  Number,
  Text,
  Superscript,
  Plus,
  Minus,
  Times,
  Divide,
  Power,
  Parallel,
  PlusMinus,
  Range,
  Dot,
  Comma,
  Colon,
  Semicolon,
  Open,
  Close,
  OpenSquare,
  CloseSquare,
  Equal,
  NotEqual,
  Less,
  LessOrEqual,
  Greater,
  GreaterOrEqual,
  And,
  Not,
  Percent,
  /** `–` or `—`: a range or a minus, which only the neighbours tell. */
  Dash,
  Unknown,
}

/**
 * Reads a statement token by token, on demand: what a number is followed by decides how the next characters are read
 * (`12 V/R` is one literal, `x V/R` is not), so the parser may move the reading place itself. No token is an object.
 */
export class Lexer {
  text = "";
  limit = 0;
  kind = Token.End;
  start = 0;
  end = 0;
  /** Where the token before this one ends. */
  previousEnd = 0;
  /** Of a {@link Token.Word}: which word of the language it is. */
  word = Word.None;
  readonly numeral = new Numeral();
  /** The comments passed so far, joined by a space. */
  comment = "";
  /** The furthest place read so far, and whether the current token lies beyond it: going back tells nothing twice. */
  private furthest = 0;
  private isNew = true;

  /** Called for each trouble with characters. */
  report(_start: number, _end: number, _trouble: SyntaxTrouble): void {}

  begin(text: string, start = 0, limit = text.length): void {
    this.text = text;
    this.limit = limit;
    this.comment = "";
    this.furthest = start;
    this.end = start;
    this.advance();
    this.previousEnd = start;
  }

  /** Reads on from a place. */
  resume(at: number): void {
    this.end = at;
    this.advance();
  }

  /** Whether the current token is of a kind. (A method, because the kind changes at every step.) */
  is(kind: Token): boolean {
    return this.kind === kind;
  }

  /** The text of the current token. */
  get found(): string {
    return this.text.slice(this.start, this.end);
  }

  /** The current word in its compared form. */
  get name(): string {
    return foldName(this.text.slice(this.start, this.end));
  }

  advance(): void {
    this.previousEnd = this.end;
    this.isNew = this.end >= this.furthest;
    this.start = this.skip(this.end);
    this.read(this.start);
    if (this.isNew) this.furthest = this.end;
  }

  /** Reads the token that begins at a place. */
  private read(at: number): void {
    if (at >= this.limit) {
      this.kind = Token.End;
      this.end = at;
      return;
    }
    const code = this.text.charCodeAt(at);
    const known = classOf(code);
    if (known & Class.Letter) this.readWord(at);
    else if (known & Class.Digit) this.number(at);
    else if (nameLength(this.text, at, Class.Letter) > 0) this.readWord(at);
    else this.sign(at, code);
  }

  /** Whether `=`, and not `==`, comes next after the current token. */
  get isAssigned(): boolean {
    const text = this.text;
    let at = this.end;
    while (at < this.limit && classOf(text.charCodeAt(at)) & Class.Space) at++;
    return at < this.limit && text.charCodeAt(at) === 61 && text.charCodeAt(at + 1) !== 61;
  }

  /** Passes over what separates tokens. */
  private skip(at: number): number {
    const text = this.text;
    while (at < this.limit) {
      const code = text.charCodeAt(at);
      if (code === 32) at++;
      else if (code === 35) at = this.passComment(at);
      else {
        const known = classOf(code);
        if (known & Class.Invisible) this.tellInvisible(at);
        else if (!(known & Class.Space)) break;
        at++;
      }
    }
    return at;
  }

  private passComment(at: number): number {
    let end = at + 1;
    for (; end < this.limit; end++) {
      const code = this.text.charCodeAt(end);
      if (code === 10 || code === 13) break;
      if (code > 127 && isTurning(code)) this.tellInvisible(end);
    }
    const comment = this.isNew ? this.text.slice(at + 1, end).trim() : "";
    if (comment !== "") this.comment += this.comment === "" ? comment : " " + comment;
    return end;
  }

  private tellInvisible(at: number): void {
    const codePoint = this.text.charCodeAt(at);
    this.tell(at, at + 1, { code: "syntax.invisibleCharacter", codePoint, rewritten: [""] });
  }

  private tell(start: number, end: number, trouble: SyntaxTrouble): void {
    if (this.isNew) this.report(start, end, trouble);
  }

  private readWord(at: number): void {
    const text = this.text;
    let end = at;
    while (end < this.limit) {
      const code = text.charCodeAt(end);
      const known = classOf(code);
      if (known & Class.Follow) end++;
      else if (code < 0xd800 || code > 0xdfff) {
        if (known & Class.Invisible && nameLength(text, end + 1, Class.Follow) > 0) this.tellInvisible(end++);
        else break;
      } else {
        const length = nameLength(text, end, Class.Follow);
        if (length === 0) break;
        end += length;
      }
    }
    this.kind = Token.Word;
    this.end = end;
    const length = end - at;
    const isLower = text.charCodeAt(at) >= 97 && text.charCodeAt(end - 1) >= 97;
    this.word = isLower && length > 1 && length <= LONGEST_WORD ? wordOf(text.slice(at, end)) : Word.None;
  }

  private number(at: number): void {
    this.kind = Token.Number;
    this.numeral.scan(this.text, at);
    this.end = this.numeral.end;
  }

  private take(kind: Token, length: number): void {
    this.kind = kind;
    this.end = this.start + length;
  }

  /** A sign of another language, read as what it means here. */
  private takeOther(kind: Token, length: number, use: string): void {
    this.take(kind, length);
    const found = this.found;
    this.tell(this.start, this.end, { code: "syntax.otherSign", found, rewritten: [use] });
  }

  private sign(at: number, code: number): void {
    const next = this.text.charCodeAt(at + 1);
    switch (code) {
      case 0x22: // "
        return this.quoted(at, '"');
      case 0x2b: // +
        if (next === 0x2f && isMinus(this.text.charCodeAt(at + 2))) return this.take(Token.PlusMinus, 3);
        if (isMinus(next) && this.isNumberNext(at + 2)) return this.take(Token.PlusMinus, 2);
        return this.take(Token.Plus, 1);
      case 0x2d: // -
      case 0x2212:
        return this.take(Token.Minus, 1);
      case 0x2a: // *
        return next === 0x2a ? this.takeOther(Token.Power, 2, "^") : this.take(Token.Times, 1);
      case 0xb7: // ·
      case 0xd7: // ×
      case 0x22c5:
        return this.take(Token.Times, 1);
      case 0x2f: // /
        return next === 0x2f ? this.take(Token.Unknown, 2) : this.take(Token.Divide, 1);
      case 0xf7: // ÷
        return this.takeOther(Token.Divide, 1, "/");
      case 0x5e: // ^
        return this.take(Token.Power, 1);
      case 0x7c: // |
        if (next === 0x7c) return this.take(Token.Parallel, 2);
        // `|x|` at the place of a value is no sign between two.
        if (this.isOperandPlace(at)) return this.take(Token.Unknown, 1);
        return this.takeOther(Token.Parallel, 1, "||");
      case 0x2225: // ∥
      case 0x2016:
        return this.take(Token.Parallel, 1);
      case 0xb1: // ±
        return this.take(Token.PlusMinus, 1);
      case 0x2e: // .
        return this.dot(at, next);
      case 0x2026: // …
        return this.takeOther(Token.Range, 1, "..");
      case 0x2c:
        return this.take(Token.Comma, 1);
      case 0x3a: // :
        return next === 0x3d ? this.takeOther(Token.Equal, 2, "=") : this.take(Token.Colon, 1);
      case 0x3b:
        return this.take(Token.Semicolon, 1);
      case 0x28:
        return this.take(Token.Open, 1);
      case 0x29:
        return this.take(Token.Close, 1);
      case 0x5b:
        return this.take(Token.OpenSquare, 1);
      case 0x5d:
        return this.take(Token.CloseSquare, 1);
      case 0x25:
        return this.take(Token.Percent, 1);
      case 0x26: // &
        return next === 0x26 ? this.takeOther(Token.And, 2, "and") : this.take(Token.Unknown, 1);
      case 0x2013: // –
      case 0x2014:
        return this.take(Token.Dash, 1);
      default:
        return this.comparison(at, code, next);
    }
  }

  private comparison(at: number, code: number, next: number): void {
    switch (code) {
      case 0x3d: // =
        if (next === 0x3d) return this.takeOther(Token.Equal, this.text.charCodeAt(at + 2) === 0x3d ? 3 : 2, "=");
        if (next === 0x3c) return this.takeOther(Token.LessOrEqual, 2, "<=");
        if (next === 0x2f && this.text.charCodeAt(at + 2) === 0x3d) return this.takeOther(Token.NotEqual, 3, "!=");
        if (next === 0x3e) return this.takeOther(Token.GreaterOrEqual, 2, ">=");
        return this.take(Token.Equal, 1);
      case 0x21: // !
        return next === 0x3d ? this.take(Token.NotEqual, 2) : this.takeOther(Token.Not, 1, "not ");
      case 0x2260: // ≠
        return this.take(Token.NotEqual, 1);
      case 0x3c: // <
        if (next === 0x3d) return this.take(Token.LessOrEqual, 2);
        if (next === 0x3e) return this.takeOther(Token.NotEqual, 2, "!=");
        return this.take(Token.Less, 1);
      case 0x2264: // ≤
        return this.take(Token.LessOrEqual, 1);
      case 0x3e: // >
        return next === 0x3d ? this.take(Token.GreaterOrEqual, 2) : this.take(Token.Greater, 1);
      case 0x2265: // ≥
        return this.take(Token.GreaterOrEqual, 1);
      default:
        return this.other(at, code);
    }
  }

  /** Whether an operator, a bracket or nothing stands before a place. */
  private isOperandPlace(at: number): boolean {
    let before = at - 1;
    while (before >= 0 && classOf(this.text.charCodeAt(before)) & Class.Space) before--;
    return before < 0 || "=+*/^(,<>−-".includes(this.text[before]);
  }

  private isNumberNext(at: number): boolean {
    while (at < this.limit && classOf(this.text.charCodeAt(at)) & Class.Space) at++;
    return at < this.limit && isDigit(this.text.charCodeAt(at));
  }

  /** `..`, `.` or a number that lacks its zero. */
  private dot(at: number, next: number): void {
    if (next === 0x2e)
      return this.text.charCodeAt(at + 2) === 0x2e ? this.takeOther(Token.Range, 3, "..") : this.take(Token.Range, 2);
    if (!isDigit(next)) return this.take(Token.Dot, 1);
    this.number(at + 1);
    this.numeral.integer = false;
    const rewritten = ["0" + this.text.slice(at, this.end)];
    this.tell(at, this.end, { code: "syntax.numberDot", rewritten });
  }

  private other(at: number, code: number): void {
    const character = String.fromCharCode(code);
    if (DOUBLE_QUOTES.includes(character)) this.quoted(at, DOUBLE_QUOTES);
    else if (SINGLE_QUOTES.includes(character)) this.quoted(at, SINGLE_QUOTES);
    else if (classOf(code) & Class.Superscript) this.take(Token.Superscript, 1);
    else this.take(Token.Unknown, code >= 0xd800 && code <= 0xdbff && at + 1 < this.limit ? 2 : 1);
  }

  /** A text up to its closing mark, which must stand on the same line. */
  private quoted(at: number, closing: string): void {
    const text = this.text;
    let end = at + 1;
    let closed = false;
    for (; end < this.limit && !closed; end++) {
      const code = text.charCodeAt(end);
      if (code === 10 || code === 13) break;
      closed = code === 0x22 || (code > 38 && closing.includes(text[end]));
      if (code > 127 && isTurning(code)) this.tellInvisible(end);
    }
    this.kind = Token.Text;
    this.end = end;
    if (!closed) {
      const inside = text.slice(at + 1, end).trimEnd();
      this.end = at + 1 + inside.length;
      this.tell(at, this.end, { code: "syntax.unclosedQuote", rewritten: [`"${inside}"`] });
    } else if (text.charCodeAt(at) !== 0x22 || text.charCodeAt(end - 1) !== 0x22)
      this.tell(at, end, { code: "syntax.quotes", rewritten: [`"${text.slice(at + 1, end - 1)}"`] });
  }

  /** What stands between the quotes of the current text. */
  get quotedText(): string {
    const last = this.text.charCodeAt(this.end - 1);
    const closed = this.end - this.start > 1 && (last === 0x22 || ALL_QUOTES.includes(String.fromCharCode(last)));
    return this.text.slice(this.start + 1, closed ? this.end - 1 : this.end);
  }
}

function isMinus(code: number): boolean {
  return code === 0x2d || code === 0x2212;
}

const DOUBLE_QUOTES = "“”„«»";
const SINGLE_QUOTES = "'‘’‚`´";
const ALL_QUOTES = DOUBLE_QUOTES + SINGLE_QUOTES;

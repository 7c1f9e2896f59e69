import { Class, isDigit, nameLength } from "./character";
import { Notation } from "./tree";

/** Letters of IEC 60062 that stand for the decimal mark. Behind the last digit only those that are no unit. */
const INNER_LETTERS = "RkKMGnpuµμmF";
const TRAILING_LETTERS = "RkMGnpuµμ";

/** Letters for a tolerance that are also a unit of what the code stands for: `4n7F`, `4u7H`. */
const UNIT_LETTERS = "FH";
const OHM_LETTERS = "RkKMG";

/** Reads one number as written, without sign and unit. One object serves all statements: no number is allocated. */
export class Numeral {
  notation = Notation.Decimal;
  /** Where it ends. */
  end = 0;
  /** Only digits: no decimals, no exponent. */
  integer = true;
  /** The solidus of a fraction, or the bracket of a concise number. */
  sign = 0;
  /** Where the digits in brackets of a concise number end. */
  signEnd = 0;
  /** Where the tolerance letter of a letter code stands if it could as well be a unit, else −1. */
  unclearTolerance = -1;

  /** Reads from `at`, where a digit stands. */
  scan(text: string, at: number): void {
    this.notation = Notation.Decimal;
    this.integer = true;
    this.unclearTolerance = -1;
    if (text.charCodeAt(at) === 48 && this.radix(text, at)) return;
    this.end = digits(text, at);
    const code = text.charCodeAt(this.end);
    if (code === 46 && isDigit(text.charCodeAt(this.end + 1))) {
      this.integer = false;
      this.end = digits(text, this.end + 1);
    } else if (nameLength(text, this.end, Class.Letter) > 0) {
      if (this.letterCode(text)) return;
    } else if (code === 47 && isDigit(text.charCodeAt(this.end + 1))) {
      this.fraction(text);
      return;
    }
    if (text.charCodeAt(this.end) === 40) this.concise(text);
    this.exponent(text);
  }

  /** `0x1F`, `0b1010`. */
  private radix(text: string, at: number): boolean {
    const letter = text.charCodeAt(at + 1) | 32;
    const isPart = letter === 120 ? isHexadecimal : letter === 98 ? isBinary : undefined;
    if (isPart === undefined) return false;
    let end = at + 2;
    while (isPart(text.charCodeAt(end))) end++;
    if (end === at + 2 || nameLength(text, end, Class.Follow) > 0) return false;
    this.notation = letter === 120 ? Notation.Hexadecimal : Notation.Binary;
    this.end = end;
    return true;
  }

  private letterCode(text: string): boolean {
    const letter = text[this.end];
    if (!INNER_LETTERS.includes(letter)) return false;
    let end = digits(text, this.end + 1);
    if (end === this.end + 1) {
      if (!TRAILING_LETTERS.includes(letter)) return false;
    } else if (isCapital(text.charCodeAt(end))) {
      if (UNIT_LETTERS.includes(text[end]) && !OHM_LETTERS.includes(letter)) this.unclearTolerance = end;
      end++;
    }
    if (nameLength(text, end, Class.Follow) > 0) return false;
    this.notation = Notation.LetterCode;
    this.integer = false;
    this.end = end;
    return true;
  }

  /** Two integers. `1/2.5`, `1/2e3` and `1/4k7` are divisions, and of `1/2/3` the first two make the fraction. */
  private fraction(text: string): void {
    const solidus = this.end;
    const end = digits(text, solidus + 1);
    const code = text.charCodeAt(end);
    const more = code === 46 && isDigit(text.charCodeAt(end + 1));
    if (more || (nameLength(text, end, Class.Letter) > 0 && this.isLongerThan(text, solidus + 1, end))) return;
    this.notation = Notation.Fraction;
    this.integer = false;
    this.sign = solidus;
    this.end = end;
  }

  /** Whether the number at `at` goes on behind its first digits. Leaves everything else as it was. */
  private isLongerThan(text: string, at: number, end: number): boolean {
    const before = this.end;
    this.end = end;
    const longer =
      this.letterCode(text) ||
      (this.exponent(text), this.end > end) ||
      (text.charCodeAt(at) === 48 && this.radix(text, at));
    this.notation = Notation.Decimal;
    this.integer = true;
    this.unclearTolerance = -1;
    this.end = before;
    return longer;
  }

  /** `100.02147(35)`. */
  private concise(text: string): void {
    let close = this.end + 1;
    while (isDigit(text.charCodeAt(close))) close++;
    if (close === this.end + 1 || text.charCodeAt(close) !== 41) return;
    this.notation = Notation.Concise;
    this.integer = false;
    this.sign = this.end;
    this.signEnd = close;
    this.end = close + 1;
  }

  private exponent(text: string): void {
    if ((text.charCodeAt(this.end) | 32) !== 101) return;
    let at = this.end + 1;
    const sign = text.charCodeAt(at);
    if (sign === 43 || sign === 45 || sign === 0x2212) at++;
    if (!isDigit(text.charCodeAt(at))) return;
    this.integer = false;
    this.end = digits(text, at);
  }
}

/** The digits as `Number` and exact arithmetic read them: `_` left out, `−` as `-`. */
export function plainDigits(text: string): string {
  return text.length > 2 && (text.includes("_") || text.includes("−"))
    ? text.replace(/_/g, "").replace(/−/g, "-")
    : text;
}

/** The standard uncertainty that a concise number states: `1.2345(67)e3` has `67e-4e3`, written `67e-1`. */
export function conciseUncertainty(text: string, start: number, sign: number, signEnd: number, end: number): string {
  const dot = text.indexOf(".", start);
  const decimals = dot >= 0 && dot < sign ? plainDigits(text.slice(dot + 1, sign)).length : 0;
  const exponent = signEnd + 1 < end ? Number(plainDigits(text.slice(signEnd + 2, end))) : 0;
  return `${text.slice(sign + 1, signEnd)}e${exponent - decimals}`;
}

/** Where the digits from `at` end; `_` may stand between two of them. */
function digits(text: string, at: number): number {
  for (;;) {
    const code = text.charCodeAt(at);
    if (isDigit(code)) at++;
    else if (code === 95 && isDigit(text.charCodeAt(at - 1)) && isDigit(text.charCodeAt(at + 1))) at++;
    else return at;
  }
}

function isHexadecimal(code: number): boolean {
  return isDigit(code) || ((code | 32) >= 97 && (code | 32) <= 102);
}

function isBinary(code: number): boolean {
  return code === 48 || code === 49;
}

function isCapital(code: number): boolean {
  return code >= 65 && code <= 90;
}

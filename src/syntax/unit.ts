import { Class, classOf, isDigit, isSuperscriptMinus, nameLength, superscriptDigit } from "./character";
import { foldName } from "./name";

/**
 * Reads a unit as written: `W/(m·K)`, `nV/√Hz`, `1/s`. It knows the grammar of units, not their names.
 * One object serves all statements; its columns hold the powers of the unit read last.
 */
export class UnitReader {
  count = 0;
  readonly start: number[] = [];
  readonly wordStart: number[] = [];
  readonly wordEnd: number[] = [];
  readonly end: number[] = [];
  /** Negative below the solidus. */
  readonly exponent: number[] = [];
  /** Texts in place of a unit that cannot be read in one way only (`W/m·K`), else empty. */
  rewritten: readonly string[] = [];
  private text = "";
  private limit = 0;

  /** Reads a unit that begins exactly at `at`. Where it ends, or −1 if none begins there. */
  read(text: string, at: number, limit: number): number {
    this.text = text;
    this.limit = limit;
    this.count = 0;
    this.rewritten = NONE_REWRITTEN;
    if (text.charCodeAt(at) === 49 && text.charCodeAt(at + 1) === 47) return this.below(at + 1);
    const first = this.factors(at, 1);
    if (first < 0 || text.charCodeAt(first) !== 47) return first;
    const end = this.below(first);
    if (end < 0) return first;
    return end < limit && isJoin(text.charCodeAt(end)) ? this.more(at, first, end) : end;
  }

  /** The word of a power in its compared form. */
  name(power: number): string {
    return foldName(this.text.slice(this.wordStart[power], this.wordEnd[power]));
  }

  /** Powers joined by `·` or `*`. */
  private factors(at: number, sense: 1 | -1): number {
    let end = this.power(at, sense);
    while (end >= 0 && isTimes(this.text.charCodeAt(end))) {
      const next = this.factor(end + 1, sense);
      if (next < 0) break;
      end = next;
    }
    return end;
  }

  /** What stands below the solidus at `at`: one power, or several in brackets. */
  private below(at: number): number {
    if (this.text.charCodeAt(at + 1) !== 40) return this.factor(at + 1, -1);
    const before = this.count;
    const end = this.factors(at + 2, -1);
    if (end >= 0 && end < this.limit && this.text.charCodeAt(end) === 41) return end + 1;
    this.count = before;
    return -1;
  }

  /** A further factor: a unit, unless the word is called, indexed or has members, for then an operator stood before it. */
  private factor(at: number, sense: 1 | -1): number {
    const before = this.count;
    const end = this.power(at, sense);
    if (end < 0) return end;
    const code = end < this.limit ? this.text.charCodeAt(end) : 0;
    const isMember = code === 46 && nameLength(this.text, end + 1, Class.Letter) > 0;
    if (code !== 40 && code !== 91 && !isMember) return end;
    this.count = before;
    return -1;
  }

  /** What follows the power below the solidus has two readings, or one that needs its brackets. */
  private more(start: number, solidus: number, end: number): number {
    const above = this.text.slice(start, solidus);
    let below = this.text.slice(solidus + 1, end).replace(/^\((.*)\)$/s, "$1");
    let product = above;
    let times = false;
    for (;;) {
      const sign = this.text.charCodeAt(end);
      if (end >= this.limit || !isJoin(sign)) break;
      const next = sign === 47 ? this.below(end) : this.factor(end + 1, 1);
      if (next < 0) break;
      const factor = this.text.slice(end + 1, next).replace(/^\((.*)\)$/s, "$1");
      if (sign === 47) below += "·" + factor;
      else times = true;
      if (sign !== 47) product += "·" + factor;
      end = next;
    }
    const rest = product.slice(above.length);
    const first = below.includes("·") ? `(${below})` : below;
    if (times) this.rewritten = [`${above}/(${below}${rest})`, `${product}/${first}`];
    else if (below.includes("·") && !this.isBracketed(solidus, end)) this.rewritten = [`${above}/(${below})`];
    return end;
  }

  private isBracketed(solidus: number, end: number): boolean {
    return this.text.charCodeAt(solidus + 1) === 40 && this.text.indexOf(")", solidus) === end - 1;
  }

  private power(at: number, sense: 1 | -1): number {
    const root = at < this.limit && this.text.charCodeAt(at) === 0x221a;
    const word = root ? at + 1 : at;
    const end = this.word(word);
    if (end < 0) return -1;
    const i = this.count++;
    this.start[i] = at;
    this.wordStart[i] = word;
    this.wordEnd[i] = end;
    this.end[i] = end;
    this.exponent[i] = sense * (root ? 0.5 : 1);
    if (end >= this.limit) return end;
    const code = this.text.charCodeAt(end);
    if (code === 94) this.caret(i, end);
    else if (code > 127 && classOf(code) & Class.Superscript) this.superscripts(i, end);
    return this.end[i];
  }

  /** A unit's word: `%`, or letters that a `°` may lead. */
  private word(at: number): number {
    if (at >= this.limit) return -1;
    const code = this.text.charCodeAt(at);
    if (code === 37) return at + 1;
    let end = code === 0xb0 ? at + 1 : at;
    const first = nameLength(this.text, end, Class.Letter);
    if (first === 0) return end > at ? end : -1;
    end += first;
    for (;;) {
      const length = end < this.limit ? nameLength(this.text, end, Class.Follow) : 0;
      if (length === 0) return end;
      end += length;
    }
  }

  /** `^2`, `^-1`, `^0.5`, `^(1/2)`. Other exponents are left to the operator. */
  private caret(power: number, at: number): void {
    const bracket = this.text.charCodeAt(at + 1) === 40;
    let end = at + (bracket ? 2 : 1);
    const minus = isMinus(this.text.charCodeAt(end));
    if (minus) end++;
    const start = end;
    while (isDigit(this.text.charCodeAt(end))) end++;
    if (end === start) return;
    let value: number;
    if (bracket) {
      if (this.text.charCodeAt(end) !== 47) return;
      const below = ++end;
      while (isDigit(this.text.charCodeAt(end))) end++;
      if (end === below || this.text.charCodeAt(end) !== 41) return;
      value = Number(this.text.slice(start, below - 1)) / Number(this.text.slice(below, end));
      end++;
    } else {
      if (this.text.charCodeAt(end) === 46 && isDigit(this.text.charCodeAt(end + 1))) {
        end++;
        while (isDigit(this.text.charCodeAt(end))) end++;
      }
      value = Number(this.text.slice(start, end));
    }
    if (end > this.limit) return;
    this.exponent[power] *= minus ? -value : value;
    this.end[power] = end;
  }

  private superscripts(power: number, at: number): void {
    const { value, end } = readSuperscript(this.text, at);
    if (end === at) return;
    this.exponent[power] *= value;
    this.end[power] = end;
  }
}

/** The number that superscript characters write from `at`; `end` is `at` if there is none. */
export function readSuperscript(text: string, at: number): { value: number; end: number } {
  const minus = isSuperscriptMinus(text.charCodeAt(at));
  let end = minus ? at + 1 : at;
  let value = 0;
  let digit = superscriptDigit(text.charCodeAt(end));
  if (digit < 0) return { value: NaN, end: at };
  for (; digit >= 0; digit = superscriptDigit(text.charCodeAt(end))) {
    value = value * 10 + digit;
    end++;
  }
  return { value: minus ? -value : value, end };
}

/** The powers of a unit that stands alone, in written order; nothing if the whole text is not one unit. */
export function parseUnit(text: string): { powers: { name: string; exponent: number }[] } | undefined {
  const trimmed = text.trim();
  if (alone.read(trimmed, 0, trimmed.length) !== trimmed.length || alone.rewritten.length > 0) return undefined;
  const powers = [];
  for (let i = 0; i < alone.count; i++) powers.push({ name: alone.name(i), exponent: alone.exponent[i] });
  return { powers };
}

const NONE_REWRITTEN: readonly string[] = [];
const alone = new UnitReader();

function isTimes(code: number): boolean {
  return code === 42 || code === 0xb7 || code === 0x22c5;
}

/** A sign that can join a further power to a unit. */
function isJoin(code: number): boolean {
  return code === 47 || isTimes(code);
}

function isMinus(code: number): boolean {
  return code === 45 || code === 0x2212;
}

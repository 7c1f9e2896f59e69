/**
 * What a character can be in a statement. Bits, so that one look-up answers several questions.
 * ASCII is decided here; the rest is asked of Unicode once per character and remembered.
 */
export const enum Class {
  /** Can begin a name: a letter of any script or `_`. */
  Letter = 1,
  /** Can go on in a name: a letter, mark, digit, `_` or subscript digit. */
  Follow = 2,
  /** An ASCII digit. */
  Digit = 4,
  /** Separates: space, tab, line break, and the no-break, thin and narrow spaces of typesetting. */
  Space = 8,
  /** Shows nothing, or turns the direction of writing: U+200B and its kind. */
  Invisible = 16,
  /** `⁻`, `⁰` … `⁹`. */
  Superscript = 32,
  Known = 128,
}

const LETTER = /^\p{L}$/u;
const MARK = /^\p{M}$/u;
const SPACE = /^\p{Zs}$/u;
const SUPERSCRIPT = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const SUPERSCRIPT_MINUS = 0x207b;

/** Zero-width characters, and the controls that change the direction of writing, as first and last code point. */
const INVISIBLE: readonly (readonly [number, number])[] = [
  [0x00ad, 0x00ad],
  [0x061c, 0x061c],
  [0x180e, 0x180e],
  [0x200b, 0x200f],
  [0x202a, 0x202e],
  [0x2060, 0x2064],
  [0x2066, 0x2069],
  [0xfeff, 0xfeff],
];

/** The invisible characters that make text read in another order than it is stored; harmful in comments too. */
const TURNING: readonly (readonly [number, number])[] = [
  [0x202a, 0x202e],
  [0x2066, 0x2069],
];

const classes = new Uint8Array(0x10000);
for (let code = 0; code < 128; code++) classes[code] = classify(code);

/** The class of a UTF-16 code unit. A surrogate has none: see {@link nameLength}. */
export function classOf(code: number): number {
  const known = classes[code];
  return known !== 0 ? known : (classes[code] = classify(code));
}

/**
 * How many code units of a name the character at `at` is: 0 if it cannot belong to a name, 2 beyond the basic plane.
 * @param part {@link Class.Letter} for the first character of a name, {@link Class.Follow} for the others.
 */
export function nameLength(text: string, at: number, part: Class.Letter | Class.Follow): 0 | 1 | 2 {
  if (at >= text.length) return 0;
  const code = text.charCodeAt(at);
  if (code < 0xd800 || code > 0xdfff) return classOf(code) & part ? 1 : 0;
  const point = text.codePointAt(at)!;
  if (point <= 0xffff) return 0;
  const character = String.fromCodePoint(point);
  return LETTER.test(character) || (part === Class.Follow && MARK.test(character)) ? 2 : 0;
}

export function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

export function isTurning(code: number): boolean {
  return within(TURNING, code);
}

/** The value of a superscript digit, or −1. */
export function superscriptDigit(code: number): number {
  return SUPERSCRIPT.indexOf(String.fromCharCode(code));
}

export function isSuperscriptMinus(code: number): boolean {
  return code === SUPERSCRIPT_MINUS;
}

function classify(code: number): number {
  if (isDigit(code)) return Class.Known | Class.Digit | Class.Follow;
  if (code === 0x5f) return Class.Known | Class.Letter | Class.Follow;
  if (code >= 0x2080 && code <= 0x2089) return Class.Known | Class.Follow;
  if (code === 9 || code === 10 || code === 13 || code === 32) return Class.Known | Class.Space;
  if (within(INVISIBLE, code)) return Class.Known | Class.Invisible;
  if (code === SUPERSCRIPT_MINUS || superscriptDigit(code) >= 0) return Class.Known | Class.Superscript;
  const character = String.fromCharCode(code);
  if (LETTER.test(character)) return Class.Known | Class.Letter | Class.Follow;
  if (MARK.test(character)) return Class.Known | Class.Follow;
  if (SPACE.test(character)) return Class.Known | Class.Space;
  return Class.Known;
}

function within(ranges: readonly (readonly [number, number])[], code: number): boolean {
  return ranges.some(([first, last]) => first <= code && code <= last);
}

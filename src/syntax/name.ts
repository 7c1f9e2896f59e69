import { Class, nameLength } from "./character";

/** Words that are never a unit, nor a name inside an expression. After a dot (`parts.from`) any word is a name. */
export const KEYWORDS: ReadonlySet<string> = new Set([
  "and",
  "another",
  "choose",
  "each",
  "else",
  "for",
  "from",
  "if",
  "inside",
  "not",
  "or",
  "readings",
  "sample",
  "satisfy",
  "then",
  "where",
  "without",
]);

/** Words that open a statement, unless `=` follows: then they are names like any other. */
export const OPENING_WORDS: ReadonlySet<string> = new Set([
  "accept",
  "assume",
  "choose",
  "correlation",
  "fab",
  "given",
  "items",
  "let",
  "measured",
  "must",
  "order",
  "over",
  "plot",
  "should",
  "use",
  "variant",
]);

/**
 * The form in which names and units are compared: NFC, which also turns the ohm, kelvin and ångström signs into
 * letters, with the micro sign as the Greek letter, and without invisible characters (they are reported).
 */
export function foldName(text: string): string {
  if (isAscii(text)) return text;
  return text
    .normalize("NFC")
    .replace(/µ/g, "μ")
    .replace(/[\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g, "");
}

/** Whether the whole text is one name. (Whether an expression can use it is another matter: see {@link KEYWORDS}.) */
export function isName(text: string): boolean {
  let at = nameLength(text, 0, Class.Letter);
  if (at === 0) return false;
  while (at < text.length) {
    const length = nameLength(text, at, Class.Follow);
    if (length === 0) return false;
    at += length;
  }
  return true;
}

/**
 * What a name looks like: two different names with the same key can be told apart only by the code points of their
 * letters (Latin, Greek, Cyrillic) or by a subscript digit.
 */
export function lookAlikeKey(name: string): string {
  const folded = foldName(name);
  if (isAscii(folded)) return folded;
  let key = "";
  for (const letter of folded) key += LOOK_ALIKES.get(letter) ?? letter;
  return key;
}

/** Greek and Cyrillic letters, and subscript digits, behind the Latin letter or digit that they cannot be told from. */
const LOOK_ALIKE_LETTERS: Readonly<Record<string, string>> = {
  A: "ΑА",
  B: "ΒВ",
  C: "СϹ",
  E: "ΕЕ",
  H: "ΗН",
  I: "ΙІӀ",
  J: "Ј",
  K: "ΚК",
  M: "ΜМ",
  N: "Ν",
  O: "ΟО",
  P: "ΡР",
  Q: "Ԛ",
  S: "Ѕ",
  T: "ΤТ",
  W: "Ԝ",
  X: "ΧХ",
  Y: "ΥҮ",
  Z: "Ζ",
  a: "а",
  c: "сϲ",
  d: "ԁ",
  e: "е",
  h: "һ",
  i: "і",
  j: "јϳ",
  o: "οо",
  p: "ρр",
  q: "ԛ",
  s: "ѕ",
  v: "ν",
  w: "ԝ",
  x: "хχ",
  y: "у",
  Δ: "∆",
  0: "₀",
  1: "₁",
  2: "₂",
  3: "₃",
  4: "₄",
  5: "₅",
  6: "₆",
  7: "₇",
  8: "₈",
  9: "₉",
};

const LOOK_ALIKES: ReadonlyMap<string, string> = new Map(
  Object.entries(LOOK_ALIKE_LETTERS).flatMap(([latin, others]) => [...others].map((other) => [other, latin] as const)),
);

function isAscii(text: string): boolean {
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) > 127) return false;
  return true;
}

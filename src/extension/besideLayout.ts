/**
 * Where results stand beside lines. Columns are those of a fixed-pitch font.
 */

/** Results start at multiples of this, so that typing seldom shifts them. */
const STEP = 8;
/** The least space between a line and its result: with less, the result reads as part of the line. */
const LEAST_GAP = 2;
/** A phrase longer than this runs out of the window; the hover has all of it. */
const LONGEST = 96;

/** The columns left free between the end of a line and its result. */
export function gapBeside(line: string, tabSize: number): number {
  const end = columnsOf(line, tabSize);
  return Math.ceil((end + LEAST_GAP) / STEP) * STEP - end;
}

/** The columns that a line takes: tabs run to the next tab stop, wide characters take two, marks on a letter none. */
export function columnsOf(line: string, tabSize: number): number {
  if (PLAIN.test(line)) return line.length;
  let columns = 0;
  for (const character of line) {
    if (character === "\t") columns += tabSize - (columns % tabSize);
    else if (!MARK.test(character)) columns += isWide(character.codePointAt(0)!) ? 2 : 1;
  }
  return columns;
}

/** The phrase, cut between words where it is too long to stand beside a line. */
export function cut(phrase: string): string {
  if (phrase.length <= LONGEST) return phrase;
  const space = phrase.lastIndexOf(" ", LONGEST - 2);
  return `${phrase.slice(0, space > LONGEST / 2 ? space : LONGEST - 2).replace(/[\s,;]+$/, "")} …`;
}

const PLAIN = /^[\x20-\x7e]*$/;
const MARK = /^[\p{Mn}\p{Me}\p{Cf}]$/u;

function isWide(code: number): boolean {
  return code >= WIDE[0][0] && WIDE.some(([first, last]) => first <= code && code <= last);
}

/** Blocks of wide and full-width characters, after Unicode Standard Annex 11, in ascending order. */
const WIDE: readonly (readonly [first: number, last: number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x4dbf],
  [0x4e00, 0xa4cf],
  [0xa960, 0xa97f],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff01, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
];

/** Text for a terminal or a log: wrapped, aligned, and free of anything that a terminal would obey. */

/** Holds words together when lines are broken; it is printed as a space. */
export const NO_BREAK = "\u00A0";

/**
 * Lines of the text, none wider than `width` columns but for single words that are; `indent` goes before each. What
 * stands in code marks is held together where it fits on a line.
 */
export function wrap(text: string, width: number, indent: string): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of boundCode(text, width - columnsOf(indent)).split(" ")) {
    if (line !== "" && columnsOf(indent) + columnsOf(line) + 1 + columnsOf(word) > width) {
      // Where two spaces set a remark off, one of them is left at the end.
      lines.push(indent + line.trimEnd());
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(indent + line);
  return lines.map((line) => line.replaceAll(NO_BREAK, " "));
}

function boundCode(text: string, room: number): string {
  // A sign behind the code, such as a full stop, goes with it.
  return text.replace(/`[^`]*`\S*/g, (code) => (columnsOf(code) <= room ? code.replaceAll(" ", NO_BREAK) : code));
}

/** Rows set in columns, two spaces apart; nothing is padded at the end of a line. */
export function align(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => (widths[i] = Math.max(widths[i] ?? 0, columnsOf(cell))));
  }
  return rows.map((row) =>
    row
      .map((cell, i) => cell + " ".repeat(widths[i] - columnsOf(cell)))
      .join("  ")
      .trimEnd(),
  );
}

/** The columns that a text takes: none for combining and zero-width characters, two for wide ones. */
export function columnsOf(text: string): number {
  let columns = 0;
  for (const character of text) {
    if (NARROWEST.test(character)) continue;
    columns += WIDE.test(character) ? 2 : 1;
  }
  return columns;
}

const NARROWEST = /^[\p{Mn}\p{Me}\p{Cf}]$/u;
const WIDE = /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}！-～]$/u;

/**
 * The text on one line, with U+FFFD for control characters and marks of direction: a note or a file name from anywhere
 * must not move the cursor, colour the screen or reorder what is read.
 */
export function printable(text: string): string {
  return text
    .replace(/\s*[\r\n]\s*/g, " ")
    .replace(/\t/g, " ")
    .replace(COMMANDING, "\uFFFD");
}

// eslint-disable-next-line no-control-regex -- control characters are what is looked for.
const COMMANDING = /[\u0000-\u001F\u007F-\u009F\u061C\u200E\u200F\u2028\u2029\u202A-\u202E\u2066-\u2069]/g;

import { Character, isDigit, isSpace, skipRun, skipSpaces } from "./character";
import type { Line } from "./line";

/** The level of the ATX heading that the line is, or 0 (CommonMark 4.2). */
export function headingLevel(text: string, line: Line): number {
  const end = skipRun(text, line.content, line.end, Character.Hash);
  const level = end - line.content;
  if (level < 1 || level > 6) return 0;
  return end === line.end || isSpace(text.charCodeAt(end)) ? level : 0;
}

/** The level of the heading that the line underlines, or 0 (CommonMark 4.3). */
export function underlineLevel(text: string, line: Line): number {
  const marker = text.charCodeAt(line.content);
  if (marker !== Character.Equals && marker !== Character.Minus) return 0;
  const end = skipRun(text, line.content, line.end, marker);
  if (skipSpaces(text, end, line.end) < line.end) return 0;
  return marker === Character.Equals ? 1 : 2;
}

/** How many markers open the fence that begins on the line, or 0 (CommonMark 4.5). */
export function fenceLength(text: string, line: Line): number {
  const marker = text.charCodeAt(line.content);
  if (marker !== Character.Backtick && marker !== Character.Tilde) return 0;
  const end = skipRun(text, line.content, line.end, marker);
  const length = end - line.content;
  if (length < 3) return 0;
  if (marker === Character.Backtick) {
    for (let at = end; at < line.end; at++) if (text.charCodeAt(at) === Character.Backtick) return 0;
  }
  return length;
}

/** Whether the line closes a fence opened by `length` markers. */
export function closesFence(text: string, line: Line, marker: number, length: number): boolean {
  const end = skipRun(text, line.content, line.end, marker);
  return end - line.content >= length && skipSpaces(text, end, line.end) === line.end;
}

/** Tells thematic breaks (CommonMark 4.1). */
export class ThematicBreaks {
  private failedAt = -1;

  /**
   * Whether the line's content is a thematic break. A line such as `- - - - x` is asked again for every list it opens;
   * what stopped the last search stops all that begin between, so each character is looked at once.
   */
  test(text: string, line: Line): boolean {
    const marker = text.charCodeAt(line.content);
    if (marker !== Character.Minus && marker !== Character.Asterisk && marker !== Character.Underscore) return false;
    if (this.failedAt > line.content && this.failedAt < line.end) return false;
    let count = 0;
    for (let at = line.content; at < line.end; at++) {
      const code = text.charCodeAt(at);
      if (code === marker) count++;
      else if (!isSpace(code)) {
        this.failedAt = at;
        return false;
      }
    }
    return count >= 3;
  }
}

/** The offset behind the list marker that the line begins with, or -1 (CommonMark 5.2). */
export function listMarkerEnd(text: string, line: Line): number {
  let at = line.content;
  const first = text.charCodeAt(at);
  if (isDigit(first)) {
    while (at < line.end && isDigit(text.charCodeAt(at))) if (++at - line.content > 9) return -1;
    const delimiter = at < line.end ? text.charCodeAt(at) : 0;
    if (delimiter !== Character.Dot && delimiter !== Character.RightParenthesis) return -1;
  } else if (first !== Character.Minus && first !== Character.Asterisk && first !== Character.Plus) return -1;
  at++;
  return at >= line.end || isSpace(text.charCodeAt(at)) ? at : -1;
}

/** Whether a list that begins on the line may interrupt a paragraph: it has content, and its number, if any, is 1. */
export function mayInterruptParagraph(text: string, line: Line, markerEnd: number): boolean {
  if (skipSpaces(text, markerEnd, line.end) === line.end) return false;
  return !isDigit(text.charCodeAt(line.content)) || Number(text.slice(line.content, markerEnd - 1)) === 1;
}

import { Character, isSpace, skipSpaces } from "./character";
import { destinationEnd, isAcceptedDestination, titleClose, titleCloser } from "./link";

/** The longest label, in code points (CommonMark 4.7). */
const LONGEST_LABEL = 999;

/** The lines that a paragraph begun at the first of them would have, one at a time. */
export interface ParagraphLines {
  readonly content: number;
  readonly end: number;
  /** Moves to the next line, or stays and says no if the paragraph ends here. */
  next(): boolean;
}

/**
 * How many lines the link reference definition takes that begins with the lines given, or 0 if there is none
 * (CommonMark 4.7). As in markdown-it a definition is a block of its own: what follows it does not continue it, so that
 * an indented line there is indented code.
 */
export function referenceDefinitionLines(text: string, lines: ParagraphLines): number {
  return new Reader(text, lines).read();
}

class Reader {
  private at: number;
  private lineCount = 1;

  constructor(
    private readonly text: string,
    private readonly lines: ParagraphLines,
  ) {
    this.at = lines.content;
  }

  read(): number {
    if (!this.readLabel()) return 0;
    this.skipSpace();
    const start = this.at;
    this.at = destinationEnd(this.text, start, this.lines.end);
    if (this.at < 0 || !isAcceptedDestination(this.text.slice(start, this.at))) return 0;
    const withoutTitle = this.restIsBlank() ? this.lineCount : 0;
    const destinationStop = this.at;
    const destinationLine = this.lineCount;
    this.skipSpace();
    if (this.at === destinationStop && this.lineCount === destinationLine) return withoutTitle;
    const title = this.readTitle();
    if (title === "none") return withoutTitle;
    if (this.restIsBlank()) return this.lineCount;
    // markdown-it falls back on the definition without a title, but not from an empty one.
    return title === "empty" ? 0 : withoutTitle;
  }

  private readLabel(): boolean {
    const { text, lines } = this;
    if (text.charCodeAt(this.at) !== Character.LeftBracket) return false;
    let label = "";
    let start = ++this.at;
    for (;;) {
      if (label.length + this.at - start > 2 * LONGEST_LABEL) return false;
      if (this.at >= lines.end) {
        label += `${text.slice(start, lines.end)}\n`;
        if (!this.nextLine()) return false;
        start = this.at;
        continue;
      }
      const code = text.charCodeAt(this.at);
      if (code === Character.LeftBracket) return false;
      if (code === Character.RightBracket) break;
      this.at += code === Character.Backslash && this.at + 1 < lines.end ? 2 : 1;
    }
    label += text.slice(start, this.at);
    if (this.at + 1 >= lines.end || text.charCodeAt(this.at + 1) !== Character.Colon) return false;
    this.at += 2;
    return label.trim() !== "" && (label.length <= LONGEST_LABEL || [...label].length <= LONGEST_LABEL);
  }

  private readTitle(): "none" | "empty" | "some" {
    const { text, lines } = this;
    const closer = this.at < lines.end ? titleCloser(text.charCodeAt(this.at)) : 0;
    if (closer === 0) return "none";
    const start = ++this.at;
    for (;;) {
      const close = titleClose(text, this.at, lines.end, closer);
      if (close < 0) return "none";
      if (close < lines.end) {
        this.at = close + 1;
        return close === start ? "empty" : "some";
      }
      if (!this.nextLine()) return "none";
    }
  }

  private restIsBlank(): boolean {
    return skipSpaces(this.text, this.at, this.lines.end) === this.lines.end;
  }

  /** Skips spaces, tabs and the line breaks among them as far as the paragraph goes. */
  private skipSpace(): void {
    for (;;) {
      while (this.at < this.lines.end && isSpace(this.text.charCodeAt(this.at))) this.at++;
      if (this.at < this.lines.end || !this.nextLine()) return;
    }
  }

  private nextLine(): boolean {
    if (!this.lines.next()) return false;
    this.lineCount++;
    this.at = this.lines.content;
    return true;
  }
}

import { Character, isSpace } from "./character";

/**
 * The inline Markdown of one paragraph, heading or table cell, gathered from the lines it stands on, with the way back
 * from its characters to those of the note.
 */
export class InlineText {
  text = "";
  private readonly starts: number[] = [];
  private readonly sources: number[] = [];

  /** Adds a stretch of the note. */
  add(note: string, start: number, end: number): void {
    this.starts.push(this.text.length);
    this.sources.push(start);
    this.text += note.slice(start, end);
  }

  /** Adds characters that the note does not hold as such; they stand for the one at `source`. */
  addInstead(text: string, source: number): void {
    for (const character of text) {
      this.starts.push(this.text.length);
      this.sources.push(source);
      this.text += character;
    }
  }

  trimEnd(): void {
    let end = this.text.length;
    while (end > 0 && isTrimmed(this.text.charCodeAt(end - 1))) end--;
    this.text = this.text.slice(0, end);
  }

  /** The offset in the note of one of the text's characters. */
  sourceOf(index: number): number {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle] <= index) low = middle;
      else high = middle - 1;
    }
    return this.sources[low] + index - this.starts[low];
  }
}

function isTrimmed(code: number): boolean {
  return isSpace(code) || code === Character.LineFeed;
}

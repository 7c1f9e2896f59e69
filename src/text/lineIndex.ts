/** A place as editors count it: line and UTF-16 column, both from 0. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Where the lines of a text begin. LF, CRLF and a lone CR end a line, as in CommonMark. */
export class LineIndex {
  private readonly starts: number[] = [0];

  constructor(private readonly text: string) {
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (code === 10 || (code === 13 && text.charCodeAt(i + 1) !== 10)) this.starts.push(i + 1);
    }
  }

  get lineCount(): number {
    return this.starts.length;
  }

  /** The line, from 0, on which an offset lies. */
  lineAt(offset: number): number {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle] <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  lineStart(line: number): number {
    return this.starts[line];
  }

  /** The offset behind the last character of a line, its line break left out. */
  lineEnd(line: number): number {
    if (line + 1 >= this.starts.length) return this.text.length;
    let end = this.starts[line + 1] - 1;
    if (end > this.starts[line] && this.text.charCodeAt(end) === 10 && this.text.charCodeAt(end - 1) === 13) end--;
    return end;
  }

  positionAt(offset: number): Position {
    const line = this.lineAt(offset);
    return { line, column: offset - this.starts[line] };
  }

  /** The offset of a place; a line or column past the end gives the end of the text or of the line. */
  offsetAt({ line, column }: Position): number {
    if (line >= this.starts.length) return this.text.length;
    return Math.min(this.starts[line] + column, this.lineEnd(line));
  }
}

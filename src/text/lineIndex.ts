/** A place as editors count it: line and UTF-16 column, both from 0. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Where the lines of a text begin. LF, CRLF and a lone CR end a line, as in CommonMark. */
export class LineIndex {
  private readonly starts: readonly number[];

  constructor(private readonly text: string) {
    this.starts = lineStarts(text);
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

/** Searched with `indexOf`, which looks at many characters at once: few notes hold a CR, most lines hold no other break. */
function lineStarts(text: string): number[] {
  const starts = [0];
  let carriageReturn = text.indexOf("\r");
  for (let lineFeed = text.indexOf("\n"); lineFeed >= 0; lineFeed = text.indexOf("\n", lineFeed + 1)) {
    for (; carriageReturn >= 0 && carriageReturn < lineFeed; carriageReturn = text.indexOf("\r", carriageReturn + 1))
      if (carriageReturn + 1 < lineFeed) starts.push(carriageReturn + 1);
    starts.push(lineFeed + 1);
  }
  for (; carriageReturn >= 0; carriageReturn = text.indexOf("\r", carriageReturn + 1)) starts.push(carriageReturn + 1);
  return starts;
}

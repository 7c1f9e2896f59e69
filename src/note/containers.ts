import { type Line, type LineReader, stripQuoteMarker } from "./line";

/** An open block quote or list item. */
export interface Container {
  readonly isQuote: boolean;
  /** The column at which a list item's content begins; 0 in a quote, whose lines are counted from behind its marker. */
  indent: number;
  /** The indent of what holds the list. */
  readonly listIndent: number;
  /** The character that tells one list from the next: a bullet, or what stands behind the number. */
  marker: number;
  /** Nothing has been opened in it yet. */
  isEmpty: boolean;
}

/** A list item that no line can continue: only its list may go on. */
const CLOSED = Infinity;

/** The open containers, from the outermost to the innermost. */
export class Containers {
  private readonly open: Container[] = [];
  /** Where the quotes stand in `open`, so that a blank line, which continues every list item, need not look at them. */
  private readonly quotes: number[] = [];
  private continuedQuotes = 0;

  constructor(private readonly reader: LineReader) {}

  get depth(): number {
    return this.open.length;
  }

  get quoteDepth(): number {
    return this.quotes.length;
  }

  get outermost(): Container | undefined {
    return this.open[0];
  }

  get innermost(): Container | undefined {
    return this.open[this.open.length - 1];
  }

  /** The column from which the innermost container counts. */
  get indent(): number {
    return this.innermost?.indent ?? 0;
  }

  pushQuote(): void {
    this.quotes.push(this.open.length);
    this.open.push({ isQuote: true, indent: 0, listIndent: -1, marker: 0, isEmpty: true });
  }

  pushItem(indent: number, marker: number): void {
    this.open.push({ isQuote: false, indent, listIndent: this.indent, marker, isEmpty: true });
  }

  /** Closes all but the outermost so many; the outermost of those closed. */
  closeFrom(depth: number): Container | undefined {
    const closed = this.open[depth];
    this.open.length = Math.min(this.open.length, depth);
    while (this.quotes.length > 0 && this.quotes[this.quotes.length - 1] >= depth) this.quotes.pop();
    return closed;
  }

  /** Reads the line at an offset and cuts off the markers of the quotes it continues; how many containers it continues. */
  match(line: Line, at: number): number {
    this.reader.read(line, at);
    this.continuedQuotes = 0;
    for (let depth = 0; depth < this.open.length; depth++) {
      if (line.isBlank) return this.quotes[this.continuedQuotes] ?? this.open.length;
      const container = this.open[depth];
      if (container.isQuote) {
        if (!stripQuoteMarker(this.reader.text, line)) return depth;
        this.continuedQuotes++;
      } else if (line.indent < container.indent) return depth;
    }
    return this.open.length;
  }

  /** How many quotes the line matched last does not continue. */
  get quotesLeft(): number {
    return this.quotes.length - this.continuedQuotes;
  }

  /** What holds the outermost quote that the line matched last does not continue. */
  get holderOfQuoteLeft(): Container | undefined {
    return this.open[this.quotes[this.continuedQuotes] - 1];
  }

  /** Continues one more quote with a line that has continued so many; whether that could be done. */
  continueQuote(line: Line, continued: number): boolean {
    const holder = this.open[this.quotes[continued] - 1] as Container | undefined;
    return line.indent >= (holder?.indent ?? 0) && stripQuoteMarker(this.reader.text, line);
  }

  /**
   * Takes note of a blank line in the innermost container. A list item that begins with a blank line holds no more than
   * that one: a second ends the item, a third its list (CommonMark 5.2).
   */
  passBlankLine(): void {
    const item = this.innermost;
    if (item === undefined || item.isQuote || !item.isEmpty) return;
    if (item.indent === CLOSED) item.marker = 0;
    item.indent = CLOSED;
  }
}

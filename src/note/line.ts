import { Character, isSpace } from "./character";
import { Seeker } from "./seeker";

/** One line as its innermost open container sees it: list indentation counted, the markers of its quotes cut off. */
export class Line {
  /** Where the line begins in the text. */
  textStart = 0;
  /** Where it begins for the innermost quote: behind the quote's marker. */
  start = 0;
  /** Its first character that is neither space nor tab; the end if there is none. */
  content = 0;
  /** Where the line ends, its line break left out. */
  end = 0;
  /** Where the next line begins. */
  next = 0;
  /** The columns from `start` to `content`. */
  indent = 0;
  /** The columns that `start` is taken to be away from a tab stop. */
  tabOffset = 0;

  get isBlank(): boolean {
    return this.content >= this.end;
  }

  copy(from: Line): void {
    this.textStart = from.textStart;
    this.start = from.start;
    this.content = from.content;
    this.end = from.end;
    this.next = from.next;
    this.indent = from.indent;
    this.tabOffset = from.tabOffset;
  }
}

/** Reads the lines of a text. LF, CRLF and a lone CR end a line. */
export class LineReader {
  private readonly lineFeeds: Seeker;
  private readonly carriageReturns: Seeker;

  constructor(readonly text: string) {
    this.lineFeeds = new Seeker(text, "\n");
    this.carriageReturns = new Seeker(text, "\r");
  }

  /** Reads the line that begins at an offset, as the document itself sees it. */
  read(line: Line, at: number): void {
    const text = this.text;
    const lineFeed = this.lineFeeds.from(at);
    const carriageReturn = this.carriageReturns.from(at);
    const end = Math.min(lineFeed, carriageReturn);
    line.textStart = line.start = at;
    line.end = end;
    line.next = end >= text.length ? end : end + 1 === lineFeed ? end + 2 : end + 1;
    line.tabOffset = 0;
    let content = at;
    let indent = 0;
    for (; content < end; content++) {
      const code = text.charCodeAt(content);
      if (code === Character.Space) indent++;
      else if (code === Character.Tab) indent += 4 - (indent & 3);
      else break;
    }
    line.content = content;
    line.indent = indent;
  }
}

/**
 * Cuts the marker `>` and one column of space behind it off the line; false, and nothing done, if there is none.
 * Tab stops behind the marker are counted as markdown-it counts them, from the innermost quote alone.
 */
export function stripQuoteMarker(text: string, line: Line): boolean {
  if (line.isBlank || text.charCodeAt(line.content) !== Character.GreaterThan) return false;
  const columnOfMarker = line.indent;
  let start = line.content + 1;
  let origin = columnOfMarker + 1;
  let hasSpace = false;
  let keptTab = 0;
  const follower = start < line.end ? text.charCodeAt(start) : 0;
  if (isSpace(follower)) {
    hasSpace = true;
    if (follower === Character.Space || ((line.tabOffset + origin) & 3) === 3) {
      start++;
      origin++;
    } else keptTab = 1;
  }
  let column = origin;
  let content = start;
  for (; content < line.end; content++) {
    const code = text.charCodeAt(content);
    if (code === Character.Space) column++;
    else if (code === Character.Tab) column += 4 - ((column + line.tabOffset + keptTab) & 3);
    else break;
  }
  line.start = start;
  line.content = content;
  line.indent = column - origin;
  line.tabOffset = columnOfMarker + (hasSpace ? 2 : 1);
  return true;
}

import type { Span } from "../text/span";

/**
 * A top-level Markdown block with the blank lines behind it. Blocks partition the text: each runs from where the last
 * one ends. All spans inside count from the block's start, so that an edit above moves nothing. Blocks are immutable.
 */
export type Block = CalculationBlock | ProseBlock;

/** One indented code block whose parent is the document: the lines that compute. */
export interface CalculationBlock {
  readonly kind: "calculation";
  readonly length: number;
  /** Its non-blank lines: whole lines, indentation included, without their line breaks. */
  readonly lines: readonly Span[];
}

/** Any other block: paragraph, list, quote, fence, HTML, heading, table, link reference definition, front matter. */
export interface ProseBlock {
  readonly kind: "prose";
  readonly length: number;
  /** The headings whose parent is the document, ATX and setext. */
  readonly headings: readonly Heading[];
  /** The task items of lists, however deep. */
  readonly tasks: readonly TaskItem[];
  /** The code spans of paragraphs, headings, list items and table cells. */
  readonly codeSpans: readonly CodeSpan[];
  /** The lines that do not compute but look as if they were meant to. */
  readonly traps: readonly Trap[];
  /** The pipe tables whose parent is the document, from the first character of the header row to the end of the last. */
  readonly tables: readonly Span[];
  /**
   * How far from its start the scan looked to decide this block, given only where that is past the block's end: an edit
   * anywhere before can change it. It happens where a link reference definition or front matter could have gone on.
   */
  readonly reach?: number;
}

export interface Heading {
  /** From the first character of the heading to the end of its last line. */
  readonly span: Span;
  /** From 1 to 6. */
  readonly level: number;
  /** The heading's Markdown, without markers. */
  readonly text: string;
}

/** A list item that opens with `[ ]` or `[x]`. */
export interface TaskItem {
  /** From the opening bracket to the end of the paragraph. */
  readonly span: Span;
  readonly checked: boolean;
  /** The opening word before a colon, in any case. */
  readonly word?: "must" | "should";
  /** What follows the box and the word, its lines joined by single spaces. */
  readonly text: string;
}

export interface CodeSpan {
  /** The content, without backticks and the one space that CommonMark strips at either end. */
  readonly span: Span;
  /** The content with its line breaks as spaces. */
  readonly text: string;
}

/** A line indented by four columns or more that does not compute. Whether it reads as a statement is judged elsewhere. */
export interface Trap {
  /** It continues the paragraph above, or it belongs to the list above. */
  readonly kind: "afterParagraph" | "inList";
  /** The line without indentation and line break. */
  readonly span: Span;
  /** Where the fix inserts, counted from the block's start. */
  readonly insertAt: number;
  /** What the fix inserts, in the line break style of the text: a blank line, or a comment that ends the list. */
  readonly insert: string;
}

import type { Span } from "../text/span";
import type { Block, CalculationBlock } from "./block";
import { BlockBuilder } from "./blockBuilder";
import {
  closesFence,
  fenceLength,
  headingLevel,
  listMarkerEnd,
  mayInterruptParagraph,
  ThematicBreaks,
  underlineLevel,
} from "./blockStarts";
import { Character, isDigit, isSpace } from "./character";
import { type Container, Containers } from "./containers";
import { frontMatter } from "./frontMatter";
import { type HtmlBlockKind, htmlBlockKind } from "./htmlBlock";
import { InlineText } from "./inlineText";
import { Line, LineReader, stripQuoteMarker } from "./line";
import { cellCount, cellSpans, cellText, delimiterColumns, tableColumns } from "./pipeTable";
import { referenceDefinitionLines } from "./referenceDefinition";
import { Seeker } from "./seeker";

/** What a line would interrupt: it decides which blocks may begin on it. */
type Interrupted = "paragraph" | "definition" | "quote" | "table";

/** The cells that a table may leave out before markdown-it takes it for an attack and ends it. */
const MOST_MISSING_CELLS = 65536;

/**
 * Reads top-level Markdown blocks, each line once from its margin inwards, in time linear in the text. The rules are
 * CommonMark's; where markdown-it reads a document in another way, this follows markdown-it, so that the lines which
 * compute are those it shows as indented code. In particular:
 * - a line inside the margin of a list ends the paragraph there, if it begins a block, however deep it is indented;
 * - a line whose first character is `>` continues a quote, however deep it is indented;
 * - a link reference definition is a block: what follows does not continue it.
 */
export class BlockScanner {
  private readonly reader: LineReader;
  private readonly containers: Containers;
  private readonly builder: BlockBuilder;
  private readonly pipes: Seeker;
  private readonly backticks: Seeker;
  private readonly thematicBreaks = new ThematicBreaks();
  private readonly line = new Line();
  private readonly ahead = new Line();
  private readonly candidate = new Line();
  /** The line after the one in question, as far as its quotes have been cut off. */
  private readonly peeked = new Line();
  private peekedAt = -1;
  private peekedQuotes = 0;
  /** Where the first line begins that no block has taken yet. */
  private at = 0;
  private markerOnLine = false;
  /** The lines of a paragraph by threes: columns left of a tab cut in two, where the line's text starts and ends. */
  private readonly gathered: number[] = [];
  /** How far a look ahead has gone. */
  private reach = 0;

  constructor(private readonly text: string) {
    this.reader = new LineReader(text);
    this.containers = new Containers(this.reader);
    this.builder = new BlockBuilder(text);
    this.pipes = new Seeker(text, "|");
    this.backticks = new Seeker(text, "`");
  }

  /** The block that begins at an offset, which must be 0 or the end of another block. */
  scanBlock(start: number): Block {
    this.at = start;
    this.reach = 0;
    this.builder.begin(start);
    if (start === 0) {
      const { span, reach } = frontMatter(this.reader);
      this.reach = reach;
      if (span !== undefined) this.at = span.end;
    }
    if (this.at === start) {
      this.reader.read(this.line, start);
      if (!this.line.isBlank) {
        if (this.line.indent >= 4) return this.calculation(start);
        this.prose();
      }
    }
    this.skipBlankLines();
    return this.builder.finish(this.at, this.reach);
  }

  private calculation(start: number): CalculationBlock {
    const { line, text } = this;
    const lines: Span[] = [];
    while (line.isBlank || line.indent >= 4) {
      if (!line.isBlank) lines.push({ start: line.start - start, end: line.end - start });
      this.at = line.next;
      if (this.at >= text.length) break;
      this.reader.read(line, this.at);
    }
    return { kind: "calculation", length: this.at - start, lines };
  }

  private skipBlankLines(): void {
    while (this.at < this.text.length) {
      this.reader.read(this.line, this.at);
      if (!this.line.isBlank) return;
      this.at = this.line.next;
    }
  }

  private prose(): void {
    do {
      this.openBlocks();
    } while (this.containers.depth > 0 && this.resume());
    this.containers.closeFrom(0);
  }

  /** Finds the next line that goes on in an open container; false if the text or the outermost container ends first. */
  private resume(): boolean {
    const { line, containers } = this;
    while (this.at < this.text.length) {
      const matched = containers.match(line, this.at);
      this.peekedAt = -1;
      this.markerOnLine = false;
      const depth = containers.depth;
      const closed = containers.closeFrom(matched);
      if (line.isBlank) {
        if (matched === depth) containers.passBlankLine();
        else if (containers.depth === 0) return false;
        this.at = line.next;
        continue;
      }
      if (closed !== undefined && !closed.isQuote && this.continuesList(closed)) return true;
      return containers.depth > 0;
    }
    return false;
  }

  private continuesList(item: Container): boolean {
    const { line, text } = this;
    if (line.indent - item.listIndent >= 4) return false;
    if (fenceLength(text, line) > 0 || this.thematicBreaks.test(text, line)) return false;
    const markerEnd = listMarkerEnd(text, line);
    if (markerEnd < 0 || text.charCodeAt(markerEnd - 1) !== item.marker) return false;
    this.openItem(markerEnd);
    return true;
  }

  /** Opens the containers that begin on the line, and takes the block inside them to its end. */
  private openBlocks(): void {
    const { line, containers, text } = this;
    while (!line.isBlank) {
      const parent = containers.innermost;
      const isFirst = parent?.isEmpty ?? false;
      if (parent !== undefined) parent.isEmpty = false;
      const indent = line.indent - containers.indent;
      const columns = this.columnsOfTable(line);
      if (columns > 0) return this.table(columns);
      if (indent >= 4) return this.code();
      const fence = fenceLength(text, line);
      if (fence > 0) return this.fence(fence);
      if (this.openQuote()) continue;
      if (this.thematicBreaks.test(text, line)) return this.takeLine();
      const markerEnd = listMarkerEnd(text, line);
      if (markerEnd >= 0) {
        this.openItem(markerEnd);
        continue;
      }
      return this.leaf(isFirst);
    }
    this.takeLine();
  }

  private leaf(isFirst: boolean): void {
    const { line, text } = this;
    const first = text.charCodeAt(line.content);
    if (first === Character.LeftBracket && this.definition()) return;
    if (first === Character.LessThan) {
      const kind = htmlBlockKind(text.slice(line.content, line.end));
      if (kind !== undefined) return this.html(kind);
    }
    const level = headingLevel(text, line);
    if (level > 0) this.heading(level);
    else this.paragraph(isFirst);
  }

  private takeLine(): void {
    this.at = this.line.next;
  }

  private openQuote(): boolean {
    if (!stripQuoteMarker(this.text, this.line)) return false;
    this.containers.pushQuote();
    this.markerOnLine = true;
    return true;
  }

  private openItem(markerEnd: number): void {
    const { line, text, containers } = this;
    const columnBehindMarker = line.indent + markerEnd - line.content;
    let column = columnBehindMarker;
    let content = markerEnd;
    for (; content < line.end; content++) {
      const code = text.charCodeAt(content);
      if (code === Character.Tab) column += 4 - ((column + line.tabOffset) & 3);
      else if (code === Character.Space) column++;
      else break;
    }
    const space = column - columnBehindMarker;
    const indent = columnBehindMarker + (content >= line.end || space > 4 ? 1 : space);
    containers.pushItem(indent, text.charCodeAt(markerEnd - 1));
    line.content = content;
    line.indent = column;
    this.markerOnLine = true;
  }

  /** Moves to the next line if it continues every open container. */
  private nextInside(): boolean {
    return this.at < this.text.length && this.containers.match(this.line, this.at) === this.containers.depth;
  }

  private code(): void {
    const { line, containers } = this;
    do {
      if (!line.isBlank) this.noteTrap();
      this.takeLine();
    } while (this.nextInside() && (line.isBlank || line.indent - containers.indent >= 4));
  }

  private fence(length: number): void {
    const { line, text, containers } = this;
    const marker = text.charCodeAt(line.content);
    this.takeLine();
    while (this.nextInside()) {
      this.takeLine();
      if (line.indent - containers.indent < 4 && closesFence(text, line, marker, length)) return;
    }
  }

  private html(kind: HtmlBlockKind): void {
    const { line, text } = this;
    do {
      if (line.isBlank && kind.closes === undefined) return;
      this.takeLine();
      if (kind.closes?.test(text.slice(line.content, line.end))) return;
    } while (this.nextInside());
  }

  private heading(level: number): void {
    const { line, text } = this;
    const start = line.content;
    let end = trimmedEnd(text, start + level, line.end);
    let beforeHashes = end;
    while (beforeHashes > start + level && text.charCodeAt(beforeHashes - 1) === Character.Hash) beforeHashes--;
    if (isSpace(text.charCodeAt(beforeHashes - 1))) end = beforeHashes;
    const inline = new InlineText();
    let content = start + level;
    while (content < end && isSpace(text.charCodeAt(content))) content++;
    inline.add(text, content, Math.max(content, end));
    inline.trimEnd();
    this.takeLine();
    if (this.containers.depth === 0) this.builder.addHeading(start, line.end, level, inline.text);
    if (this.backticks.from(start) < line.end) this.builder.addCodeSpans(inline);
  }

  private table(columns: number): void {
    const { line, containers, text } = this;
    const start = line.content;
    this.row(columns);
    containers.match(line, this.at);
    let end = line.end;
    this.takeLine();
    let missing = 0;
    while (this.nextInside() && !line.isBlank && line.indent - containers.indent < 4) {
      if (this.interrupts(line, line.indent, containers.innermost, "table")) break;
      if (text.slice(line.content, line.end).trim() === "") break;
      missing += columns - cellCount(text, line);
      if (missing > MOST_MISSING_CELLS) break;
      end = this.row(columns);
    }
    if (containers.depth === 0) this.builder.addTable(start, end);
  }

  /** Takes a row of a table, and of its cells as many as the table has columns; the row's end. */
  private row(columns: number): number {
    const { line, text } = this;
    if (this.backticks.from(line.content) < line.end) {
      for (const cell of cellSpans(text, line).slice(0, columns)) this.builder.addCodeSpans(cellText(text, cell));
    }
    this.takeLine();
    return line.end;
  }

  private definition(): boolean {
    const { line, ahead } = this;
    ahead.copy(line);
    const lines = {
      get content() {
        return ahead.content;
      },
      get end() {
        return ahead.end;
      },
      next: () => this.moveAhead(),
    };
    const count = referenceDefinitionLines(this.text, lines);
    if (count === 0) return false;
    for (let taken = 0; taken < count; taken++) {
      if (taken > 0) this.containers.match(line, this.at);
      this.takeLine();
    }
    return true;
  }

  private moveAhead(): boolean {
    const { ahead, candidate } = this;
    if (ahead.next >= this.text.length) return false;
    this.containers.match(candidate, ahead.next);
    this.reach = Math.max(this.reach, candidate.next);
    if (!this.joinsParagraph(candidate, "definition")) return false;
    ahead.copy(candidate);
    return true;
  }

  private paragraph(isFirst: boolean): void {
    const { line, text, containers, builder } = this;
    const start = line.content;
    this.gathered.length = 0;
    this.gathered.push(0, start, line.end);
    if (containers.depth > 0 && !this.markerOnLine) this.noteTrap();
    this.takeLine();
    let end = line.end;
    let level = 0;
    while (this.at < text.length) {
      const matched = containers.match(line, this.at);
      const isInside = matched === containers.depth && !line.isBlank && line.indent - containers.indent < 4;
      level = isInside ? underlineLevel(text, line) : 0;
      if (level === 0 && !this.joinsParagraph(line, "paragraph")) break;
      this.markerOnLine = false;
      this.takeLine();
      end = line.end;
      if (level > 0) break;
      this.noteTrap();
      this.gatherContinuation();
    }
    const isHeading = level > 0 && containers.depth === 0;
    const isTask = level === 0 && isFirst && this.mayBeTask(start);
    const hasCode = this.backticks.from(start) < end;
    if (!isHeading && !isTask && !hasCode) return;
    const inline = this.inlineText();
    if (isHeading) builder.addHeading(start, end, level, inline.text);
    if (isTask) builder.addTask(inline);
    if (hasCode) builder.addCodeSpans(inline);
  }

  private mayBeTask(start: number): boolean {
    return this.text.charCodeAt(start) === Character.LeftBracket && this.containers.innermost?.isQuote === false;
  }

  /** Gathers a paragraph's line, the indentation that is its container's left out as far as it has it. */
  private gatherContinuation(): void {
    const { line, text, containers } = this;
    let from = line.start;
    let column = 0;
    for (; from < line.content && column < containers.indent; from++) {
      if (text.charCodeAt(from) === Character.Tab) column += 4 - ((column + line.tabOffset) & 3);
      else column++;
    }
    this.gathered.push(Math.max(column - containers.indent, 0), from, line.end);
  }

  /** The inline Markdown of the lines gathered. */
  private inlineText(): InlineText {
    const { gathered, text } = this;
    const inline = new InlineText();
    for (let index = 0; index < gathered.length; index += 3) {
      const [partOfTab, start, end] = [gathered[index], gathered[index + 1], gathered[index + 2]];
      if (index > 0) inline.addInstead("\n", gathered[index - 1]);
      if (partOfTab > 0) inline.addInstead(" ".repeat(partOfTab), start - 1);
      inline.add(text, start, end);
    }
    inline.trimEnd();
    return inline;
  }

  private noteTrap(): void {
    const { line, containers } = this;
    if (line.indent < 4 || line.start !== line.textStart || this.markerOnLine) return;
    // A delimiter row is no statement, and a blank line in front of it could change where the list above ends.
    if (delimiterColumns(this.text, line) > 0) return;
    const outermost = containers.outermost;
    this.builder.addTrap(outermost === undefined || outermost.isQuote ? "afterParagraph" : "inList", line);
  }

  /** Whether the line that was matched last continues a paragraph in the innermost container, if lazily. */
  private joinsParagraph(line: Line, paragraph: "paragraph" | "definition"): boolean {
    const { containers } = this;
    if (line.isBlank) return false;
    if (containers.quotesLeft > 0) {
      const holder = containers.holderOfQuoteLeft;
      if (this.interrupts(line, line.indent, holder, "quote")) return false;
      // The quotes inside that one see the line as outside of them all.
      return containers.quotesLeft === 1 || !this.interrupts(line, -1, undefined, "quote");
    }
    if (line.indent - containers.indent >= 4) return true;
    return !this.interrupts(line, line.indent, containers.innermost, paragraph);
  }

  /** Whether a block begins on the line in a container, so that what is open there ends. */
  private interrupts(line: Line, lineIndent: number, container: Container | undefined, what: Interrupted): boolean {
    const { text } = this;
    const indent = container?.indent ?? 0;
    if (lineIndent - indent >= 4) return false;
    if ((what === "paragraph" || what === "definition") && this.columnsOfTable(line) > 0) return true;
    const first = text.charCodeAt(line.content);
    switch (first) {
      case Character.Hash:
        return headingLevel(text, line) > 0;
      case Character.GreaterThan:
        return true;
      case Character.Backtick:
      case Character.Tilde:
        return fenceLength(text, line) > 0;
      case Character.LessThan:
        return htmlBlockKind(text.slice(line.content, line.end))?.mayInterruptParagraph ?? false;
      case Character.Underscore:
        return this.thematicBreaks.test(text, line);
      case Character.Asterisk:
      case Character.Minus:
        if (this.thematicBreaks.test(text, line)) return true;
        break;
      default:
        if (first !== Character.Plus && !isDigit(first)) return false;
    }
    if (lineIndent < indent && container !== undefined && !container.isQuote) {
      if (lineIndent - container.listIndent >= 4) return false;
    }
    const markerEnd = listMarkerEnd(text, line);
    if (markerEnd < 0) return false;
    return what !== "paragraph" || lineIndent < indent || mayInterruptParagraph(text, line, markerEnd);
  }

  /** How many columns the table has that begins on the line, or 0. */
  private columnsOfTable(line: Line): number {
    const { containers, text } = this;
    if (this.pipes.from(line.content) >= line.end || line.indent - containers.indent >= 4) return 0;
    const next = this.peek(line);
    if (next === undefined || next.isBlank) return 0;
    const indent = next.indent - containers.indent;
    return indent < 0 || indent >= 4 ? 0 : tableColumns(text, line, next);
  }

  /** The line after, as the innermost container sees it; nothing if it lies outside one of the open quotes. */
  private peek(line: Line): Line | undefined {
    const { peeked, containers } = this;
    if (line.next >= this.text.length) return undefined;
    if (this.peekedAt !== line.next) {
      this.reader.read(peeked, line.next);
      this.peekedAt = line.next;
      this.peekedQuotes = 0;
    }
    while (this.peekedQuotes < containers.quoteDepth) {
      if (!containers.continueQuote(peeked, this.peekedQuotes)) return undefined;
      this.peekedQuotes++;
    }
    return peeked;
  }
}

function trimmedEnd(text: string, start: number, end: number): number {
  while (end > start && isSpace(text.charCodeAt(end - 1))) end--;
  return end;
}

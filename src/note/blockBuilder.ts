import type { Span } from "../text/span";
import type { CodeSpan, Heading, ProseBlock, TaskItem, Trap } from "./block";
import { Character, isSpace } from "./character";
import { codeSpansIn } from "./codeSpans";
import type { InlineText } from "./inlineText";
import type { Line } from "./line";

/** Most blocks hold nothing but text: they share this. */
const NONE: readonly never[] = Object.freeze([]);

/** Gathers what one prose block holds, given in offsets of the text, and counts it from the block's start. */
export class BlockBuilder {
  private headings: readonly Heading[] = NONE;
  private tasks: readonly TaskItem[] = NONE;
  private codeSpans: readonly CodeSpan[] = NONE;
  private traps: readonly Trap[] = NONE;
  private tables: readonly Span[] = NONE;
  private start = 0;

  constructor(private readonly text: string) {}

  begin(start: number): void {
    this.start = start;
    this.headings = NONE;
    this.tasks = NONE;
    this.codeSpans = NONE;
    this.traps = NONE;
    this.tables = NONE;
  }

  finish(end: number, reach: number): ProseBlock {
    const { headings, tasks, codeSpans, traps, tables } = this;
    const block: ProseBlock = { kind: "prose", length: end - this.start, headings, tasks, codeSpans, traps, tables };
    return reach > end ? { ...block, reach: reach - this.start } : block;
  }

  addHeading(start: number, end: number, level: number, text: string): void {
    this.headings = added(this.headings, { span: this.span(start, end), level, text });
  }

  addTable(start: number, end: number): void {
    this.tables = added(this.tables, this.span(start, end));
  }

  addCodeSpans(inline: InlineText): void {
    for (const { start, end, text } of codeSpansIn(inline.text)) {
      this.codeSpans = added(this.codeSpans, {
        span: this.span(inline.sourceOf(start), inline.sourceOf(end - 1) + 1),
        text,
      });
    }
  }

  /** Adds the task that a list item's opening paragraph states, if it states one (GFM 5.3). */
  addTask(inline: InlineText): void {
    const opening = /^\[([ \txX])\]\s+(?=\S)/.exec(inline.text);
    if (opening === null) return;
    const content = inline.text.slice(opening[0].length);
    const worded = /^(must|should)[ \t]*:\s*/i.exec(content);
    const span = this.span(inline.sourceOf(0), inline.sourceOf(inline.text.length - 1) + 1);
    const checked = opening[1].toLowerCase() === "x";
    const text = content.slice(worded?.[0].length ?? 0).replace(/\s*\n\s*/g, " ");
    if (worded === null) this.tasks = added(this.tasks, { span, checked, text });
    else this.tasks = added(this.tasks, { span, checked, word: worded[1].toLowerCase() as TaskItem["word"], text });
  }

  addTrap(kind: Trap["kind"], line: Line): void {
    const lineBreak = this.lineBreakBefore(line.textStart);
    let insert = lineBreak;
    if (kind === "inList") {
      const gap = this.isBlankAbove(line.textStart) ? "" : lineBreak;
      insert = `${gap}<!-- -->${lineBreak}${lineBreak}`;
    }
    const span = this.span(line.content, line.end);
    this.traps = added(this.traps, { kind, span, insertAt: line.textStart - this.start, insert });
  }

  private lineBreakBefore(lineStart: number): string {
    if (this.text[lineStart - 1] === "\r") return "\r";
    return this.text[lineStart - 2] === "\r" ? "\r\n" : "\n";
  }

  private isBlankAbove(lineStart: number): boolean {
    let at = lineStart - this.lineBreakBefore(lineStart).length - 1;
    while (at >= 0 && isSpace(this.text.charCodeAt(at))) at--;
    const code = this.text.charCodeAt(at);
    return at < 0 || code === Character.LineFeed || code === Character.CarriageReturn;
  }

  private span(start: number, end: number): Span {
    return { start: start - this.start, end: end - this.start };
  }
}

/** Adds to a list that nobody else has seen yet. */
function added<Item>(list: readonly Item[], item: Item): readonly Item[] {
  if (list === NONE) return [item];
  (list as Item[]).push(item);
  return list;
}

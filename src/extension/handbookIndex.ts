import type { Handbook } from "../service";

/** A stretch of the index that leads to a line of a chapter; lines count from 1, columns and the index's lines from 0. */
export interface IndexLink {
  readonly at: { readonly line: number; readonly start: number; readonly end: number };
  readonly chapter: string;
  readonly line: number;
}

export interface IndexText {
  /** Markdown that reads well as it is. */
  readonly text: string;
  readonly links: readonly IndexLink[];
}

/** The chapters of the handbook, what each is for, and its functions, each a link to its page. */
export function indexText(handbook: Handbook): IndexText {
  const lines = ["# The handbook", "", OPENING];
  const links: IndexLink[] = [];
  for (const [chapter, { title, purpose, functions }] of handbook) {
    lines.push("");
    links.push({ at: { line: lines.length, start: 3, end: 3 + chapter.length }, chapter, line: 1 });
    lines.push(`## ${chapter} · ${title}`, "", purpose, "");
    for (const { signature, purpose: gives, line } of functions) {
      const called = `${chapter}.${signature}`;
      links.push({ at: { line: lines.length, start: 2, end: 2 + called.length }, chapter, line: line + 1 });
      lines.push(`- ${called} ${gives}`);
    }
  }
  return { text: `${lines.join("\n")}\n`, links };
}

const OPENING =
  "Formulas of the trade, each with its source, where it stops being true, and a worked example. A note calls them as they stand here.";

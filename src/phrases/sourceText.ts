import type { Row, Snapshot } from "../engine/snapshot";

/**
 * The source that a note's section states for what is defined in it, by a paragraph `Source: …`: the first below the
 * definition, or else the last above. Empty where the section states none.
 */
export function sourceOf({ text }: Snapshot, row: Row): string {
  const from = text.lastIndexOf("\n#", row.start) + 1;
  const next = text.indexOf("\n#", row.start);
  const section = text.slice(from, next < 0 ? text.length : next);
  const sources = [...section.matchAll(/^Source: ((?:.+\n?)+)/gm)];
  const found = sources.find(({ index }) => from + index > row.start) ?? sources.at(-1);
  return found ? onOneLine(found[1]) : "";
}

/** A piece of a statement without its comments. */
export function withoutComments(text: string): string {
  return text.replace(/\s*#.*$/gm, "");
}

/** A text with every run of white space as one space. */
export function onOneLine(text: string): string {
  return text.replace(/\s+/g, " ").trim();
}

import type { Span } from "./span";

/** One replacement in a text. An insertion has an empty span, a deletion an empty text. */
export interface Edit {
  readonly span: Span;
  readonly text: string;
}

/**
 * The text after the edits, all of which are given in coordinates of the text before.
 * Edits may come in any order; they must not overlap.
 * @throws RangeError if two edits overlap or one lies outside the text.
 */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const inOrder = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let result = "";
  let at = 0;
  for (const { span, text: inserted } of inOrder) {
    if (span.start < at || span.end < span.start || span.end > text.length)
      throw new RangeError(`The edit at ${span.start}..${span.end} overlaps another or lies outside the text.`);
    result += text.slice(at, span.start) + inserted;
    at = span.end;
  }
  return result + text.slice(at);
}

/** The smallest single edit that turns one text into the other: what lies between the common head and the common tail. */
export function difference(before: string, after: string): Edit {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before.charCodeAt(head) === after.charCodeAt(head)) head++;
  let tail = 0;
  while (
    tail < shorter - head &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail++;
  return { span: { start: head, end: before.length - tail }, text: after.slice(head, after.length - tail) };
}

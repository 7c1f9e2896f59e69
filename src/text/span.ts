/** A stretch of text, in UTF-16 code units, the end excluded. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The span shifted by an offset: from a statement's own coordinates to those of its note, or back. */
export function shift(span: Span, by: number): Span {
  return { start: span.start + by, end: span.end + by };
}

/** Whether an offset lies in the span, both ends included: a caret after the last letter still touches the word. */
export function touches(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

/** The smallest span that covers both. */
export function cover(a: Span, b: Span): Span {
  return { start: Math.min(a.start, b.start), end: Math.max(a.end, b.end) };
}

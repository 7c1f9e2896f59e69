import { Character } from "./character";

/** Nested parentheses that a link destination may have, as in markdown-it; CommonMark asks for at least three. */
const DEEPEST_NESTING = 32;

/** The protocols that markdown-it refuses: what names one is text, not a link. */
const REFUSED_PROTOCOL = /^\s*(?:vbscript|javascript|file|data):/i;
const ACCEPTED_DATA = /^\s*data:image\/(?:gif|png|jpeg|webp);/i;

/** Whether a destination may be linked to. An escaped spelling of a refused protocol is not looked through. */
export function isAcceptedDestination(destination: string): boolean {
  return !REFUSED_PROTOCOL.test(destination) || ACCEPTED_DATA.test(destination);
}

/** The offset behind the link destination that begins at `at`, or -1 (CommonMark 6.3). */
export function destinationEnd(text: string, at: number, end: number): number {
  return at < end && text.charCodeAt(at) === Character.LessThan
    ? bracketedEnd(text, at + 1, end)
    : bareEnd(text, at, end);
}

function bracketedEnd(text: string, at: number, end: number): number {
  for (; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code === Character.GreaterThan) return at + 1;
    if (code === Character.LineFeed || code === Character.LessThan) return -1;
    if (code === Character.Backslash) at++;
  }
  return -1;
}

function bareEnd(text: string, start: number, end: number): number {
  let at = start;
  let depth = 0;
  for (; at < end; at++) {
    const code = text.charCodeAt(at);
    // A NUL is read as U+FFFD and so is no control character (CommonMark 2.3).
    if ((code <= Character.Space && code !== 0) || code === Character.Delete) break;
    if (code === Character.Backslash && at + 1 < end) {
      if (text.charCodeAt(at + 1) !== Character.Space) at++;
    } else if (code === Character.LeftParenthesis) {
      if (++depth > DEEPEST_NESTING) return -1;
    } else if (code === Character.RightParenthesis && depth-- === 0) break;
  }
  return at > start && depth <= 0 ? at : -1;
}

/** What closes the link title that a character opens, or 0 if it opens none. */
export function titleCloser(code: number): number {
  if (code === Character.DoubleQuote || code === Character.Apostrophe) return code;
  return code === Character.LeftParenthesis ? Character.RightParenthesis : 0;
}

/** Where in `at`..`end` a link title closes; `end` if it goes on; -1 if it is none (CommonMark 6.3). */
export function titleClose(text: string, at: number, end: number, closer: number): number {
  for (; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code === closer) return at;
    if (code === Character.LeftParenthesis && closer === Character.RightParenthesis) return -1;
    if (code === Character.Backslash) at++;
  }
  return end;
}

import type { NameUse } from "../engine/nameUses";
import type { Span } from "../text/span";
import type { FormulaPiece } from "./formula";

/**
 * An expression in pieces, with a number for each name that has one.
 * @param span of the expression in its statement.
 * @param uses the names of the statement in the order of its text.
 */
export function substituted(
  text: string,
  span: Span,
  uses: readonly NameUse[],
  numberOf: (use: NameUse) => string | undefined,
): readonly FormulaPiece[] {
  const pieces: FormulaPiece[] = [];
  let at = span.start;
  for (const [i, use] of uses.entries()) {
    if (use.span.start < at || use.span.end > span.end) continue;
    const next = uses[i + 1] as NameUse | undefined;
    if (next?.object !== undefined && text.slice(use.span.end, next.span.start).trim() === ".") continue;
    const number = use.role === "value" || use.role === "bound" ? numberOf(use) : undefined;
    if (number === undefined) continue;
    const start = use.object === undefined ? use.span.start : Math.max(at, uses[i - 1].span.start);
    if (start > at) pieces.push({ symbol: onOneLine(text.slice(at, start)) });
    pieces.push({ symbol: text.slice(start, use.span.end), number: inBrackets(number, text.slice(use.span.end)) });
    at = use.span.end;
  }
  if (at < span.end) pieces.push({ symbol: onOneLine(text.slice(at, span.end)) });
  return pieces;
}

/** A number before a power, and a negative one, needs brackets to be read as what it is. */
function inBrackets(number: string, behind: string): string {
  return number.startsWith("-") || /^\s*[\^⁰¹²³⁴-⁹⁻]/.test(behind) ? `(${number})` : number;
}

/** An expression over several lines, its comments left out. */
function onOneLine(text: string): string {
  return text.replace(/\s*(?:#[^\n]*)?\r?\n\s*/g, " ");
}

import { Class, classOf } from "./character";
import type { Cursor } from "./cursor";

/**
 * `a ^ 1/2`, `a / 1/4`, `8/2²`, `2 || 1/2`: two integers around an unspaced slash are one number, with spaces around its
 * neighbour or without. Beside a sign that binds as tightly as the slash, a reader takes it for a division.
 * @param end where the digits of the fraction end.
 * @param valueEnd where its unit ends.
 */
export function checkFraction(at: Cursor, start: number, end: number, valueEnd: number): void {
  const { text } = at;
  const unit = text.slice(end, valueEnd);
  const whole = `(${text.slice(start, valueEnd)})`;
  const divided = text.slice(start, end).replace("/", " / ") + unit;
  const signEnd = operatorEnd(at);
  const before = text.slice(Math.max(0, signEnd - 2), signEnd);
  let rewritten: string[];
  if (/(?:[\^/÷]|\*\*)$/.test(before)) rewritten = [whole, divided];
  else if (isRaised(text, valueEnd)) rewritten = [divided, whole];
  // A unit leaves no doubt: 1/4 Ω || 2 Ω.
  else if (unit === "" && (/[|∥‖]$/.test(before) || /^\s*[|∥‖]/.test(text.slice(valueEnd))))
    rewritten = [whole, divided];
  else return;
  at.report(start, valueEnd, { code: "syntax.ambiguousFraction", rewritten });
  at.spoilt = true;
}

/** `3 m^1/2`: behind the unit, a slash between two integers can be a division or make a root of the unit. */
export function checkRoot(at: Cursor, end: number): void {
  const { text, unit } = at;
  const last = unit.count - 1;
  const exponent = /\^(-?\d+)$/.exec(text.slice(unit.wordEnd[last], end))?.[1];
  if (exponent === undefined || text.charCodeAt(end) !== 47) return;
  const below = /^\d+(?![\d.eE]|\.\d)/.exec(text.slice(end + 1))?.[0];
  if (below === undefined) return;
  const start = unit.start[last];
  const word = text.slice(start, unit.wordEnd[last]);
  const power = exponent === "1" ? word : `${word}^${exponent}`;
  const rewritten = [`${word}^(${exponent}/${below})`, `${power} / ${below}`];
  at.report(start, end + 1 + below.length, { code: "syntax.ambiguousFraction", rewritten });
  at.spoilt = true;
}

/** Where the sign before the current token ends, signs of the number left out: `a ^ -1/2`. */
function operatorEnd(at: Cursor): number {
  let end = at.previousEnd;
  while (end > 0 && isSignOrSpace(at.text.charCodeAt(end - 1))) end--;
  return end;
}

function isSignOrSpace(code: number): boolean {
  return code === 45 || code === 0x2212 || (classOf(code) & Class.Space) !== 0;
}

function isRaised(text: string, from: number): boolean {
  const next = text.slice(from).trimStart();
  return next.startsWith("^") || next.startsWith("**") || (classOf(next.charCodeAt(0)) & Class.Superscript) !== 0;
}

import { Class, classOf, isDigit } from "./character";
import type { Cursor } from "./cursor";

/** Ways to group digits by threes, and the decimal sign beside them, that are not this language's. */
const GROUPED: readonly RegExp[] = [
  /\d{1,3}(?:['’ʼ´`]\d{3})+(?!\d)(?:[.,]\d+)?/y,
  /\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?![\d_/]|['’]\d)(?:[.,]\d+)?/y,
];
/** The same with a comma, which separates inside an argument list. */
const WITH_COMMA: readonly RegExp[] = [
  /\d{1,3}(?:,\d{3})+\.\d+/y,
  /\d{1,3}(?:\.\d{3})+,\d+/y,
  /\d{1,3}(?:\.\d{3}){2,}(?!\d)/y,
];
const COMMAS = /[\d_]+(?:,\d+)+/y;
/** In an argument list `3,5` is two numbers; but nobody begins one with a nought and a digit. */
const COMMA_AND_NOUGHT = /\d+,0\d+/y;
const EXPONENT = /[eE][+\-−]?\d+/y;

/**
 * Reads over a number that is written as elsewhere and says how it is written here: `3,3`, `1'000`, `1.000,5`, `1 000`.
 * @param end where the number ends that has been read.
 * @returns where the whole ends; `end` if the number is one of this language.
 */
export function passForeign(at: Cursor, start: number, end: number): number {
  const { text } = at;
  if (!mayGoOn(text, end)) return end;
  for (const form of at.commaSeparates ? GROUPED : [...GROUPED, ...WITH_COMMA]) {
    const number = match(form, text, start);
    if (number !== undefined) return report(at, start, number, [groupedHere(number)]);
  }
  const number = match(at.commaSeparates ? COMMA_AND_NOUGHT : COMMAS, text, start);
  return number === undefined ? end : report(at, start, number, withoutCommas(number));
}

function report(at: Cursor, start: number, number: string, numbers: readonly string[]): number {
  const exponent = match(EXPONENT, at.text, start + number.length) ?? "";
  const end = start + number.length + exponent.length;
  at.report(start, end, { code: "syntax.decimalComma", rewritten: numbers.map((each) => each + exponent) });
  at.spoilt = true;
  return end;
}

/** A cheap look before the costly ones: a sign that groups or separates decimals, and a digit. */
function mayGoOn(text: string, end: number): boolean {
  const code = text.charCodeAt(end);
  const isSign = code === 44 || code === 46 || "'’ʼ´`".includes(text[end] ?? "");
  return (isSign || (classOf(code) & Class.Space) !== 0) && isDigit(text.charCodeAt(end + 1));
}

function match(form: RegExp, text: string, at: number): string | undefined {
  form.lastIndex = at;
  return form.exec(text)?.[0];
}

/** `1'000,5` as `1_000.5`: a point or comma that stands last and alone marks the decimals. */
function groupedHere(number: string): string {
  const signs = number.replace(/\d/g, "");
  const last = signs[signs.length - 1];
  const hasDecimals = (last === "." || last === ",") && signs.length > 1 && signs.indexOf(last) === signs.length - 1;
  const whole = hasDecimals ? number.slice(0, number.lastIndexOf(last)) : number;
  return whole.replace(/\D/g, "_") + (hasDecimals ? `.${number.slice(whole.length + 1)}` : "");
}

/** Without a group of three the comma is a decimal sign; with some, thousands may be meant too, or alone. */
function withoutCommas(number: string): readonly string[] {
  const groups = number.split(",");
  const isThousands = groups.slice(1).every((group) => group.length === 3) && groups[0].length <= 3;
  const asDecimal = groups.length === 2 ? [groups.join(".")] : [];
  return isThousands ? [...asDecimal, groups.join("_")] : asDecimal;
}

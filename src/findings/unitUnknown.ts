import { decibelsMeant, decibelText } from "../phrases/decibels";
import { otherUnit } from "../phrases/otherUnits";
import { findName, type Scope } from "../phrases/side";
import { codeMeant, unitMeant, withoutRemark } from "../phrases/unitMeant";
import { describeUnitTrouble, type UnitTrouble } from "../quantity/unit";
import { isName } from "../syntax/name";
import { Kind } from "../syntax/tree";
import type { Row } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";
import type { ProblemOf, Wording } from "./finding";
import { replaceIn, statementAbove } from "./fixing";

/** `12 V/R`, `3 volts`, `5 kmil`: a word behind a number that is no unit. */
export const unitUnknown: Wording<"unit.unknown"> = {
  severity: "error",
  reference:
    "A word behind a number is its unit, and this one is none. Correct it, put an operator before a name, or say by `items` that it is counted.",
  message: ({ word, trouble, isName: isQuantity, rewritten, span }, { row, context }) => {
    const counted = countedMeant(word, context);
    if (counted !== undefined) return `\`${word}\` is no unit: what is counted here is \`${counted}\`, one or many.`;
    const pi = piText(word);
    if (pi !== undefined) return `\`π\` is a number and no unit. Write \`${pi}\` behind the number.`;
    if (!isQuantity) {
      if (trouble.kind === "decibel") return describeUnitTrouble(trouble) + decibelText(word, levelIn(row, span));
      if (isHenry(trouble)) return `\`h\` is the hour and takes no prefix. A henry is \`H\`: \`${trouble.prefix}H\`.`;
      if (trouble.kind !== "unknown") return describeUnitTrouble(trouble);
      const code = codeMeant(textOf(row, numberBefore(row, span)));
      if (code !== undefined) return `\`${word}\` is no unit. Write \`${code}\`.`;
      const other = otherUnit(word);
      if (other !== undefined) return `\`${word}\` is no unit here; 1 ${word} is ${other}.`;
      const plain = withoutRemark(word);
      if (plain !== undefined)
        return `\`${word}\` is no unit: nothing is attached to a unit. Write \`${plain}\`, and say in the name what it is.`;
      const suggestion = unitMeant(word, trouble.suggestion);
      const plainly = describeUnitTrouble({ ...trouble, suggestion });
      return suggestion === undefined && isCountable(word)
        ? `${plainly} If it is something that is counted, say so: \`items ${word}\`.`
        : plainly;
    }
    const what = `\`${word}\` is a quantity and no unit, and what stands behind a number is its unit.`;
    return rewritten === undefined ? what : `${what} Write \`${rewritten}\`.`;
  },
  fixes: (problem, { row, context }) => {
    const { word, trouble, rewritten } = problem;
    const counted = countedMeant(word, context);
    if (counted !== undefined) return corrected(problem, row, counted);
    const pi = piText(word);
    if (pi !== undefined) return timesPi(problem, row, pi);
    if (rewritten !== undefined) return [separated(problem, row, rewritten)];
    if (trouble.kind === "decibel")
      return decibelsMeant(word, levelIn(row, problem.span)).map((text) => ({
        title: `Write ${text}`,
        edits: [replaceIn(row, literalAround(row, problem.span), text)],
      }));
    if (isHenry(trouble)) return corrected(problem, row, `${trouble.prefix}H`);
    if (trouble.kind !== "unknown") return [];
    const number = numberBefore(row, problem.span);
    const code = codeMeant(textOf(row, number));
    if (code !== undefined)
      return [{ title: `Write ${code}`, edits: [replaceIn(row, number, code)], isPreferred: true }];
    const other = otherUnit(word);
    if (other !== undefined) return asMultiple(problem, row, other);
    const meant = unitMeant(word, trouble.suggestion);
    if (meant !== undefined) return corrected(problem, row, meant);
    return isCountable(word) && !problem.isName
      ? [{ title: `Count ${word}: items ${word}`, edits: [statementAbove(row, context.snapshot, `items ${word}`)] }]
      : [];
  },
};

/** Whether a word can name what is counted; a single letter is more likely a slip. */
function isCountable(word: string): boolean {
  return isName(word) && word.length > 1;
}

/** π is no unit even where it stands right behind a number; what follows it there is a name. */
const ROUND_CONSTANT = /^(π|pi(?![\p{L}\d_]))([\p{L}_][\p{L}\d_]*)?$/u;

/** `2 * π`, for the factor behind a number. */
function piText(word: string): string | undefined {
  const [, pi, name] = ROUND_CONSTANT.exec(word) ?? [];
  if (pi === undefined) return undefined;
  return name === undefined ? "* π" : `* π * ${name}`;
}

/** `2π` as `2 * π`. */
function timesPi({ span, word }: ProblemOf<"unit.unknown">, row: Row, times: string): readonly Fix[] {
  const { text } = row.statement;
  const [space] = /\s*$/.exec(text.slice(0, span.start))!;
  if (!text.startsWith(word, span.start)) return [];
  const place = { start: span.start - space.length, end: span.start + word.length };
  return [{ title: `Write ${times}`, edits: [replaceIn(row, place, ` ${times}`)], isPreferred: true }];
}

/** `3 atm` as `3 * 101.325 kPa`. */
function asMultiple({ span, word }: ProblemOf<"unit.unknown">, row: Row, value: string): readonly Fix[] {
  const literal = literalAround(row, span);
  const [, number, unit] = /^(-?[\d._]+)\s*(\S+)$/.exec(textOf(row, literal)) ?? [];
  if (number === undefined || unit !== word) return [];
  return [{ title: `Write ${number} * ${value}`, edits: [replaceIn(row, literal, `${number} * ${value}`)] }];
}

/** A word behind a number, with that number alone, `10 k` of `10 k ± 5 %`, or with all whose unit it is: `10 .. 20 k`. */
function numberBefore(row: Row, span: Span): Span {
  const literal = literalAround(row, span);
  if (textOf(row, literal).includes("..")) return literal;
  const before = row.statement.text.slice(literal.start, span.start);
  const [number] = /\d[\d.]*\s*$/.exec(before) ?? [""];
  return { start: span.start - number.length, end: span.end };
}

/** The plural of what the note counts. */
function countedMeant(word: string, scope: Scope): string | undefined {
  const singular = /^(.+?)s$/.exec(word)?.[1];
  return singular !== undefined && findName(singular, scope)?.outcome.kind === "items" ? singular : undefined;
}

/** `10 uh`: an hour with a prefix, meant as a henry. */
function isHenry(trouble: UnitTrouble): trouble is Extract<UnitTrouble, { kind: "prefix" }> {
  return trouble.kind === "prefix" && trouble.unit === "h" && /^[munpµ]$/.test(trouble.prefix);
}

/** The number before a level's unit, where it stands alone and is no longer literal: `28` of `28 dBA`. */
function levelIn(row: Row, span: Span): string | undefined {
  const literal = textOf(row, literalAround(row, span));
  return /^(-?[\d._]+(?:[eE][-+]?\d+)?)\s*[\p{L}µμ]+$/u.exec(literal)?.[1];
}

/** The whole number with its unit, rewritten. */
function separated({ span }: ProblemOf<"unit.unknown">, row: Row, rewritten: string): Fix {
  return {
    title: `Write ${rewritten}`,
    edits: [replaceIn(row, literalAround(row, span), rewritten)],
    isPreferred: true,
  };
}

function textOf({ statement: { text } }: Row, { start, end }: Span): string {
  return text.slice(start, end);
}

/** The smallest literal that holds a span. */
function literalAround({ statement: { tree } }: Row, span: Span): Span {
  let best: Span = span;
  for (let node = tree.count - 1; node >= 0; node--) {
    if (tree.kind(node) === Kind.Literal && tree.start(node) <= span.start && span.end <= tree.end(node))
      best = tree.span(node);
  }
  return best;
}

function corrected({ word, span }: ProblemOf<"unit.unknown">, row: Row, suggestion: string): readonly Fix[] {
  const at = row.statement.text.slice(span.start, span.end).indexOf(word);
  if (at < 0) return [];
  const start = span.start + at;
  const edit = replaceIn(row, { start, end: start + word.length }, suggestion);
  return [{ title: `Write ${suggestion}`, edits: [edit], isPreferred: true }];
}

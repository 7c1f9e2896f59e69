import { decibelsMeant, decibelText } from "../phrases/decibels";
import { otherUnit } from "../phrases/otherUnits";
import { findName } from "../phrases/side";
import { codeMeant, unitMeant, withoutRemark } from "../phrases/unitMeant";
import { describeUnitTrouble } from "../quantity/unit";
import { isName } from "../syntax/name";
import { Kind } from "../syntax/tree";
import type { Row } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";
import type { ProblemOf, Site, Wording } from "./finding";
import { replaceIn, statementAbove } from "./fixing";

/** `12 V/R`, `3 volts`, `5 kmil`: a word behind a number that is no unit. */
export const unitUnknown: Wording<"unit.unknown"> = {
  severity: "error",
  reference:
    "A word behind a number is its unit, and this one is none. Correct it, put an operator before a name, or say by `items` that it is counted.",
  message: (problem, site) => readingOf(problem, site).says,
  fixes: (problem, site) => readingOf(problem, site).fixes,
};

type Unknown = ProblemOf<"unit.unknown">;
type Place = Site<"unit.unknown">;

/** What the word may have been meant as. */
interface Reading {
  readonly says: string;
  readonly fixes: readonly Fix[];
}

function readingOf(problem: Unknown, site: Place): Reading {
  for (const read of READINGS) {
    const reading = read(problem, site);
    if (reading !== undefined) return reading;
  }
  return uncounted(problem, site);
}

/** The first that fits. */
const READINGS: readonly ((problem: Unknown, site: Place) => Reading | undefined)[] = [
  counted,
  roundConstant,
  stuckName,
  level,
  henry,
  wrongPrefix,
  letterCode,
  multiple,
  remarked,
  misspelt,
];

/** `3 LEDs`, where the note counts `LED`. */
function counted({ word, span }: Unknown, { row, context }: Place): Reading | undefined {
  const one = /^(.+?)s$/.exec(word)?.[1];
  if (one === undefined || findName(one, context)?.outcome.kind !== "items") return undefined;
  return {
    says: `\`${word}\` is no unit: what is counted here is \`${one}\`, one or many.`,
    fixes: corrected(word, span, row, one),
  };
}

/** π, which is no unit even where it stands right behind a number; what follows it there is a name. */
const ROUND_CONSTANT = /^(?:π|pi(?![\p{L}\d_]))([\p{L}_][\p{L}\d_]*)?$/u;

/** `2π` and `2πr`. */
function roundConstant({ word, span }: Unknown, { row }: Place): Reading | undefined {
  const found = ROUND_CONSTANT.exec(word);
  if (!found) return undefined;
  const times = found[1] === undefined ? "* π" : `* π * ${found[1]}`;
  const says = `\`π\` is a number and no unit. Write \`${times}\` behind the number.`;
  const { text } = row.statement;
  if (!text.startsWith(word, span.start)) return { says, fixes: [] };
  const [space] = /\s*$/.exec(text.slice(0, span.start))!;
  const place = { start: span.start - space.length, end: span.start + word.length };
  return { says, fixes: [{ title: `Write ${times}`, edits: [replaceIn(row, place, ` ${times}`)], isPreferred: true }] };
}

/** `12 V/R`, `3 x`: a name that stuck to a number. */
function stuckName({ word, isName: isQuantity, rewritten, span }: Unknown, { row }: Place): Reading | undefined {
  if (!isQuantity) return undefined;
  const plain = `\`${word}\` is a quantity and no unit, and what stands behind a number is its unit.`;
  if (rewritten === undefined) return { says: plain, fixes: [] };
  return { says: `${plain} Write \`${rewritten}\`.`, fixes: instead(literalAround(row, span), row, rewritten) };
}

/** `20 dB`. */
function level({ word, trouble, span }: Unknown, { row }: Place): Reading | undefined {
  if (trouble.kind !== "decibel") return undefined;
  const literal = literalAround(row, span);
  // The number before the unit, where it stands alone: `28` of `28 dBA`.
  const number = /^(-?[\d._]+(?:[eE][-+]?\d+)?)\s*[\p{L}µμ]+$/u.exec(textOf(row, literal))?.[1];
  return {
    says: describeUnitTrouble(trouble) + decibelText(word, number),
    fixes: decibelsMeant(word, number).map((text) => ({
      title: `Write ${text}`,
      edits: [replaceIn(row, literal, text)],
    })),
  };
}

/** `10 uh`: an hour with a prefix, meant as a henry. */
function henry({ word, trouble, span }: Unknown, { row }: Place): Reading | undefined {
  if (trouble.kind !== "prefix" || trouble.unit !== "h" || !/^[munpµ]$/.test(trouble.prefix)) return undefined;
  const meant = `${trouble.prefix}H`;
  return {
    says: `\`h\` is the hour and takes no prefix. A henry is \`H\`: \`${meant}\`.`,
    fixes: corrected(word, span, row, meant),
  };
}

/** `5 kmil`, `3 m^0.1`. */
function wrongPrefix({ trouble }: Unknown): Reading | undefined {
  return trouble.kind === "unknown" ? undefined : { says: describeUnitTrouble(trouble), fixes: [] };
}

/** `4.7 k`, `10 .. 20 k`: a letter code that is not written as one. */
function letterCode({ word, span }: Unknown, { row }: Place): Reading | undefined {
  const number = numberBefore(row, span);
  const code = codeMeant(textOf(row, number));
  return code === undefined
    ? undefined
    : { says: `\`${word}\` is no unit. Write \`${code}\`.`, fixes: instead(number, row, code) };
}

/** `3 atm` as `3 * 101.325 kPa`. */
function multiple({ word, span }: Unknown, { row }: Place): Reading | undefined {
  const value = otherUnit(word);
  if (value === undefined) return undefined;
  const literal = literalAround(row, span);
  const [, number, unit] = /^(-?[\d._]+)\s*(\S+)$/.exec(textOf(row, literal)) ?? [];
  const isAlone = number !== undefined && unit === word;
  return {
    says: `\`${word}\` is no unit here; 1 ${word} is ${value}.`,
    fixes: isAlone
      ? [{ title: `Write ${number} * ${value}`, edits: [replaceIn(row, literal, `${number} * ${value}`)] }]
      : [],
  };
}

/** `24 Vdc`. */
function remarked({ word, span }: Unknown, { row }: Place): Reading | undefined {
  const plain = withoutRemark(word);
  return plain === undefined
    ? undefined
    : {
        says: `\`${word}\` is no unit: nothing is attached to a unit. Write \`${plain}\`, and say in the name what it is.`,
        fixes: corrected(word, span, row, plain),
      };
}

/** `3 volts`, `5v`. */
function misspelt({ word, trouble, span }: Unknown, { row }: Place): Reading | undefined {
  if (trouble.kind !== "unknown") return undefined;
  const suggestion = unitMeant(word, trouble.suggestion);
  return suggestion === undefined
    ? undefined
    : { says: describeUnitTrouble({ ...trouble, suggestion }), fixes: corrected(word, span, row, suggestion) };
}

/** `3 LED` and `3 LEDs` in a note that counts nothing of the kind. A single letter is more likely a slip. */
function uncounted({ word, span }: Unknown, { row, context }: Place): Reading {
  const plain = `\`${word}\` is no unit.`;
  if (!isName(word) || word.length === 1) return { says: plain, fixes: [] };
  // What is counted is named by one of it.
  const one = /^.{2,}[^s]s$/.test(word) ? word.slice(0, -1) : word;
  const inOne = one === word ? [] : corrected(word, span, row, one).flatMap(({ edits }) => edits);
  return {
    says: `${plain} If it is something that is counted, say so: \`items ${one}\`${one === word ? "" : `, and count in \`${one}\``}.`,
    fixes: [
      { title: `Count ${one}: items ${one}`, edits: [statementAbove(row, context.snapshot, `items ${one}`), ...inOne] },
    ],
  };
}

/** A word behind a number, with that number alone, `10 k` of `10 k ± 5 %`, or with all whose unit it is: `10 .. 20 k`. */
function numberBefore(row: Row, span: Span): Span {
  const literal = literalAround(row, span);
  if (textOf(row, literal).includes("..")) return literal;
  const before = row.statement.text.slice(literal.start, span.start);
  const [number] = /\d[\d.]*\s*$/.exec(before) ?? [""];
  return { start: span.start - number.length, end: span.end };
}

function instead(span: Span, row: Row, text: string): readonly Fix[] {
  return [{ title: `Write ${text}`, edits: [replaceIn(row, span, text)], isPreferred: true }];
}

/** The word alone, in the unit that it is a part of. */
function corrected(word: string, span: Span, row: Row, meant: string): readonly Fix[] {
  const at = textOf(row, span).indexOf(word);
  const start = span.start + at;
  return at < 0 ? [] : instead({ start, end: start + word.length }, row, meant);
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

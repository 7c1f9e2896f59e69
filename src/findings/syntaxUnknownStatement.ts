import { nearestName } from "../engine/suggest";
import { OPENING_WORDS } from "../syntax/name";
import type { Row } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";
import type { Wording } from "./finding";
import { mending, replaceIn } from "./fixing";

/** `asume V_f = 3 V`: the first word opens no statement. */
export const syntaxUnknownStatement: Wording<"syntax.unknownStatement"> = {
  severity: "error",
  reference:
    "A calculation line is a definition `NAME = …` or begins with an opening word such as `given`, `assume` or `must`. Prose is not indented.",
  message: ({ word, span }, { row }) => {
    const plain = `\`${word}\` opens no statement.`;
    const other = OTHER_STATEMENTS.get(word.toLowerCase());
    if (other !== undefined) return `${plain} ${other}`;
    const meant = openingMeant(word);
    if (meant !== undefined) return `${plain} Did you mean \`${meant}\`?`;
    const joined = nameOfTwoWords(span, row);
    if (joined) return `A name is one word: \`${joined.text}\`.`;
    const value = valueBehind(span, row);
    if (value) return `A definition has \`=\`: \`${word} = ${value.text}\`.`;
    return `${plain} Write a definition, \`NAME = …\`, or begin with a word such as \`given\`, \`assume\` or \`must\`.`;
  },
  fixes: ({ word, span }, { row }) => {
    if (OTHER_STATEMENTS.has(word.toLowerCase())) return leftOut(word, span, row);
    const meant = openingMeant(word);
    if (meant !== undefined) return mending({ span, text: meant }, row);
    const joined = nameOfTwoWords(span, row);
    if (joined) return mending(joined, row);
    const value = valueBehind(span, row);
    return value ? [{ title: "Insert =", edits: [replaceIn(row, value.gap, " = ")], isPreferred: true }] : [];
  },
};

/** `var x = 3 V`: the line is a definition without its word. */
function leftOut(word: string, { start, end }: Span, row: Row): readonly Fix[] {
  const [space] = /^\s+(?=[\p{L}_][\p{L}\d_]*\s*=)/u.exec(row.statement.text.slice(end)) ?? [];
  if (space === undefined) return [];
  return [
    { title: `Remove ${word}`, edits: [replaceIn(row, { start, end: end + space.length }, "")], isPreferred: true },
  ];
}

/** How far a name of several words is looked for. */
const LONGEST_NAME = 100;

/** `temp rise = 3 K`. */
function nameOfTwoWords({ start }: Span, { statement: { text } }: Row): { span: Span; text: string } | undefined {
  const [words] =
    /^[\p{L}_][\p{L}\d_]*(?:[ \t]+[\p{L}\d_]+)+(?=\s*(?:\[[^\]\n]*\]\s*)?=)/u.exec(
      text.slice(start, start + LONGEST_NAME),
    ) ?? [];
  return words === undefined
    ? undefined
    : { span: { start, end: start + words.length }, text: words.replace(/\s+/g, "_") };
}

/** `supply 5 V`: a number stands right behind the name. */
function valueBehind({ end }: Span, { statement: { text } }: Row): { gap: Span; text: string } | undefined {
  const [, space, value] = /^(\s+)(-?\d[^=<>#"\n]*?)\s*(?:#.*)?$/.exec(text.slice(end, end + LONGEST_NAME)) ?? [];
  return value === undefined ? undefined : { gap: { start: end, end: end + space.length }, text: value };
}

/** What opens a statement in other languages, and stands elsewhere in this one. */
const OTHER_STATEMENTS: ReadonlyMap<string, string> = new Map([
  ["if", "A choice between two values is one itself: `x = if a > b then 1 V else 2 V`."],
  ["for", "What is repeated is a sum, `x = sum(k * I for k = 1 .. 10)`, or the column of a table."],
  ["while", "What is repeated is a sum, `x = sum(k * I for k = 1 .. 10)`, or the column of a table."],
  ["def", "A function is defined by its formula: `drop(I, R) = I * R`."],
  ["func", "A function is defined by its formula: `drop(I, R) = I * R`."],
  ["function", "A function is defined by its formula: `drop(I, R) = I * R`."],
  ["var", "A definition begins with its name: `x = 3 V`."],
  ["set", "A definition begins with its name: `x = 3 V`."],
  ["define", "A definition begins with its name: `x = 3 V`."],
  ["print", "Every value is shown beside its line; nothing has to be printed."],
  ["show", "Every value is shown beside its line; nothing has to be printed."],
]);

function openingMeant(word: string): string | undefined {
  return USUAL.get(word.toLowerCase()) ?? nearestName([...OPENING_WORDS], word);
}

/** Words that other notations open such a line with. */
const USUAL: ReadonlyMap<string, string> = new Map([
  ["shall", "must"],
  ["require", "must"],
  ["requires", "must"],
  ["assert", "must"],
  ["check", "must"],
  ["verify", "must"],
  ["ensure", "must"],
  ["want", "should"],
  ["prefer", "should"],
  ["suppose", "assume"],
  ["assuming", "assume"],
  ["guess", "assume"],
  ["known", "given"],
  ["input", "given"],
  ["const", "given"],
  ["param", "given"],
  ["parameter", "given"],
  ["import", "use"],
  ["include", "use"],
  ["count", "items"],
  ["unit", "items"],
  ["pick", "choose"],
  ["select", "choose"],
]);

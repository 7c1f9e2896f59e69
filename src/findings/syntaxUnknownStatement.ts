import { nearestName } from "../engine/suggest";
import { OPENING_WORDS } from "../syntax/name";
import type { Row } from "../engine/snapshot";
import type { Span } from "../text/span";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `asume V_f = 3 V`: the first word opens no statement. */
export const syntaxUnknownStatement: Wording<"syntax.unknownStatement"> = {
  severity: "error",
  reference:
    "A calculation line is a definition `NAME = …` or begins with an opening word such as `given`, `assume` or `must`. Prose is not indented.",
  message: ({ word, span }, { row }) => {
    const meant = openingMeant(word);
    const joined = nameOfTwoWords(span, row);
    if (meant === undefined && joined) return `A name is one word: \`${joined.text}\`.`;
    if (meant !== undefined) return `\`${word}\` opens no statement. Did you mean \`${meant}\`?`;
    return `\`${word}\` opens no statement. Write a definition, \`NAME = …\`, or begin with a word such as \`given\`, \`assume\` or \`must\`.`;
  },
  fixes: ({ word, span }, { row }) => {
    const meant = openingMeant(word);
    const joined = nameOfTwoWords(span, row);
    if (meant === undefined && joined)
      return [{ title: `Write ${joined.text}`, edits: [replaceIn(row, joined.span, joined.text)], isPreferred: true }];
    return meant === undefined
      ? []
      : [{ title: `Write ${meant}`, edits: [replaceIn(row, span, meant)], isPreferred: true }];
  },
};

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

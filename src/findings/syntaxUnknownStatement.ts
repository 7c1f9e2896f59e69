import { nearestName } from "../engine/suggest";
import { OPENING_WORDS } from "../syntax/name";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `asume V_f = 3 V`: the first word opens no statement. */
export const syntaxUnknownStatement: Wording<"syntax.unknownStatement"> = {
  severity: "error",
  reference:
    "A calculation line is a definition `NAME = …` or begins with an opening word such as `given`, `assume` or `must`. Prose is not indented.",
  message: ({ word }) => {
    const meant = openingMeant(word);
    if (meant !== undefined) return `\`${word}\` opens no statement. Did you mean \`${meant}\`?`;
    return `\`${word}\` opens no statement. Write a definition, \`NAME = …\`, or begin with a word such as \`given\`, \`assume\` or \`must\`.`;
  },
  fixes: ({ word, span }, { row }) => {
    const meant = openingMeant(word);
    return meant === undefined
      ? []
      : [{ title: `Write ${meant}`, edits: [replaceIn(row, span, meant)], isPreferred: true }];
  },
};

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

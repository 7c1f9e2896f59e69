import { inchOf, inchText } from "../phrases/slips/units";
import type { Row } from "../engine/snapshot";
import type { ProblemOf, Wording } from "./finding";
import { mending, rewritings } from "./fixing";

/** `"adapter sheet`. */
export const syntaxUnclosedQuote: Wording<"syntax.unclosedQuote"> = {
  severity: "error",
  reference: "A text in quotes ends on the line on which it begins.",
  message: (problem, { row }) => {
    const mark = inchMark(problem, row);
    if (mark !== undefined)
      return `\`${mark}\` begins a text, and a text has no place behind a number. ${inchText(mark)}`;
    return "This text has no closing quotation mark on its line.";
  },
  fixes: (problem, { row }) => {
    const mark = inchMark(problem, row);
    if (mark === undefined) return rewritings(problem, row);
    const { start } = problem.span;
    return mending({ span: { start, end: start + 1 }, text: ` ${inchOf(mark)}` }, row);
  },
};

/** `6"`: the mark, where it stands behind a number. */
function inchMark({ span }: ProblemOf<"syntax.unclosedQuote">, { statement: { text } }: Row): string | undefined {
  return /\d$/.test(text.slice(0, span.start)) ? text[span.start] : undefined;
}

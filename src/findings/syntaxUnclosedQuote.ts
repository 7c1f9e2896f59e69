import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `"adapter sheet`. */
export const syntaxUnclosedQuote: Wording<"syntax.unclosedQuote"> = {
  severity: "error",
  reference: "A text in quotes ends on the line on which it begins.",
  message: ({ span }, { row }) => {
    const isInch = /\d\s*$/.test(row.statement.text.slice(0, span.start));
    return `This text has no closing quotation mark on its line.${isInch ? " An inch is written `in`, a foot `ft`." : ""}`;
  },
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `"adapter sheet`. */
export const syntaxUnclosedQuote: Wording<"syntax.unclosedQuote"> = {
  severity: "error",
  reference: "A text in quotes ends on the line on which it begins.",
  message: () => "This text has no closing quotation mark on its line.",
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `“adapter sheet”`. */
export const syntaxQuotes: Wording<"syntax.quotes"> = {
  severity: "error",
  reference: 'Text stands between straight quotation marks: `"`.',
  message: ({ rewritten }) => `Text stands between straight quotation marks. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `4n7F`. */
export const syntaxToleranceOrUnit: Wording<"syntax.toleranceOrUnit"> = {
  severity: "error",
  reference:
    "The last letter of a letter code is a tolerance (IEC 60062), and this one is a unit too. Set the unit off by a space.",
  message: ({ span, rewritten }, { row }) =>
    `The last letter of \`${row.statement.text.slice(span.start, span.end)}\` can be a tolerance or the unit. For the unit write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

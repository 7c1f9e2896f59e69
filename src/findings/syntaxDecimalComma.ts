import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `3,3 V`, `1,000 V`. */
export const syntaxDecimalComma: Wording<"syntax.decimalComma"> = {
  severity: "error",
  reference: "The decimal sign is a point, and digits are grouped by `_`: `1_000.5`.",
  message: ({ span, rewritten }, { row }) => {
    const written = row.statement.text.slice(span.start, span.end);
    const why = rewritten.length > 1 ? `\`${written}\` can be read in two ways` : "The decimal sign is a point";
    return rewritten.length === 0 ? `${why}, not a comma.` : `${why}. Write ${alternatives(rewritten)}.`;
  },
  fixes: (problem, { row }) => rewritings(problem, row),
};

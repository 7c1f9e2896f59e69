import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `3,3 V`, `1,000 V`, `1'000.5 V`. */
export const syntaxDecimalComma: Wording<"syntax.decimalComma"> = {
  severity: "error",
  reference: "The decimal sign is a point, and digits are grouped by `_`: `1_000.5`.",
  message: ({ span, rewritten }, { row }) => {
    const written = row.statement.text.slice(span.start, span.end);
    const isPlainComma = /^[\d_]+,\d+$/.test(written);
    const rule = isPlainComma
      ? "The decimal sign is a point"
      : "The decimal sign is a point, and digits are grouped by `_`";
    const why = rewritten.length > 1 ? `\`${written}\` can be read in two ways` : rule;
    return rewritten.length === 0
      ? `${why}, not a comma. A list stands in brackets: \`[1, 2, 3]\`.`
      : `${why}. Write ${alternatives(rewritten)}.`;
  },
  fixes: (problem, { row }) => rewritings(problem, row),
};

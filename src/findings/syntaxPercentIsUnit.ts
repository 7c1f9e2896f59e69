import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `a % b`. */
export const syntaxPercentIsUnit: Wording<"syntax.percentIsUnit"> = {
  severity: "error",
  reference: "`%` is a unit and belongs to a number. The remainder is `mod(a, b)`.",
  message: ({ rewritten }) =>
    rewritten.length === 0
      ? "`%` is a unit and belongs to a number."
      : `\`%\` is a unit. For the remainder write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

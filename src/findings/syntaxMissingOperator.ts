import { wayOutIn, type WayOut } from "../phrases/slips/wayOut";
import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { Row } from "../engine/snapshot";
import type { ProblemOf, Wording } from "./finding";
import { alternatives, mending, rewritings } from "./fixing";

/** `2 (a + b)`. */
export const syntaxMissingOperator: Wording<"syntax.missingOperator"> = {
  severity: "error",
  reference: "Nothing is multiplied by standing side by side. Write `*`.",
  message: (problem, { row }) => {
    const printed = unequalLimits(row, problem.span);
    if (printed) return `A tolerance in brackets is not read.${unequalLimitsText(printed)}`;
    const meant = bracketMeant(problem, row);
    return meant?.text ?? `Nothing is multiplied by standing side by side. Write ${alternatives(problem.rewritten)}.`;
  },
  fixes: (problem, { row }) => {
    const printed = unequalLimits(row, problem.span);
    const meant = printed ? undefined : bracketMeant(problem, row);
    return meant ? mending(meant.edit, row) : rewritings(printed ?? problem, row);
  },
};

/** What stands in the brackets behind a number is no factor: `3 V (approx)`. */
function bracketMeant({ span }: ProblemOf<"syntax.missingOperator">, row: Row): WayOut | undefined {
  const open = row.statement.text.indexOf("(", span.start);
  return open < 0 ? undefined : wayOutIn(row, open);
}

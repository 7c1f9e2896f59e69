import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";
import { unequalLimits, unequalLimitsFix, unequalLimitsText } from "./unequalLimits";

/** `2 (a + b)`. */
export const syntaxMissingOperator: Wording<"syntax.missingOperator"> = {
  severity: "error",
  reference: "Nothing is multiplied by standing side by side. Write `*`.",
  message: ({ rewritten, span }, { row }) => {
    const printed = unequalLimits(row, span);
    const plain = "Nothing is multiplied by standing side by side.";
    return printed ? plain + unequalLimitsText(printed) : `${plain} Write ${alternatives(rewritten)}.`;
  },
  fixes: (problem, { row }) => {
    const printed = unequalLimits(row, problem.span);
    return printed ? [unequalLimitsFix(printed, row)] : rewritings(problem, row);
  },
};

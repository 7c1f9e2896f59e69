import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

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
    return rewritings(printed ?? problem, row);
  },
};

import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `==`, `**`, `&&`: signs of other languages. */
export const syntaxOtherSign: Wording<"syntax.otherSign"> = {
  severity: "error",
  reference:
    "A sign of another language, such as `==`, `**` or `&&`. It is read as what it means; write the sign of this one.",
  message: ({ found, rewritten, span }, { row }) => {
    if (rewritten.length > 1) return `\`${found}\` can be read in two ways. Write ${alternatives(rewritten)}.`;
    const [meant] = rewritten;
    if (meant !== "") return `\`${found}\` is written \`${meant}\` here.`;
    const printed = unequalLimits(row, span);
    return `\`${found}\` is not written before a value.${printed ? unequalLimitsText(printed) : ""}`;
  },
  fixes: (problem, { row }) => {
    const printed = problem.found === "+" ? unequalLimits(row, problem.span) : undefined;
    return rewritings(printed ?? problem, row);
  },
};

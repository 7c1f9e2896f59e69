import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `x ± 5 %`. */
export const syntaxPlusMinusAfterQuantity: Wording<"syntax.plusMinusAfterQuantity"> = {
  severity: "error",
  reference:
    "`±` belongs to a number. An uncertainty of its own is multiplied by `(1 ± 2 %)` or added as `(0 V ± 0.1 V)`.",
  message: ({ rewritten }) =>
    rewritten.length === 0
      ? "`±` belongs to a number, and a number is expected behind it."
      : `\`±\` belongs to a number, not to a quantity. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `2 (a + b)`. */
export const syntaxMissingOperator: Wording<"syntax.missingOperator"> = {
  severity: "error",
  reference: "Nothing is multiplied by standing side by side. Write `*`.",
  message: ({ rewritten }) => `Nothing is multiplied by standing side by side. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `a * b || c`. */
export const syntaxParallelNeedsBrackets: Wording<"syntax.parallelNeedsBrackets"> = {
  severity: "error",
  reference: "Beside `*` and `/` a parallel connection needs brackets, because not everyone reads it alike.",
  message: ({ rewritten }) => `What is in parallel can be read in two ways. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

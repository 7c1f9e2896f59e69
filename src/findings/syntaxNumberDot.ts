import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `.5`, `2.` */
export const syntaxNumberDot: Wording<"syntax.numberDot"> = {
  severity: "error",
  reference: "A number has a digit on either side of its point, so that no point is overlooked.",
  message: ({ rewritten }) => `A number has a digit on either side of its point. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

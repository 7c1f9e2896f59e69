import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `3–5 V`. */
export const syntaxDashBetweenNumbers: Wording<"syntax.dashBetweenNumbers"> = {
  severity: "error",
  reference: "A dash between numbers can be a range or a difference. A range is written `..`, a difference `-`.",
  message: ({ rewritten }) => `The dash can be a range or a difference. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `a + if c then d else e`. */
export const syntaxNeedsBrackets: Wording<"syntax.needsBrackets"> = {
  severity: "error",
  reference: "A part that begins with `if` or `not` stands in brackets inside a calculation.",
  message: ({ word }) => `A part that begins with \`${word}\` needs brackets here.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

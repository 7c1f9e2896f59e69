import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `x = 3 V;` */
export const syntaxSemicolon: Wording<"syntax.semicolon"> = {
  severity: "error",
  reference: "A statement ends with its line, without a sign.",
  message: () => "A statement ends with its line. Remove the semicolon.",
  fixes: (problem, { row }) => rewritings(problem, row),
};

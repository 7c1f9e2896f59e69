import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `5 1/4 in`. */
export const syntaxMixedNumber: Wording<"syntax.mixedNumber"> = {
  severity: "error",
  reference: "A whole number beside a fraction is not read as their sum. Write one fraction, or a decimal.",
  message: ({ rewritten }) => `A whole number and a fraction are two numbers. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

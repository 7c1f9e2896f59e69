import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `8/2^2`, `x^1/2`. */
export const syntaxAmbiguousFraction: Wording<"syntax.ambiguousFraction"> = {
  severity: "error",
  reference:
    "Two integers around a slash without spaces are one number. Beside `^` or `/` that is easily misread: use spaces or brackets.",
  message: ({ span, rewritten }, { row }) =>
    `\`${row.statement.text.slice(span.start, span.end)}\` is one number, and beside this sign it does not look like one. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `8/2^2`, `a ^ 1/2`, `3 m^1/2`. */
export const syntaxAmbiguousFraction: Wording<"syntax.ambiguousFraction"> = {
  severity: "error",
  reference:
    "Two integers around a slash without spaces are one number. Beside `^`, `/` or `||`, and in the exponent of a unit, that is easily misread: use spaces or brackets.",
  message: ({ span, rewritten }, { row }) => {
    const written = row.statement.text.slice(span.start, span.end);
    const why = /^\d/.test(written)
      ? "is one number, and beside this sign it does not look like one"
      : "can be a root of the unit or a division";
    return `\`${written}\` ${why}. Write ${alternatives(rewritten)}.`;
  },
  fixes: (problem, { row }) => rewritings(problem, row),
};

import { findName, type Scope } from "../phrases/side";
import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `x ± 5 %`. */
export const syntaxPlusMinusAfterQuantity: Wording<"syntax.plusMinusAfterQuantity"> = {
  severity: "error",
  reference:
    "`±` belongs to a number. An uncertainty of its own is multiplied by `(1 ± 2 %)` or added as `(0 V ± 0.1 V)`.",
  message: ({ rewritten, span }, { row, context }) => {
    if (rewritten.length === 0) return "`±` belongs to a number, and a number is expected behind it.";
    const code = letterCode(row.statement.text.slice(span.start, span.end), context);
    return code === undefined
      ? `\`±\` belongs to a number, not to a quantity. Write ${alternatives(rewritten)}.`
      : `\`±\` belongs to a number, and a letter code begins with a digit. Write \`0${code}\`.`;
  },
  fixes: (problem, { row, context }) => {
    const { start, end } = problem.span;
    const written = row.statement.text.slice(start, end);
    return rewritings(
      letterCode(written, context) !== undefined ? { span: problem.span, rewritten: [`0${written}`] } : problem,
      row,
    );
  },
};

/** The code that a text begins with, unless a quantity has that name. */
function letterCode(text: string, scope: Scope): string | undefined {
  const code = LETTER_CODE.exec(text)?.[0];
  return code === undefined || findName(code, scope) ? undefined : code;
}

/** `R091 ± 1 %`, as it is printed on a part. */
const LETTER_CODE = /^R\d+\b/;

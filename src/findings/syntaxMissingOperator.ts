import { wayOutIn, type WayOut } from "../phrases/slips/wayOut";
import { findName } from "../phrases/side";
import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { Row } from "../engine/snapshot";
import type { FindingContext, ProblemOf, Wording } from "./finding";
import { alternatives, mending, rewritings } from "./fixing";

/** `2 (a + b)`. */
export const syntaxMissingOperator: Wording<"syntax.missingOperator"> = {
  severity: "error",
  reference: "Nothing is multiplied by standing side by side. Write `*`.",
  message: (problem, { row, context }) => {
    const printed = unequalLimits(row, problem.span);
    if (printed) return `A tolerance in brackets is not read.${unequalLimitsText(printed)}`;
    const meant = bracketMeant(problem, row, context);
    return meant?.text ?? `Nothing is multiplied by standing side by side. Write ${alternatives(problem.rewritten)}.`;
  },
  fixes: (problem, { row, context }) => {
    const printed = unequalLimits(row, problem.span);
    const meant = printed ? undefined : bracketMeant(problem, row, context);
    return meant ? mending(meant.edit, row) : rewritings(printed ?? problem, row);
  },
};

/** What stands in the brackets behind a number is no factor: `3 V (approx)`. */
function bracketMeant(
  { span }: ProblemOf<"syntax.missingOperator">,
  row: Row,
  context: FindingContext,
): WayOut | undefined {
  const open = row.statement.text.indexOf("(", span.start);
  return open < 0 ? undefined : (wayOutIn(row, open) ?? remark(open, row, context));
}

/** `1 W (derated)`: a word that is nothing here. */
function remark(open: number, { statement, cells }: Row, context: FindingContext): WayOut | undefined {
  const [whole, word] = /^\(\s*([\p{L}_][\p{L}\d_]*)\s*\)\s*$/u.exec(statement.text.slice(open)) ?? [];
  if (whole === undefined || cells || findName(word, context)) return undefined;
  const edit = { span: { start: open, end: open + whole.trimEnd().length }, text: `# ${word}` };
  return { text: `\`${word}\` is no quantity of this note. A remark stands behind \`#\`.`, edit };
}

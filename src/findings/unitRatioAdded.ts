import type { Side } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { RATIO } from "../quantity/dimension";
import { withForgottenUnit } from "../phrases/forgottenUnit";
import { findName, sideText, type Scope } from "../phrases/side";
import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { ProblemOf, Wording } from "./finding";
import { replaceIn, rewritings } from "./fixing";

/** `12 V + 5 %`. */
export const unitRatioAdded: Wording<"unit.ratioAdded"> = {
  severity: "error",
  reference: "A ratio cannot be added to a quantity that has a unit. Five per cent more is `x * (1 + 5 %)`.",
  message: (problem, { row, context }) => {
    const { sign, left, right } = problem;
    const [a, b] = [sideText(left, row, context), sideText(right, row, context)];
    const plain = sign === "+" ? `Cannot add ${b} to ${a}.` : `Cannot subtract ${b} from ${a}.`;
    const printed = unequalLimits(row, right.span);
    if (printed) return plain + unequalLimitsText(printed);
    const scaled = scaling(problem, row, context);
    if (scaled === undefined) {
      const whole = withForgottenUnit(right, left, context) ?? withForgottenUnit(left, right, context);
      return whole === undefined ? plain : `${plain} If a unit was forgotten, write \`${whole}\`.`;
    }
    return `${plain} For ${right.text} ${sign === "+" ? "more" : "less"} write \`${scaled}\`.`;
  },
  fixes: (problem, { row, context }) => {
    const printed = unequalLimits(row, problem.right.span);
    if (printed) return rewritings(printed, row);
    const scaled = scaling(problem, row, context);
    if (scaled !== undefined)
      return [{ title: `Write ${scaled}`, edits: [replaceIn(row, problem.span, scaled)], isPreferred: true }];
    return [[problem.right, problem.left] as const, [problem.left, problem.right] as const].flatMap(([side, other]) => {
      const whole = withForgottenUnit(side, other, context);
      return whole === undefined ? [] : [{ title: `Write ${whole}`, edits: [replaceIn(row, side.span, whole)] }];
    });
  },
};

/** `12 V * (1 + 5 %)`, where the ratio is written as a share. */
function scaling(
  { sign, left, right, span }: ProblemOf<"unit.ratioAdded">,
  row: Row,
  scope: Scope,
): string | undefined {
  if (right.dimension !== RATIO || !isShare(right, scope)) return undefined;
  const written = row.statement.text.slice(span.start, span.end);
  const base = needsBrackets(left.text) ? `(${left.text})` : left.text;
  return written.startsWith(left.text) ? `${base} * (1 ${sign} ${right.text})` : undefined;
}

/** Per cent and its like, as written or as the unit that a name is stated in. */
function isShare({ text, name }: Side, scope: Scope): boolean {
  if (name === undefined) return /(%|‰|ppm|ppb)\)?$/.test(text);
  const outcome = findName(name, scope)?.outcome;
  return outcome?.kind === "quantity" && /^(%|‰|ppm|ppb)$/.test(outcome.unit?.text ?? "");
}

/** Whether a sum would come apart behind a `*`. Signs in brackets and exponents do no harm, but brackets do none either. */
function needsBrackets(text: string): boolean {
  return /[+\-−]\s/.test(text) || /^\s*if\b/.test(text);
}

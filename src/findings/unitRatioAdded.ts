import type { Side } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { RATIO } from "../quantity/dimension";
import { withForgottenUnit } from "../phrases/forgottenUnit";
import { findName, sideText, type Scope } from "../phrases/side";
import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { ProblemOf, Wording } from "./finding";
import { alternatives, replaceIn, rewritings } from "./fixing";

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
      const limits = dashedLimits(problem);
      const forgotten =
        (limits === undefined ? "" : ` For limits write \`${limits}\`.`) +
        (whole === undefined ? "" : ` If a unit was forgotten, write \`${whole}\`.`);
      const raised = raisedUnit(problem, row);
      if (raised.length === 0) return plain + forgotten;
      const exponent = ` If it is the exponent of the unit, write ${alternatives(raised)}.`;
      return plain + exponent + (isCompound(left.text) ? "" : forgotten);
    }
    return `${plain} For ${right.text} ${sign === "+" ? "more" : "less"} write \`${scaled}\`.`;
  },
  fixes: (problem, { row, context }) => {
    const printed = unequalLimits(row, problem.right.span);
    if (printed) return rewritings(printed, row);
    const scaled = scaling(problem, row, context);
    if (scaled !== undefined)
      return [{ title: `Write ${scaled}`, edits: [replaceIn(row, problem.span, scaled)], isPreferred: true }];
    const { left, right, span } = problem;
    const forgotten = [[right, left] as const, [left, right] as const].flatMap(([side, other]) => {
      const whole = withForgottenUnit(side, other, context);
      return whole === undefined ? [] : [{ title: `Write ${whole}`, edits: [replaceIn(row, side.span, whole)] }];
    });
    const limits = dashedLimits(problem);
    if (limits !== undefined) forgotten.unshift({ title: `Write ${limits}`, edits: [replaceIn(row, span, limits)] });
    const raised = raisedUnit(problem, row).map((text) => ({
      title: `Write ${text}`,
      edits: [replaceIn(row, span, text)],
    }));
    return isCompound(left.text) && raised.length > 0 ? raised : [...raised, ...forgotten];
  },
};

/** `3 m·s-1`, `5 s-1`: an exponent without its sign, which reads as a difference. With a caret, and with a solidus. */
function raisedUnit({ sign, left, right, span }: ProblemOf<"unit.ratioAdded">, row: Row): readonly string[] {
  const written = row.statement.text.slice(span.start, span.end);
  const [, number, above = "", join, last] = /^(-?[\d._]+\s*)(?:([^\s/]+)([·*/]))?([\p{L}°µ]+)$/u.exec(left.text) ?? [];
  if (sign !== "-" || last === undefined || !/^\d$/.test(right.text)) return [];
  if (written.length !== left.text.length + 1 + right.text.length) return [];
  if (join === "/") return [`${left.text}^${right.text}`];
  const caret = `${left.text}^-${right.text}`;
  if (above === "") return [caret];
  return [caret, `${number}${above}/${last}${right.text === "1" ? "" : `^${right.text}`}`];
}

/** `4.75 - 5.25 V`: limits with a dash, as they are printed. */
function dashedLimits({ sign, left, right }: ProblemOf<"unit.ratioAdded">): string | undefined {
  const high = /^([\d._]+)\s*[^\s\d].*$/.exec(right.text)?.[1];
  const areLimits =
    sign === "-" && high !== undefined && /^[\d._]+$/.test(left.text) && Number(left.text) < Number(high);
  return areLimits ? `${left.text} .. ${right.text}` : undefined;
}

function isCompound(literal: string): boolean {
  return /[·*/]/.test(literal);
}

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

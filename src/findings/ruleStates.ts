import { buildsText } from "../phrases/builds";
import { quotedCondition } from "../phrases/condition";
import { fewOf, MOST_INPUTS } from "../phrases/inputTexts";
import { statedSides } from "../phrases/toldApart";
import { bandText, decisiveClause, rowsText, sizeText, worstBuild, worstInputs, worstInputsOf } from "../phrases/rule";
import type { InSlices } from "../engine/slices";
import type { Row } from "../engine/snapshot";
import { chooseForRule } from "../phrases/choosing";
import { narrowForRule } from "../phrases/narrowing";
import type { RuleProblem, Severity, Site, Wording } from "./finding";
import type { Fix } from "../text/fix";

type State = RuleProblem["code"];

/** A rule that is false at nominal. */
export const ruleFails: Wording<State> = {
  severity: "error",
  severityOf: weight,
  reference: "The rule is false at the nominal values. A `must` that fails is an error, a `should` a warning.",
  message: (problem, site) => sentences(problem, site, "fails"),
  fixes: choices,
};

/** A rule that is true at nominal and false at some limit. */
export const ruleFailsAtLimits: Wording<State> = {
  severity: "error",
  severityOf: weight,
  reference:
    "The rule is true at the nominal values and false somewhere inside the limits of its inputs. The message has the inputs at the worst point.",
  message: (problem, site) => sentences(problem, site, "fails at the limits"),
  fixes: choicesOrTolerances,
};

/** A rule that can be neither proved nor refuted. */
export const ruleUndecided: Wording<State> = {
  severity: "warning",
  reference:
    "There is neither a proof that the rule holds nor a case in which it fails. An undecided `must` blocks an order like one that fails.",
  message: ({ rule }, { row }) => {
    const why = rule.reason === undefined ? "" : `: ${rule.reason}`;
    return [`\`${quotedCondition(row)}\` is undecided${why}.`, ...commentOf(row)].join(" ");
  },
};

function weight({ rule }: RuleProblem): Severity {
  return rule.word === "must" ? "error" : "warning";
}

/** The rule, its state, what it lacks, both sides, where it is worst, and why it is there. */
function sentences({ rule }: RuleProblem, { row }: Site<State>, state: string): string {
  const clause = decisiveClause(rule);
  const size = clause && sizeText(clause);
  const rows = rowsText(rule);
  const builds = rule.required === undefined ? "" : buildsText(rule);
  const parts = [
    `\`${quotedCondition(row)}\` ${state}${rows ? ` in ${rows}` : ""}${builds ? `, ${builds}` : ""}${size ? `, ${worstBuild(rule)}${size}` : ""}.`,
  ];
  const band = clause && bandText(clause);
  if (band) parts.push(band);
  else if (clause) {
    const stated = statedSides(clause);
    const inputs = worstInputs(clause).filter(
      (input) => !stated.some((side) => side.startsWith(`${firstWord(input)} is `)),
    );
    const worst = inputs.length > 0 ? `, at worst where ${listed(inputs)}` : "";
    if (stated.length > 0) parts.push(`${stated.join(", and ")}${worst}.`);
  } else {
    const inputs = worstInputsOf(rule);
    if (inputs.length > 0) parts.push(`It is false where ${listed(inputs)}.`);
  }
  return [...parts, ...commentOf(row)].join(" ");
}

function firstWord(text: string): string {
  return text.slice(0, text.indexOf(" "));
}

function listed(parts: readonly string[]): string {
  if (parts.length === 1 || parts.length > MOST_INPUTS) return fewOf(parts);
  return `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
}

function commentOf({ statement: { comment } }: Row): readonly string[] {
  return comment === "" ? [] : [`Its reason: ${comment.replace(/\.?$/, ".")}`];
}

/** At most so many fixes are offered at one place. */
const MOST_FIXES = 3;

/** Of a rule that is false at nominal no tolerance is to blame. */
function choices(_: RuleProblem, { row, context }: Site<State>): InSlices<readonly Fix[]> {
  return chooseForRule(row, context);
}

/** Other values first, then what tolerance would do; where both are possible, one place is left for the second. */
function* choicesOrTolerances(_: RuleProblem, { row, context }: Site<State>): InSlices<readonly Fix[]> {
  const narrower = yield* narrowForRule(row, context, MOST_FIXES);
  const others = yield* chooseForRule(row, context);
  return [...others.slice(0, narrower.length > 0 ? MOST_FIXES - 1 : MOST_FIXES), ...narrower].slice(0, MOST_FIXES);
}

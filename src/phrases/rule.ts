import { showRatio } from "../quantity/display";
import { TEMPERATURE } from "../quantity/dimension";
import { worstCaseFactor } from "../engine/literalShapes";
import type { ClauseOutcome, InputAt, RuleOutcome } from "../engine/outcome";
import { buildsText } from "./builds";
import { digitsToTell } from "./toldApart";
import { fewOf, inputTexts } from "./inputTexts";
import { inputsAtEnd, numberText } from "./value";

/** What is to spare is judged at a glance; more digits would be read as exact. */
const ROOM_DIGITS = 3;
/** Inputs named beside a rule; the hover has them all. */
const INPUTS_NAMED = 2;

/**
 * A rule's state in words: *holds, 12 % to spare* · *fails at the limits, 3 builds in 1000, 41 % short at supply 25.2 V,
 * V_f 2.8 V* · *fails, 9 % short* · *undecided, V_f has no value* · *holds, 99.2 % of builds keep it, 99 % asked for* ·
 * *fails at the limits, 97 % of builds keep it, 99 % asked for, the worst build 41 % short at supply 25.2 V*.
 */
export function rulePhrase(rule: RuleOutcome): string {
  if (rule.isPending || (rule.awaitsBuilds && rule.required !== undefined)) return "…";
  const clause = decisiveClause(rule);
  const parts: string[] = [STATES[rule.state]];
  if (rule.state === "undecided") {
    if (rule.reason !== undefined) parts.push(rule.reason);
    return parts.join(", ");
  }
  const size = clause && sizeText(clause);
  const at = rule.state === "failsAtLimits" ? worstInputsOf(rule).slice(0, INPUTS_NAMED).join(", ") : "";
  const rows = rule.state === "holds" ? "" : rowsText(rule);
  if (rows) parts.push(rows);
  const builds = buildsText(rule);
  if (builds) parts.push(builds);
  // What holds in enough builds is short at its worst point; nobody wants to hear of that.
  if (builds && rule.state === "holds") return parts.join(", ");
  const worst = size && at ? `${size} at ${at}` : size || at;
  if (worst) parts.push(`${worstBuild(rule)}${worst}`);
  return parts.join(", ");
}

/** What is short is so at the worst point; where a share of builds decides, that has to be told apart from the share. */
export function worstBuild({ state, required, builds }: RuleOutcome): string {
  return required !== undefined && builds?.isTried && state === "failsAtLimits" ? "the worst build " : "";
}

/** Rows named beside a rule. */
const ROWS_NAMED = 3;

/** The rows that are in the rule's state, by their names, the worst first: `bar, lens and 2 more`, `row 2`. */
export function rowsText(rule: RuleOutcome): string {
  const same = rule.clauses.filter(({ state, row }) => state === rule.state && row !== undefined);
  const names = [...same].sort(byCloseness).map(({ row, rowName }) => rowName ?? `row ${row! + 1}`);
  const distinct = [...new Set(names)];
  const left = distinct.length - ROWS_NAMED;
  const shown = left > 0 ? [...distinct.slice(0, ROWS_NAMED), `${left} more`] : distinct;
  return shown.length > 1 ? `${shown.slice(0, -1).join(", ")} and ${shown[shown.length - 1]}` : shown.join("");
}

const STATES = {
  holds: "holds",
  failsAtLimits: "fails at the limits",
  fails: "fails",
  undecided: "undecided",
} as const;

/** The comparison that decides the rule: of those in its state the one with the least to spare. */
export function decisiveClause(rule: RuleOutcome): ClauseOutcome | undefined {
  const same = rule.clauses.filter(({ state }) => state === rule.state);
  const candidates = same.length > 0 || rule.failsAt ? same : rule.clauses;
  return candidates.reduce<ClauseOutcome | undefined>(
    (least, clause) => (least === undefined || byCloseness(clause, least) < 0 ? clause : least),
    undefined,
  );
}

/**
 * *12 % to spare*, *9 % short*; for temperatures and for a limit of zero the difference itself. Bounds that are only an
 * enclosure give *at least 12 % to spare* and *up to 9 % short*. Where the sides meet, *nothing to spare* or, where that
 * is too little, *both sides equal*. Empty for `=`.
 */
export function sizeText(clause: ClauseOutcome): string {
  const text = plainSize(clause);
  if (text === "" || clause.margin.standing !== "enclosed") return text;
  if (clause.room === 0) return clause.state === "holds" ? `perhaps ${text}` : text;
  return `${clause.room! < 0 ? "up to" : "at least"} ${text}`;
}

function plainSize({ spare, room, dimension, point, unit, state }: ClauseOutcome): string {
  if (room === undefined) return "";
  // `<` fails where nothing is short.
  if (room === 0) return state === "fails" || state === "failsAtLimits" ? "both sides equal" : "nothing to spare";
  const word = room < 0 ? "short" : "to spare";
  if (spare !== undefined) return `${showRatio(Math.abs(spare))} ${word}`;
  const size = Number(Math.abs(room).toPrecision(ROOM_DIGITS));
  if (point) return `${numberText(size, { dimension: TEMPERATURE, point: false })} ${word}`;
  return `${numberText(size, { dimension, point: false, unit })} ${word}`;
}

/** The inputs at the point where a comparison is worst. Empty where that is not known. */
export function worstInputsAt({ relation, margin, state, failsAt }: ClauseOutcome): readonly InputAt[] {
  if (failsAt) return failsAt;
  // What must differ and is equal at the nominal values has no worse point.
  if (relation === "!=" && state !== "holds") return [];
  const isUpper =
    relation === "<" ||
    relation === "<=" ||
    (relation === "=" && margin.high > Math.abs(margin.low)) ||
    (relation === "!=" && margin.high < 0);
  return inputsAtEnd(margin, isUpper ? "high" : "low");
}

/** The same in words: `supply 25.2 V`, `V_f 2.8 V`, those that are alike told once. */
export function worstInputs(clause: ClauseOutcome): readonly string[] {
  return inputTexts(worstInputsAt(clause), digitsToTell(clause));
}

/** The inputs at the point where the comparison that decides a rule is worst, or its condition is false. */
export function worstInputsOf(rule: RuleOutcome): readonly string[] {
  const clause = decisiveClause(rule);
  return clause ? worstInputs(clause) : inputTexts(rule.failsAt ?? []);
}

/**
 * What a worst case counts of inputs that have no limits of their own: *The worst case counts m, n to ± 3, d to
 * ± 19.2 standard uncertainties*. Empty where all have limits.
 */
export function countedText(clause: ClauseOutcome): string {
  const byFactor = new Map<number, string[]>();
  for (const { input } of worstInputsAt(clause)) {
    const factor = Number(worstCaseFactor(input.spread).toPrecision(3));
    if (factor > 0) byFactor.set(factor, [...(byFactor.get(factor) ?? []), input.name]);
  }
  const parts = [...byFactor].map(([factor, names]) => `${fewOf([...new Set(names)])} to ± ${factor}`);
  return parts.length === 0 ? "" : `The worst case counts ${parts.join(", ")} standard uncertainties`;
}

/** Of `=` with limits, that a band is written by another word; empty of all others. */
export function bandText({ relation, leftText, rightText }: ClauseOutcome): string {
  if (relation !== "=" || !/±|\+\/-|\.\./.test(rightText)) return "";
  const band = `${leftText} inside ${rightText}`;
  return `\`=\` asks for every value between the limits at once. For a band write \`${band}\`.`;
}

/** The one with the least to spare first: by the share of its limit, and by what it is in units where there is no such share. */
function byCloseness(a: ClauseOutcome, b: ClauseOutcome): number {
  return compared(closeness(a), closeness(b)) || compared(a.room ?? Infinity, b.room ?? Infinity);
}

function closeness({ spare, room }: ClauseOutcome): number {
  return spare ?? (room === undefined ? Infinity : Math.sign(room) * Number.MAX_VALUE);
}

function compared(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

import { siUnit } from "../quantity/dimension";
import type { Extent, InputAt, RuleOutcome, RuleState } from "../engine/outcome";
import type { Origin } from "../engine/problem";
import type { Row, Snapshot } from "../engine/snapshot";
import type { ValueDistribution } from "../engine/distribution";
import type { Contribution, UncertaintyBudget } from "../engine/uncertaintyBudget";
import type { OtherChoice } from "../phrases/choosing";
import { conditionText } from "../phrases/condition";
import { intervalText } from "../phrases/distributionText";
import { decisiveClause, worstInputsAt } from "../phrases/rule";
import { cellNameOf, cellText, cellType, isComputedCell, isEmptyCell, rowNamesOf } from "../phrases/tableCells";
import { extentText, inputsAtEnd, numberText, type Showable } from "../phrases/value";
import type { GuessToSettle, OpenItem } from "./feature";

/** What is known of one note, as both commands of the command line print it in JSON. Lines and columns count from 1. */
export interface NoteRecord {
  readonly path: string;
  readonly values: readonly ValueRecord[];
  readonly rules: readonly RuleRecord[];
  readonly findings: readonly FindingRecord[];
  readonly openItems: readonly OpenItemRecord[];
  /** The guesses that are still open, those that move a `must` most first. */
  readonly settleFirst: readonly GuessRecord[];
}

/**
 * A quantity, in the order of the text. One that has no value is here with its name, line and kind. A list gives one record a member: `x[1]`, `x[2]` …, counted from 1; a table one a cell: `parts.bar.qty`. Conditions that are true or
 * false have no record.
 */
export interface ValueRecord {
  readonly name: string;
  readonly line: number;
  readonly kind: Origin;
  /** Nominal. In the coherent SI unit named by `unit`; temperature points in K. Absent where there is none, or where it is not finite. */
  readonly value?: number;
  readonly min?: number;
  readonly max?: number;
  /** `V`, `W/(m·K)`, `LED`, `EUR`; `1` for a ratio. Absent where no dimension could be worked out. */
  readonly unit?: string;
  /** As it stands beside the line: `0.4 .. 3 .. 5.6 V`; empty where there is no value. */
  readonly shown: string;
  /** Whether `min` and `max` occur; else they are guaranteed bounds. Absent where there is no range. */
  readonly attained?: boolean;
  /** Of bounds that are not attained: the least and greatest values that were found to occur. */
  readonly found?: { readonly min?: number; readonly max?: number };
  /** The inputs at either end, by name, each with its value as shown. Absent where nothing is uncertain, or it is not known. */
  readonly inputsAt?: { readonly min: InputsByName; readonly max: InputsByName };
  /** To first order (JCGM 100), in `unit`; of a temperature on a scale a difference in K. Absent where nothing is uncertain. */
  readonly standardUncertainty?: number;
  /** It varies, but has no slope at the nominal values, so that there is none to first order. */
  readonly variesWithoutSlope?: true;
  /** Effective degrees of freedom (JCGM 100, G.4.1), where they are finite. */
  readonly degreesOfFreedom?: number;
  /** What each input brings, the largest first; with `interactions` the shares add up to 1. */
  readonly contributions?: readonly ContributionRecord[];
  /** What the inputs do together and not one by one. */
  readonly interactions?: Omit<ContributionRecord, "name">;
  /** By trials (JCGM 101), where they were asked for: of builds, with operating conditions nominal. In `unit`. */
  readonly mean?: number;
  /** Standard deviation; of a temperature on a scale a difference in K. */
  readonly sd?: number;
  /** It holds 95 % of builds, with as many below it as above. */
  readonly interval95?: readonly [low: number, high: number];
  /** The same about the mean, as a value is shown: `18.2 .. 20 .. 21.9 mA`. */
  readonly interval95Shown?: string;
}

export interface ContributionRecord {
  readonly name: string;
  /** Of the range. */
  readonly share?: number;
  /** Of the variance from build to build. Absent of operating conditions, which have no part in it. */
  readonly varianceShare?: number;
}

/** `{ "V_f": "3.2 V" }`. Of two inputs that are written alike, the second is `NAME (2)`. */
export type InputsByName = Readonly<Record<string, string>>;

export interface RuleRecord {
  readonly line: number;
  /** Where it ends; absent where that is the same line. */
  readonly lastLine?: number;
  readonly word: "must" | "should";
  /** As written, without its comment, on one line. */
  readonly condition: string;
  readonly state: RuleState;
  /** (limit − worst) / |limit| for an upper limit, the mirror for a lower; negative where it is short. Absent without a single limit. */
  readonly spare?: number;
  /** The inputs at the worst point of the comparison that decides the rule. */
  readonly inputsAt?: { readonly worst: InputsByName };
  /** Why it is undecided. */
  readonly reason?: string;
  /** Of builds that keep it, at the operating conditions where they are fewest; 1 where it holds throughout the limits. Absent where it was not tried. */
  readonly share?: number;
  /** The share of builds that it asks for. */
  readonly required?: number;
  /** Of a rule that fails: the nearest other value of a choice with which it holds, and whether all rules on that choice do. */
  readonly holdsWith?: { readonly name: string; readonly value: string; readonly allRules: boolean };
}

export interface FindingRecord {
  readonly code: string;
  readonly severity: "error" | "warning" | "information" | "hint";
  readonly line: number;
  /** In UTF-16 code units. */
  readonly column: number;
  readonly message: string;
}

export interface OpenItemRecord {
  readonly line: number;
  /** Absent where the item has no weight. */
  readonly word?: "must" | "should";
  readonly text: string;
}

export interface GuessRecord {
  readonly name: string;
  readonly line: number;
  readonly shown: string;
  /** It is stated with limits; else it is taken to be off by a tenth, or by 10 K. */
  readonly hasLimits: boolean;
  /** The `must` that it moves most; absent where none rests on it. */
  readonly must?: {
    /** Of its note, where that is another. */
    readonly path?: string;
    readonly line: number;
    readonly condition: string;
    /** What the guess by itself can take of what the rule has to spare at nominal, or make up of what it is short. Absent where that is without bound. */
    readonly share?: number;
  };
  /** The same in words. */
  readonly reason: string;
}

/** What speaks against a note: each slip is told once. */
export interface Objections {
  /** Each `must` that does not hold. */
  readonly unkept: readonly RuleRecord[];
  /** The errors elsewhere: one in a `must` that does not hold is the reason for that. */
  readonly errors: readonly FindingRecord[];
  /** Each task item that begins with `must:` and is not ticked. */
  readonly open: readonly OpenItemRecord[];
}

export function objections({ rules, findings, openItems }: NoteRecord): Objections {
  const unkept = rules.filter(({ word, state }) => word === "must" && state !== "holds");
  const isTold = (at: number) => unkept.some(({ line, lastLine = line }) => line <= at && at <= lastLine);
  return {
    unkept,
    errors: findings.filter(
      ({ severity, code, line }) => severity === "error" && !code.startsWith("rule.") && !isTold(line),
    ),
    open: openItems.filter(({ word }) => word === "must"),
  };
}

/** What a record needs of a finding. */
interface Found extends Pick<FindingRecord, "code" | "severity" | "message"> {
  readonly span: { readonly start: number };
}

/** What a record needs to know beyond the snapshot. */
export interface RecordContext {
  readonly findings: readonly Found[];
  readonly openItems: readonly OpenItem[];
  /** The guesses of the note. */
  readonly guesses: readonly GuessToSettle[];
  /** What the uncertainty of a value of a row is made of; nothing where that is not asked for. */
  budget(row: Row, result: number): UncertaintyBudget | undefined;
  /** How a value of a row is distributed, by trials; nothing where that is not asked for. */
  distribution(row: Row, result: number): ValueDistribution | undefined;
  /** Another value of a choice with which a rule that fails would hold; nothing where that is not asked for. */
  otherChoice(rule: Row): OtherChoice | undefined;
}

export function record(snapshot: Snapshot, context: RecordContext): NoteRecord {
  const { findings, openItems, guesses, otherChoice } = context;
  const lineOf = (offset: number) => snapshot.lines.lineAt(offset) + 1;
  return {
    path: snapshot.path,
    values: snapshot.rows.flatMap((row) =>
      row.cells ? cellsOf(row, snapshot, lineOf, context.budget) : valuesOf(row, lineOf(row.start), context),
    ),
    rules: snapshot.rows.flatMap((row) =>
      ruleOf(row, lineOf(row.start), lineOf(row.start + row.statement.text.length), otherChoice),
    ),
    findings: findings.map(({ code, severity, message, span }) => {
      const { line, column } = snapshot.lines.positionAt(span.start);
      return { code, severity, line: line + 1, column: column + 1, message };
    }),
    openItems: openItems.map(({ span, word, text }) => ({ line: lineOf(span.start), ...(word ? { word } : {}), text })),
    settleFirst: guesses.map((guess) => guessOf(guess, snapshot.path)),
  };
}

function guessOf({ name, line, shown, hasLimits, must, reason }: GuessToSettle, path: string): GuessRecord {
  const moved = must && {
    ...(must.path === path ? {} : { path: must.path }),
    line: must.line,
    condition: must.condition,
    ...share("share", must.share),
  };
  return { name, line, shown, hasLimits, ...(moved ? { must: moved } : {}), reason };
}

function valuesOf(row: Row, line: number, { budget, distribution }: RecordContext): readonly ValueRecord[] {
  const { outcome } = row;
  if (outcome.kind !== "quantity") return [];
  const { name, origin: kind, dimension, isList, values } = outcome;
  if (values.length === 0) return [{ name, line, kind, shown: "" }];
  const unit = siUnit(dimension);
  return values.map((extent, i) => ({
    name: isList ? `${name}[${i + 1}]` : name,
    line,
    kind,
    ...numbersOf(extent),
    unit,
    shown: extentText(extent, outcome),
    ...doubtOf(extent, extent.standing === "exact" ? undefined : budget(row, i)),
    ...trialsOf(extent.standing === "exact" ? undefined : distribution(row, i), outcome),
  }));
}

/** The cells of a column of quantities, but those left empty, each by its name in formulas and on the line of its row. */
function cellsOf(
  row: Row,
  snapshot: Snapshot,
  lineOf: (offset: number) => number,
  budget: RecordContext["budget"],
): readonly ValueRecord[] {
  const { outcome, cells } = row;
  if (outcome.kind !== "column" || outcome.of !== "quantity" || !cells) return [];
  const names = rowNamesOf(snapshot, outcome);
  return outcome.values.flatMap((extent, index) => {
    if (isEmptyCell(row, index)) return [];
    const start = cells.lines.starts[index + 1];
    const name = cellNameOf(outcome, names, index);
    const line = lineOf(snapshot.spanOf(row, { start, end: start }).start);
    const kind: Origin = isComputedCell(row, index) ? "derived" : "given";
    const shown = cellText(outcome, index);
    if (shown === "") return { name, line, kind, shown };
    const unit = siUnit(cellType(outcome, index).dimension);
    const doubt = doubtOf(extent, extent.standing === "exact" ? undefined : budget(row, index));
    return { name, line, kind, ...numbersOf(extent), unit, shown, ...doubt };
  });
}

function numbersOf({ nominal, low, high, standing }: Extent): Pick<ValueRecord, "value" | "min" | "max"> {
  const limits = standing === "undefined" ? {} : { ...finite("min", low), ...finite("max", high) };
  return { ...finite("value", nominal), ...limits };
}

type Doubt = Pick<
  ValueRecord,
  | "attained"
  | "found"
  | "inputsAt"
  | "standardUncertainty"
  | "variesWithoutSlope"
  | "degreesOfFreedom"
  | "contributions"
  | "interactions"
>;

/** How far a value may be off, and by what. A long list of inputs at the ends is kept in the budget only. */
function doubtOf(extent: Extent, budget: UncertaintyBudget | undefined): Doubt {
  const pushes = extent.pushes.length > 0 || extent.standing !== "attained" ? extent.pushes : (budget?.pushes ?? []);
  return { ...endsOf({ ...extent, pushes }), ...uncertaintyOf(budget) };
}

/** Whether the ends occur, how far the values are known to reach, and where. */
function endsOf(extent: Extent): Pick<ValueRecord, "attained" | "found" | "inputsAt"> {
  const { standing, found } = extent;
  if (standing === "undefined") return {};
  const [min, max] = [byName(inputsAtEnd(extent, "low")), byName(inputsAtEnd(extent, "high"))];
  const isKnown = Object.keys(min).length > 0 && Object.keys(max).length > 0;
  return {
    attained: standing !== "enclosed",
    ...(standing === "enclosed" && found
      ? { found: { ...finite("min", found.low), ...finite("max", found.high) } }
      : {}),
    ...(isKnown ? { inputsAt: { min, max } } : {}),
  };
}

function trialsOf(
  given: ValueDistribution | undefined,
  of: Showable,
): Pick<ValueRecord, "mean" | "sd" | "interval95" | "interval95Shown"> {
  if (!given) return {};
  const { mean, standardDeviation, interval95 } = given;
  const ends = [interval95.low, interval95.high].map((end) => Number(end.toPrecision(DIGITS)));
  return {
    ...finite("mean", mean),
    ...finite("sd", standardDeviation),
    ...(ends.every(Number.isFinite)
      ? { interval95: [ends[0], ends[1]], interval95Shown: intervalText(given, of) }
      : {}),
  };
}

function byName(inputs: readonly InputAt[]): InputsByName {
  const named = new Map<string, string>();
  for (const { input, value } of inputs) {
    let name = input.name;
    for (let count = 2; named.has(name); count++) name = `${input.name} (${count})`;
    named.set(name, numberText(value, input));
  }
  return Object.fromEntries(named);
}

function uncertaintyOf(
  budget: UncertaintyBudget | undefined,
): Pick<
  ValueRecord,
  "standardUncertainty" | "variesWithoutSlope" | "degreesOfFreedom" | "contributions" | "interactions"
> {
  if (!budget) return {};
  const { standardUncertainty, degreesOfFreedom, contributions, interactions } = budget;
  const left = sharesOf(interactions);
  return {
    ...finite("standardUncertainty", standardUncertainty ?? NaN),
    ...(budget.variesWithoutSlope ? { variesWithoutSlope: true } : {}),
    ...finite("degreesOfFreedom", degreesOfFreedom ?? NaN),
    contributions: contributions.map((each) => ({ name: each.input.name, ...sharesOf(each) })),
    ...(Object.values(left).some((share) => share > 0) ? { interactions: left } : {}),
  };
}

function sharesOf({
  ofRange,
  ofVariance,
}: Pick<Contribution, "ofRange" | "ofVariance">): Omit<ContributionRecord, "name"> {
  return { ...share("share", ofRange), ...share("varianceShare", ofVariance) };
}

function ruleOf(
  row: Row,
  line: number,
  lastLine: number,
  otherChoice: RecordContext["otherChoice"],
): readonly RuleRecord[] {
  const { outcome, statement } = row;
  if (outcome.kind !== "rule" || statement.kind !== "rule") return [];
  const { word, state, spare, reason } = outcome;
  const clause = decisiveClause(outcome);
  const other = state === "fails" || state === "failsAtLimits" ? otherChoice(row) : undefined;
  const worst = byName(clause ? worstInputsAt(clause) : (outcome.failsAt ?? []));
  return [
    {
      line,
      ...(lastLine > line ? { lastLine } : {}),
      word,
      condition: conditionText(statement),
      state,
      ...(spare === undefined ? {} : finite("spare", spare)),
      ...(Object.keys(worst).length > 0 ? { inputsAt: { worst } } : {}),
      ...(reason === undefined ? {} : { reason }),
      ...shareOfBuilds(outcome),
      ...(other ? { holdsWith: { name: other.name, value: other.value, allRules: other.isForAll } } : {}),
    },
  ];
}

/** Trials tell no more. */
const BUILDS_PLACES = 6;

function shareOfBuilds({ state, builds, required }: RuleOutcome): Pick<RuleRecord, "share" | "required"> {
  const asked = required === undefined ? {} : { required };
  if (builds?.isTried) return { share: Number(builds.share.toFixed(BUILDS_PLACES)), ...asked };
  return state === "holds" ? { share: 1, ...asked } : asked;
}

/** Digits of a number that the arithmetic of doubles can be trusted for. */
const DIGITS = 12;

/** A number rounded to the digits that count, under its key; nothing where JSON has no number for it. */
function finite<K extends string>(key: K, x: number): Partial<Record<K, number>> {
  return Number.isFinite(x) ? ({ [key]: Number(x.toPrecision(DIGITS)) } as Record<K, number>) : {};
}

/** Shares are good to first order only; more digits would be read as exact. */
const SHARE_PLACES = 4;

function share<K extends string>(key: K, x: number | undefined): Partial<Record<K, number>> {
  return x === undefined ? {} : ({ [key]: Number(x.toFixed(SHARE_PLACES)) } as Record<K, number>);
}

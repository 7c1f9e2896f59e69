import { RATIO } from "../quantity/dimension";
import type { Column } from "../syntax/statement";
import { slack } from "./operation";
import { holds, type Clause } from "./condition";
import { statedName, type Entry } from "./entry";
import { isChapter } from "./handbook";
import { sameData } from "./sameData";
import type {
  ClauseOutcome,
  ColumnOutcome,
  Extent,
  InputAt,
  InputPlace,
  Outcome,
  Problem,
  Push,
  QuantityOutcome,
  RuleOutcome,
  RuleState,
  TriedBuilds,
} from "./outcome";
import type { EngineProblem, Origin } from "./problem";
import { pushedBy } from "./pushedBy";
import type { Runner } from "./runner";
import { judgeChoice } from "./choices";
import { troubleProblem } from "./trouble";
import { isOpen } from "./search";
import { Standing, type Slots, type Tape } from "./tape";
import type { InputValue, TrueRange } from "./trueRange";

/** What judging asks of the program around it. */
export interface JudgeContext {
  readonly slots: Slots;
  readonly tape: Tape;
  readonly runner: Runner;
  inputPlace(slot: number): InputPlace;
  entryById(id: number): Entry;
  usedPath(entry: Entry): string | undefined;
  useTrouble(entry: Entry): EngineProblem | undefined;
  isRead(path: string): boolean;
}

/** The outcome of an entry that was just run; the old one where nothing is different. */
export function judge(entry: Entry, context: JudgeContext, old: Outcome | undefined): Outcome {
  const fresh = new Judge(entry, context, old).outcome();
  return old !== undefined && sameData(old, fresh) ? old : fresh;
}

/** Inputs named at the ends of a value. Values that rest on more are shown without: nobody reads a longer list. */
const INPUTS_SHOWN = 12;

const NO_PUSHES_SHOWN: readonly Push[] = [];

const STANDINGS: Readonly<Record<Standing, Extent["standing"]>> = {
  [Standing.Undefined]: "undefined",
  [Standing.Exact]: "exact",
  [Standing.Attained]: "attained",
  [Standing.Enclosed]: "enclosed",
};

const NO_PROBLEMS: readonly Problem[] = [];

class Judge {
  constructor(
    private readonly entry: Entry,
    private readonly context: JudgeContext,
    private readonly old: Outcome | undefined,
  ) {}

  outcome(): Outcome {
    const { entry, context } = this;
    const { statement, type } = entry;
    const problems: Problem[] = (statement.problems as readonly Problem[]).concat(
      entry.compileProblems,
      entry.domainProblems ?? NO_PROBLEMS,
    );
    if (statement.kind === "rule") return this.rule(problems);
    if (statement.kind === "use") {
      const trouble = context.useTrouble(entry);
      const path = context.usedPath(entry) ?? "";
      const isRead = path !== "" && context.isRead(path);
      if (trouble) problems.push(trouble);
      const name = entry.name!;
      if (isChapter(name))
        problems.push({ span: statement.tree.span(statement.name), code: "handbook.shadowed", chapter: name });
      return { kind: "use", name, path, isRead, problems };
    }
    if (statement.kind === "table") {
      const rows = type.kind === "table" ? type.rows : [];
      return { kind: "table", name: entry.name!, rows, problems };
    }
    if (statement.kind === "column") return this.column(statement, problems);
    switch (type.kind) {
      case "part":
        return {
          kind: "part",
          name: entry.name!,
          path: type.table.note.path,
          table: type.table.name ?? "",
          row: type.table.type.kind === "table" ? type.table.type.rows[type.row] : "",
          problems,
        };
      case "quantity":
        return this.quantity(problems);
      case "truth":
        return this.truth(problems);
      case "function":
        return { kind: "function", problems };
      case "counted unit":
        return { kind: "items", problems };
      default:
        return this.withoutType(problems);
    }
  }

  private withoutType(problems: readonly Problem[]): Outcome {
    const { statement, type, blockedBy } = this.entry;
    if (statement.kind === "accept" || statement.kind === "correlation") return { kind: statement.kind, problems };
    if (type.kind === "later") return { kind: "later", problems };
    const name = statedName(this.entry.statement);
    const origin = this.origin();
    if (statement.kind === "broken" || name === undefined || origin === undefined) return { kind: "broken", problems };
    const isGuess = this.isGuess();
    return {
      kind: "quantity",
      name,
      origin,
      isGuess,
      ...NOTHING,
      ...(blockedBy === undefined ? {} : { blockedBy }),
      problems,
    };
  }

  private quantity(problems: Problem[]): QuantityOutcome {
    const { entry } = this;
    const { type, statement } = entry;
    if (type.kind !== "quantity") throw new Error("A quantity was judged that is none.");
    const width = type.length ?? 1;
    const behind = entry.results.length - width;
    const values = this.extents(0, width);
    const isReplaced = statement.kind === "assume" && behind > 0;
    const isChosen = statement.kind === "derived" && behind > 0;
    this.addTrouble(problems);
    const outcome: QuantityOutcome = {
      kind: "quantity",
      name: statedName(this.entry.statement)!,
      origin: isReplaced ? "measured" : this.origin()!,
      isGuess: !isReplaced && this.isGuess(),
      dimension: type.dimension,
      point: type.point,
      unit: entry.unit,
      ...(entry.step === undefined ? {} : { step: entry.step }),
      values,
      isList: type.length !== undefined,
      wanted: isChosen ? this.extents(width, width) : undefined,
      options: isChosen && behind > width ? this.extents(2 * width, behind - width) : undefined,
      assumed: isReplaced ? this.extents(width, behind) : undefined,
      problems,
    };
    problems.push(...judgeChoice(entry, outcome));
    return outcome;
  }

  private column(statement: Column, problems: Problem[]): ColumnOutcome {
    const { entry, context } = this;
    const { type, results, unit, blockedBy } = entry;
    const { slots } = context;
    this.addTrouble(problems);
    const base = {
      kind: "column",
      name: entry.name ?? "",
      table: statement.table,
      isComputed: statement.value !== undefined || statement.solved !== undefined,
      problems,
    } as const;
    if (type.kind !== "column")
      return { ...base, of: "none", ...NO_CELLS, ...(blockedBy === undefined ? {} : { blockedBy }) };
    const { of, dimension, point, mixed, texts } = type;
    const truths = Array.from({ length: of === "truth" ? results.length : 0 }, (_, row) =>
      tri(slots.low[results.from + row], slots.high[results.from + row]),
    );
    return {
      ...base,
      of,
      dimension,
      point,
      ...(unit ? { unit } : {}),
      ...(mixed ? { mixed } : {}),
      values: of === "quantity" ? this.extents(0, type.length) : [],
      ...(type.names ? { names: type.names } : {}),
      ...(of === "truth" ? { truths } : {}),
      ...(texts ? { texts } : {}),
    };
  }

  private truth(problems: Problem[]): Outcome {
    const { slots } = this.context;
    const { results } = this.entry;
    this.addTrouble(problems);
    const values = Array.from({ length: results.length }, (_, i) =>
      tri(slots.low[results.from + i], slots.high[results.from + i]),
    );
    return { kind: "truth", name: statedName(this.entry.statement)!, values, problems };
  }

  private origin(): Origin | undefined {
    switch (this.entry.statement.kind) {
      case "given":
        return "given";
      case "assume":
        return "assumed";
      case "over":
        return "over";
      case "derived":
        return this.entry.statement.choice ? "chosen" : "derived";
      case "choice":
        return "chosen";
      case "measured":
        return "measured";
      case "let":
        return "found";
      case "order":
        return "order";
      default:
        return undefined;
    }
  }

  private isGuess(): boolean {
    return this.entry.statement.kind === "assume" && this.entry.statement.source === undefined;
  }

  private extents(from: number, count: number): Extent[] {
    const extents = new Array<Extent>(count);
    // Of a long column most rows are as they were.
    const before = this.old?.kind === "column" ? this.old.values : [];
    for (let i = 0; i < count; i++) {
      const slot = this.entry.results.from + from + i;
      const known = i < before.length ? before[i] : undefined;
      extents[i] = known && this.isExactly(known, slot) ? known : this.extent(slot, INPUTS_SHOWN);
    }
    return extents;
  }

  /** Whether a slot holds this exact number. */
  private isExactly({ nominal, standing }: Extent, slot: number): boolean {
    const { slots } = this.context;
    return standing === "exact" && slots.standing[slot] === Standing.Exact && Object.is(slots.nominal[slot], nominal);
  }

  private extent(slot: number, mostInputs: number): Extent {
    const searched = this.entry.found?.[slot - this.entry.results.from];
    if (searched && searched.kind !== "undefined") return this.searched(slot, searched);
    const { slots, inputPlace } = this.context;
    const { length } = slots.pushes[slot].inputs;
    const pushes = length === 0 || length > mostInputs ? NO_PUSHES_SHOWN : pushedBy(slots, slot, inputPlace);
    const extent: Extent = {
      nominal: slots.nominal[slot],
      low: slots.low[slot],
      high: slots.high[slot],
      standing: STANDINGS[slots.standing[slot] as Standing],
      pushes,
    };
    return this.entry.isPending && isOpen(slots, slot) ? { ...extent, isPending: true } : extent;
  }

  /** The range that a search found, or narrowed. */
  private searched(slot: number, { kind, low, high, bestLow, bestHigh, atLow, atHigh }: TrueRange): Extent {
    const { slots, inputPlace } = this.context;
    const named = (inputs: readonly InputValue[]) =>
      inputs.map(({ slot: of, value }) => ({ input: inputPlace(of), value }));
    const found = { low: bestLow, high: bestHigh, atLow: named(atLow), atHigh: named(atHigh) };
    const standing = kind === "attained" ? "attained" : "enclosed";
    return { nominal: slots.nominal[slot], low, high, standing, pushes: NO_PUSHES_SHOWN, found };
  }

  /** The first place at which a value, or else a range, was lost in this entry. */
  private addTrouble(problems: Problem[]): void {
    const { entry, context } = this;
    for (const of of ["value", "range"] as const) {
      const problem = troubleProblem(entry, context, of);
      if (!problem) continue;
      problems.push(problem);
      return;
    }
  }

  private rule(problems: Problem[]): RuleOutcome {
    const { entry } = this;
    const { statement } = entry;
    if (statement.kind !== "rule") throw new Error("A rule was judged that is none.");
    this.addTrouble(problems);
    const clauses = entry.clauses.map((clause) => this.clause(clause));
    const whole = this.wholeConditions();
    const all = [...clauses, ...whole];
    const state = all.length === 0 ? "undecided" : worst(all.map((part) => part.state));
    const reason = state === "undecided" ? this.reason(all) : undefined;
    const failsAt = state === "failsAtLimits" ? whole.find((part) => part.state === state)?.failsAt : undefined;
    const isOpen = clauses.some(({ margin }) => margin.isPending) || whole.some(({ isPending }) => isPending);
    const isPending = state === "undecided" && isOpen;
    const spares = isSingle(clauses) ? clauses.map((clause) => clause.spare ?? NaN) : [];
    const least = spares.reduce((smallest, spare) => Math.min(smallest, spare), Infinity);
    const spare = spares.length > 0 && !Number.isNaN(least) ? least : undefined;
    return {
      kind: "rule",
      word: statement.word,
      ...this.byShare(state, reason),
      clauses,
      ...(spare === undefined ? {} : { spare }),
      ...(failsAt ? { failsAt } : {}),
      ...(isPending ? { isPending } : {}),
      problems,
    };
  }

  /** A rule that need not hold for every build is judged by the share of builds that keep it. */
  private byShare(state: RuleState, reason: string | undefined): Pick<RuleOutcome, ShareKeys> {
    const { statement, keeps, builds, isPending, results } = this.entry;
    const required = statement.kind === "rule" ? statement.share : undefined;
    const asked = required === undefined ? {} : { required };
    const judged = { state, ...(reason === undefined ? {} : { reason }), ...asked };
    const mayFail = required === undefined ? state === "failsAtLimits" : state !== "holds";
    const hasTruth = keeps !== undefined && !Number.isNaN(this.context.slots.nominal[results.from + keeps]);
    if (!mayFail || !hasTruth || isPending) return judged;
    if (builds === undefined)
      return required === undefined
        ? { ...judged, awaitsBuilds: true }
        : { state: "undecided", reason: "its share of builds is being worked out", ...asked, awaitsBuilds: true };
    if (required === undefined) return { ...judged, builds };
    if (!builds.isTried)
      return builds.isStopped
        ? { state: "undecided", reason: TRIALS_STOPPED, ...asked, builds }
        : { ...judged, builds };
    if (builds.reaches === undefined) return { state: "undecided", reason: doubtOf(builds), ...asked, builds };
    const failing = state === "fails" ? "fails" : "failsAtLimits";
    return { state: builds.reaches ? "holds" : failing, ...asked, builds };
  }

  private reason(parts: readonly { readonly state: RuleState; readonly reason?: string }[]): string {
    const { blockedBy, compileProblems, statement } = this.entry;
    if (blockedBy !== undefined) return `${blockedBy} has no value`;
    if (compileProblems.length > 0 || statement.problems.length > 0 || parts.length === 0) return "it cannot be read";
    return parts.find(({ state }) => state === "undecided")?.reason ?? "it has no value";
  }

  private clause(clause: Clause): ClauseOutcome {
    const { entry } = this;
    const { tree, text } = entry.statement;
    const slot = entry.results.from + clause.slot;
    const left = this.extent(slot, 0);
    const right = this.extent(slot + 1, 0);
    const margin = this.extent(slot + 2, Infinity);
    const written = (node: number) => text.slice(tree.start(node), tree.end(node));
    const truth = clause.truth === undefined ? undefined : this.extent(entry.results.from + clause.truth, 0);
    const verdict = judgeTruth(truth) ?? judgeMargin(clause, left, right, margin);
    return {
      relation: clause.relation,
      left,
      right,
      margin,
      leftText: written(clause.left),
      rightText: written(clause.right),
      dimension: clause.dimension,
      point: clause.point,
      ...(clause.unit ? { unit: clause.unit } : {}),
      ...(clause.step ? { step: clause.step } : {}),
      ...(clause.row === undefined ? {} : { row: clause.row }),
      ...(clause.rowName === undefined ? {} : { rowName: clause.rowName }),
      ...verdict,
    };
  }

  /** The conditions that are no comparisons: true, false or open as a whole. */
  private wholeConditions(): WholeCondition[] {
    const { entry } = this;
    const inClauses = new Set(entry.clauses.flatMap(({ slot, truth }) => [slot, slot + 1, slot + 2, truth]));
    const parts: WholeCondition[] = [];
    for (let i = 0; i < entry.results.length; i++) {
      if (inClauses.has(i) || i === entry.keeps) continue;
      parts.push(judgeTruth(this.extent(entry.results.from + i, 0)) ?? { state: "undecided", reason: BOUNDS_TOO_WIDE });
    }
    return parts;
  }
}

const NO_CELLS = { values: [], dimension: RATIO, point: false } as const;
type ShareKeys = "state" | "reason" | "required" | "builds" | "awaitsBuilds";

const TRIALS_STOPPED = "the trials of its builds were stopped";

/** Why trials do not tell whether enough builds keep a rule. */
function doubtOf({ trials, isCountAsked }: TriedBuilds): string {
  return isCountAsked
    ? `${trials} trials are too few to tell its share of builds from what it asks for`
    : "its share of builds is too near to what it asks for";
}

const NOTHING = { values: [], isList: false, dimension: RATIO, point: false } as const;

function tri(low: number, high: number): boolean | undefined {
  return low === 1 ? true : high === 0 ? false : undefined;
}

/** One comparison, perhaps once for every row of a list. */
function isSingle(clauses: readonly ClauseOutcome[]): boolean {
  return (
    clauses.length === 1 ||
    (clauses.length > 0 && clauses.every(({ row }) => row !== undefined) && clauses.every(({ row }, i) => row === i))
  );
}

const BY_WEIGHT: readonly RuleState[] = ["fails", "failsAtLimits", "undecided", "holds"];

function worst(states: readonly RuleState[]): RuleState {
  return BY_WEIGHT.find((state) => states.includes(state)) ?? "undecided";
}

interface WholeCondition {
  readonly state: RuleState;
  readonly reason?: string;
  readonly isPending?: true;
  /** Inputs at which it was seen to be false. */
  readonly failsAt?: readonly InputAt[];
}

/** Judges a truth, 1 or 0; undefined where its bounds leave it open and it was seen to be false nowhere. */
function judgeTruth(truth: Extent | undefined): WholeCondition | undefined {
  if (truth === undefined) return undefined;
  const { nominal, low, high, isPending, found } = truth;
  if (Number.isNaN(nominal)) return { state: "undecided", reason: "it has no value" };
  if (nominal === 0) return { state: "fails" };
  if (tri(low, high) === true) return { state: "holds" };
  if (found?.low === 0) return { state: "failsAtLimits", failsAt: found.atLow };
  return isPending ? { state: "undecided", reason: SEARCHED_FOR, isPending } : undefined;
}

/** Judges left − right. A range that is only enclosed proves that a rule holds, never that it fails. */
function judgeMargin(
  clause: Pick<Clause, "relation" | "point">,
  left: Extent,
  right: Extent,
  margin: Extent,
): { state: RuleState; reason?: string; spare?: number; room?: number } {
  const { relation } = clause;
  if (Number.isNaN(margin.nominal)) return { state: "undecided", reason: "it has no value" };
  const holdsBy = (m: number, l: number, r: number) => holds(relation, m, l, r);
  const nominal = holdsBy(margin.nominal, left.nominal, right.nominal);
  if (margin.isPending && nominal && margin.standing === "undefined")
    return { state: "undecided", reason: SEARCHED_FOR };
  if (margin.standing === "undefined")
    return { state: nominal ? "undecided" : "fails", ...(nominal ? { reason: "its range is undefined" } : {}) };
  const low = holdsBy(margin.low, left.low, right.high);
  const high = holdsBy(margin.high, left.high, right.low);
  const isCrossed = relation === "!=" && margin.low < 0 && margin.high > 0;
  const isProved = low && high && !isCrossed;
  const sizes = relation === "=" || relation === "!=" ? {} : room(clause, left, right, margin);
  if (!nominal) return { state: "fails", ...sizes };
  if (isProved) return { state: "holds", ...sizes };
  if (margin.isPending) return { state: "undecided", reason: SEARCHED_FOR };
  const failing = low ? margin.high : margin.low;
  if (!Number.isFinite(failing)) return { state: "undecided", reason: unboundedReason(margin) };
  // A search comes as near to an end as a thousandth of the width: it is a value that it computed that proves a failure.
  const witnesses = margin.found
    ? [margin.found.low, margin.found.high]
    : margin.standing === "enclosed"
      ? []
      : [failing];
  const isRefuted = witnesses.some((m) => Number.isFinite(m) && !holdsBy(m, left.nominal, right.nominal));
  if (!isRefuted || isCrossed) return { state: "undecided", reason: BOUNDS_TOO_WIDE };
  return { state: "failsAtLimits", ...sizes };
}

const BOUNDS_TOO_WIDE = "its bounds leave it open";
const SEARCHED_FOR = "its range is still searched for";

function unboundedReason(margin: Extent): string {
  const open = margin.pushes.find(({ input }) => !Number.isFinite(input.low));
  return open ? `no minimum of ${open.input.name} is known` : "its range has no bound";
}

/** What is left at the worst point: in the unit of the sides, and as a share of the limit. */
function room(
  { relation, point }: Pick<Clause, "relation" | "point">,
  left: Extent,
  right: Extent,
  margin: Extent,
): { room?: number; spare?: number } {
  const isUpper = relation === "<" || relation === "<=";
  const left_ = isUpper ? -margin.high : margin.low;
  if (!Number.isFinite(left_)) return {};
  const limit = right.standing === "exact" ? right.nominal : left.standing === "exact" ? left.nominal : right.nominal;
  const isTight = Math.abs(left_) <= slack(left.nominal, right.nominal);
  const rest = isTight ? 0 : left_;
  return point || limit === 0 || !Number.isFinite(limit)
    ? { room: rest }
    : { room: rest, spare: rest / Math.abs(limit) };
}

import { holds } from "./condition";
import type { Checked, DomainCheck, RowCheck } from "./domainChecks";
import type { Entry } from "./entry";
import type { Extent } from "./outcome";
import type { CheckedArgument, EngineProblem } from "./problem";
import { Standing, type Slots } from "./tape";
import type { TrueRange } from "./trueRange";

/** What the checks of calls ask of what is around. */
export interface DomainContext {
  readonly slots: Slots;
  /** Narrows the range of a slot that an entry reads or writes. Pauses before it searches. */
  searchSlot(entry: Entry, slot: number): Generator<void, TrueRange | undefined>;
}

/**
 * The calls in an entry that was just run whose arguments leave what the function holds for: it is not proved that they
 * keep its condition over their whole range. Pauses before each search; when the entry changes, it is to be begun anew.
 */
export function* domainProblems(entry: Entry, context: DomainContext): Generator<void, readonly EngineProblem[]> {
  const problems: EngineProblem[] = [];
  for (const check of entry.domainChecks) {
    for (const row of check.rows) {
      const judge = new RowJudge(entry, context, row);
      if (!(yield* judge.isLeft())) continue;
      problems.push(yield* problemOf(check, row, judge));
      break;
    }
  }
  return problems;
}

function* problemOf(check: DomainCheck, row: RowCheck, judge: RowJudge): Generator<void, EngineProblem> {
  const { name, span, condition, stated, caller } = check;
  const described: CheckedArgument[] = [];
  for (const { at, ...argument } of row.arguments) described.push({ ...argument, extent: yield* judge.extent(at) });
  return {
    code: "function.domain",
    span,
    name,
    condition,
    stated,
    arguments: described,
    ...(caller ? { caller } : {}),
  };
}

type PairCheck = NonNullable<RowCheck["pairs"]>[number];

class RowJudge {
  constructor(
    private readonly entry: Entry,
    private readonly context: DomainContext,
    private readonly row: RowCheck,
  ) {}

  *isLeft(): Generator<void, boolean> {
    const { row } = this;
    // What has no value is told where it was lost.
    if (row.arguments.some(({ at }) => Number.isNaN(this.context.slots.nominal[this.slot(at)]))) return false;
    for (const pair of row.pairs ?? []) if (yield* this.isPairLeft(pair)) return true;
    return !row.pairs && row.whole !== undefined && (yield* this.isWholeLeft(row.whole));
  }

  private *isPairLeft({ relation, left, right, margin }: PairCheck): Generator<void, boolean> {
    const { slots } = this.context;
    const [l, r] = [this.slot(left), this.slot(right)];
    const at = this.slot(margin);
    if (!holds(relation, slots.nominal[at], slots.nominal[l], slots.nominal[r])) return true;
    // Where a range is undefined, that is told, and there is nothing to judge.
    if (slots.standing[at] === Standing.Undefined && Number.isNaN(slots.low[at])) return false;
    const keeps = (low: number, high: number) =>
      holds(relation, low, slots.low[l], slots.high[r]) &&
      holds(relation, high, slots.high[l], slots.low[r]) &&
      !(relation === "!=" && low < 0 && high > 0);
    if (keeps(slots.low[at], slots.high[at])) return false;
    const found = yield* this.search(at);
    return !found || !keeps(found.low, found.high);
  }

  /** Where it is open whether the call's branch is taken at all, only a case in which it is counts. */
  private *isWholeLeft(whole: Checked): Generator<void, boolean> {
    const { slots } = this.context;
    const at = this.slot(whole);
    if (slots.nominal[at] === 0) return true;
    if (Number.isNaN(slots.nominal[at]) || Number.isNaN(slots.low[at]) || slots.low[at] === 1) return false;
    const found = yield* this.search(at);
    const { guard } = this.row;
    const isTaken = guard === undefined || slots.low[this.slot(guard)] === 1;
    return isTaken ? found?.low !== 1 : found?.bestLow === 0;
  }

  private *search(slot: number): Generator<void, TrueRange | undefined> {
    const { context, entry } = this;
    return context.slots.standing[slot] === Standing.Enclosed ? yield* context.searchSlot(entry, slot) : undefined;
  }

  /** The range of an argument, narrowed as far as a search can. */
  *extent(at: Checked): Generator<void, Extent> {
    const { slots } = this.context;
    const slot = this.slot(at);
    const nominal = slots.nominal[slot];
    const found = yield* this.search(slot);
    const isFound = found !== undefined && found.kind !== "undefined";
    const [low, high] = isFound ? [found.low, found.high] : [slots.low[slot], slots.high[slot]];
    const isExact = slots.standing[slot] === Standing.Exact;
    const standing = Number.isNaN(low) ? "undefined" : isExact ? "exact" : "enclosed";
    return { nominal, low, high, standing, pushes: [] };
  }

  private slot(at: Checked): number {
    return at >= 0 ? at : this.entry.checked.from + (-1 - at);
  }
}

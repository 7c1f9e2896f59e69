import { holds } from "./condition";
import type { Checked, DomainCheck, RowCheck } from "./domainChecks";
import type { Entry } from "./entry";
import type { JudgeContext } from "./judge";
import type { Extent } from "./outcome";
import type { CheckedArgument, EngineProblem } from "./problem";
import { searchSlot } from "./search";
import { Standing } from "./tape";

const NO_PROBLEMS: readonly EngineProblem[] = [];

/**
 * The calls in an entry that was just run whose arguments leave what the function holds for: it is not proved that they
 * keep its condition over their whole range.
 */
export function domainProblems(entry: Entry, context: JudgeContext): readonly EngineProblem[] {
  if (entry.domainChecks.length === 0) return NO_PROBLEMS;
  const problems: EngineProblem[] = [];
  for (const check of entry.domainChecks) {
    const row = check.rows.find((each) => new RowJudge(entry, context, each).isLeft());
    if (row) problems.push(problemOf(entry, context, check, row));
  }
  return problems;
}

function problemOf(entry: Entry, context: JudgeContext, check: DomainCheck, row: RowCheck): EngineProblem {
  const { name, span, condition, stated, caller } = check;
  const judge = new RowJudge(entry, context, row);
  const described = row.arguments.map(({ at, ...argument }): CheckedArgument => ({
    ...argument,
    extent: judge.extent(at),
  }));
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

class RowJudge {
  constructor(
    private readonly entry: Entry,
    private readonly context: JudgeContext,
    private readonly row: RowCheck,
  ) {}

  isLeft(): boolean {
    const { row } = this;
    // What has no value is told where it was lost.
    if (row.arguments.some(({ at }) => Number.isNaN(this.context.slots.nominal[this.slot(at)]))) return false;
    if (row.pairs) return row.pairs.some((pair) => this.isPairLeft(pair));
    return row.whole !== undefined && this.isWholeLeft(row.whole);
  }

  private isPairLeft({ relation, left, right, margin }: NonNullable<RowCheck["pairs"]>[number]): boolean {
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
    const found = this.search(at);
    return !found || !keeps(found.low, found.high);
  }

  /** Where it is open whether the call's branch is taken at all, only a case in which it is counts. */
  private isWholeLeft(whole: Checked): boolean {
    const { slots } = this.context;
    const at = this.slot(whole);
    if (slots.nominal[at] === 0) return true;
    if (Number.isNaN(slots.nominal[at]) || Number.isNaN(slots.low[at]) || slots.low[at] === 1) return false;
    const found = this.search(at);
    const { guard } = this.row;
    const isTaken = guard === undefined || slots.low[this.slot(guard)] === 1;
    return isTaken ? found?.low !== 1 : found?.bestLow === 0;
  }

  private search(slot: number) {
    const { context, entry } = this;
    return context.slots.standing[slot] === Standing.Enclosed ? searchSlot(context, entry, slot) : undefined;
  }

  /** The range of an argument, narrowed as far as a search can. */
  extent(at: Checked): Extent {
    const { slots } = this.context;
    const slot = this.slot(at);
    const nominal = slots.nominal[slot];
    const found = this.search(slot);
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

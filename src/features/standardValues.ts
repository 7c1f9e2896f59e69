import { RATIO } from "../quantity/dimension";
import { showNumber } from "../quantity/display";
import { nearest, nextDown, nextUp, type SeriesName } from "../quantity/series";
import type { InSlices } from "../engine/slices";
import type { Row } from "../engine/snapshot";
import { fixWithEffect, seriesOf, useInstead, type Trial } from "../phrases/choosing";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";
import { shift, type Span } from "../text/span";

/**
 * Standard values for the resistance, capacitance or inductance that is defined where the span lies: the nearest to what
 * is wanted, the next below and the next above, each with what follows from it. A definition without a choice gets one.
 */
export function* standardValuesAt(trial: Trial, span: Span): InSlices<readonly Fix[]> {
  const row = trial.snapshot.rowAt(span.start);
  if (!row || span.end > row.start + row.statement.text.length) return [];
  const series = seriesOf(row, trial);
  const wanted = series && wantedOf(row);
  if (series === undefined || wanted === undefined) return [];
  const { used, want, shown } = wanted;
  const members = [nearest(series, want), nextDown(series, want), nextUp(series, want)];
  const fixes: Fix[] = [];
  for (const member of new Set(members)) {
    if (!Number.isFinite(member) || isSame(member, used)) continue;
    const value = shown(member);
    const edit = editFor(row, value, series);
    if (edit) fixes.push(yield* fixWithEffect(`Use ${value} of ${series}`, edit, row, trial));
  }
  return fixes;
}

interface Wanted {
  /** What the definition asks for. */
  readonly want: number;
  /** What is used already; NaN where nothing has been chosen. */
  readonly used: number;
  shown(value: number): string;
}

function wantedOf({ statement, outcome }: Row): Wanted | undefined {
  if (outcome.kind !== "quantity" || outcome.values.length !== 1 || outcome.point || outcome.dimension === RATIO)
    return undefined;
  const shown = (value: number) => showNumber(value, outcome.dimension);
  const value = outcome.values[0].nominal;
  if (statement.kind === "derived" && !statement.choice) return { want: value, used: NaN, shown };
  const want = outcome.wanted?.[0]?.nominal ?? value;
  return statement.kind === "derived" || statement.kind === "choice" ? { want, used: value, shown } : undefined;
}

/** Columns before a comment. */
const LEAST_GAP = 3;

function editFor(row: Row, value: string, series: SeriesName): Edit | undefined {
  const { statement, start } = row;
  if (statement.kind !== "derived" || statement.choice) return useInstead(row, value);
  const end = statement.tree.end(statement.value);
  const clause = ` choose ${value} from ${series}`;
  // A comment keeps its column where there is room for the clause before it.
  const gap = /^[ \t]+(?=#)/.exec(statement.text.slice(end))?.[0].length ?? 0;
  const room = gap === 0 ? "" : " ".repeat(Math.max(LEAST_GAP, gap - clause.length));
  return { span: shift({ start: end, end: end + gap }, start), text: clause + room };
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * Math.abs(b);
}

import type { ClauseOutcome, Extent } from "../engine/outcome";
import { lineOf } from "./quantityLine";
import { toldApart } from "./toldApart";

/** A dimension line, and what it is of, as written. */
export interface RuleLine {
  readonly of: string;
  /** Rows of text, apart by line feeds. */
  readonly drawing: string;
}

/**
 * The dimension line of a comparison: the side that varies, with a long stroke at the other. Where both vary, the left one,
 * with a stroke at either end of the right. Of the other comparisons of the rule, those that set the same side a limit are
 * drawn too: the far end of a band. Undefined where neither side varies, or an end is not known.
 */
export function ruleLine(clause: ClauseOutcome, others: readonly ClauseOutcome[] = []): RuleLine | undefined {
  const { left, right, leftText, rightText } = clause;
  const [side, of] = varies(left) ? [left, leftText] : [right, rightText];
  const limits = limitsOf(clause, of);
  if (!varies(side) || !isFinite(side) || limits.length === 0) return undefined;
  const isSame = (other: ClauseOutcome) => other !== clause && other.row === clause.row;
  const more = others.filter(isSame).flatMap((other) => limitsOf(other, of));
  const drawing = lineOf(side, toldApart(clause), [...limits, ...more]);
  return drawing === undefined ? undefined : { of, drawing };
}

/** The limits that a comparison sets the side that is written so; none where an end is not known, or it is not about that side. */
function limitsOf({ left, right, leftText, rightText }: ClauseOutcome, of: string): readonly number[] {
  const other = leftText === of ? right : rightText === of ? left : undefined;
  if (other === undefined || !isFinite(other)) return [];
  return varies(other) ? [other.low, other.high] : [other.nominal];
}

function varies({ low, high }: Extent): boolean {
  return low < high;
}

function isFinite({ low, nominal, high }: Extent): boolean {
  return [low, nominal, high].every(Number.isFinite);
}

import type { ClauseOutcome, Extent } from "../engine/outcome";
import { shortened } from "./side";
import { extentText, type Showable } from "./value";

/** Digits of a number that the arithmetic of doubles can be trusted for. */
const MOST_DIGITS = 12;
/** Digits beyond the place at which two numbers begin to differ. */
const MORE_DIGITS = 2;

/**
 * The sides of a comparison as they are shown so that they can be seen to differ: to the place of what is short or to
 * spare, where that is finer than what they are shown to otherwise. `5 V` is never held against `5 V`.
 */
export function toldApart(clause: ClauseOutcome): Showable {
  const gap = gapOf(clause);
  if (gap === undefined) return clause;
  const step = 10 ** Math.floor(Math.log10(gap));
  return { ...clause, step: Math.min(step, clause.step ?? Infinity) };
}

/** Significant digits that inputs need for the same; undefined where those that they are shown with suffice. */
export function digitsToTell(clause: ClauseOutcome): number | undefined {
  const gap = gapOf(clause);
  const size = Math.max(Math.abs(clause.left.nominal), Math.abs(clause.right.nominal));
  if (gap === undefined || !(size > gap)) return undefined;
  const digits = Math.ceil(Math.log10(size / gap)) + MORE_DIGITS;
  return digits > ENOUGH ? Math.min(digits, MOST_DIGITS) : undefined;
}

/** As many as any number is shown with. */
const ENOUGH = 6;

function gapOf({ room, margin }: ClauseOutcome): number | undefined {
  const gap = Math.abs(room ?? margin.nominal);
  return gap > 0 && Number.isFinite(gap) ? gap : undefined;
}

/** *I_string is 2.64 .. 20 .. 37.7 mA*: the sides of a comparison with their values, but for those that are numbers themselves. */
export function statedSides(clause: ClauseOutcome): readonly string[] {
  const of = toldApart(clause);
  return [sideOf(clause.left, clause.leftText, of), sideOf(clause.right, clause.rightText, of)].filter(
    (side) => side !== undefined,
  );
}

function sideOf(extent: Extent, written: string, of: Showable): string | undefined {
  const value = extentText(extent, of);
  const text = shortened(written);
  return value === "" || text === value || /^[\d._]+\s*\S*$/.test(text) ? undefined : `${text} is ${value}`;
}

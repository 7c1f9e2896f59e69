import type { ClauseOutcome, Extent } from "../engine/outcome";
import { showApart, type Shown } from "../quantity/display";
import { drawDimensionLine } from "./dimensionLine";

/** A dimension line, and what it is of, as written. */
export interface RuleLine {
  readonly of: string;
  /** Rows of text, apart by line feeds. */
  readonly drawing: string;
}

/**
 * The dimension line of a comparison: the side that varies, with a long stroke at the other. Where both vary, the left one,
 * with a stroke at either end of the right. Undefined where neither varies, or an end is not known.
 */
export function ruleLine(clause: ClauseOutcome): RuleLine | undefined {
  const { left, right, leftText, rightText } = clause;
  const [side, other, of] = varies(left) ? [left, right, leftText] : [right, left, rightText];
  if (!varies(side) || !isFinite(side) || !isFinite(other)) return undefined;
  const shown = showApart(side, clause.dimension, optionsOf(clause));
  const labels = labelsOf(side, shown);
  if (!labels) return undefined;
  const limits = varies(other) ? [other.low, other.high] : [other.nominal];
  const label = (value: number) => labels.get(value) ?? "";
  return { of, drawing: drawDimensionLine({ ...side, limits, label, unit: shown.unit === "1" ? "" : shown.unit }) };
}

function varies({ low, high }: Extent): boolean {
  return low < high;
}

function isFinite({ low, nominal, high }: Extent): boolean {
  return [low, nominal, high].every(Number.isFinite);
}

/** The three values as they are shown together, with the digits and the unit of the range. */
function labelsOf({ low, nominal, high }: Extent, { text }: Shown): ReadonlyMap<number, string> | undefined {
  const texts = text.split(" .. ");
  return texts.length === 3 ? new Map([low, nominal, high].map((value, i) => [value, texts[i]])) : undefined;
}

function optionsOf({ point, unit }: ClauseOutcome) {
  return { point, ...(unit ? { unit } : {}) };
}

import { worstCaseFactor } from "../engine/literalShapes";
import type { InputPlace } from "../engine/outcome";

/**
 * What a worst case counts of an input that is normal or known from readings, as Markdown. Empty for one with limits of its
 * own. How it is spread is told where its standard uncertainty is.
 */
export function spreadSentence({ spread }: InputPlace): string {
  if (spread.shape !== "normal" && spread.shape !== "student") return "";
  return `A worst case counts ± ${factorText(spread)} standard uncertainties.`;
}

/** How many standard uncertainties a worst case counts: `3`, or the quantile of t for the same share. */
export function factorText(spread: InputPlace["spread"]): string {
  return String(Number(worstCaseFactor(spread).toPrecision(3)));
}

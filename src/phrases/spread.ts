import { worstCaseFactor } from "../engine/literalShapes";
import type { InputPlace } from "../engine/outcome";
import { showNumber } from "../quantity/display";
import { escaped } from "./markdown";

/**
 * How an input that is normal or known from readings is spread, and what a worst case counts of it, as Markdown. Empty for
 * one with limits of its own.
 */
export function spreadSentence({ spread, dimension, unit }: InputPlace): string {
  if (spread.shape !== "normal" && spread.shape !== "student") return "";
  const scale = unit?.isTemperatureScale ? {} : unit ? { unit } : {};
  const u = escaped(showNumber(spread.standardUncertainty, dimension, { point: false, ...scale }));
  return spread.shape === "normal"
    ? `Normal, with the standard uncertainty ${u}; a worst case counts ± ${factorText(spread)} of it.`
    : `Student’s t with ${spread.degreesOfFreedom} degrees of freedom and the standard uncertainty ${u}; a worst case counts ± ${factorText(spread)} of it.`;
}

/** How many standard uncertainties a worst case counts: `3`, or the quantile of t for the same share. */
export function factorText(spread: InputPlace["spread"]): string {
  return String(Number(worstCaseFactor(spread).toPrecision(3)));
}

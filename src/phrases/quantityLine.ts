import type { Extent } from "../engine/outcome";
import { showApart, unitToShow, type Shownable } from "../quantity/display";
import { drawDimensionLine } from "./dimensionLine";
import { numberText, optionsOf, type Showable } from "./value";

/** The dimension line of a quantity, with the limits that rules set it; undefined where it has no range to draw. */
export function quantityLine(extent: Extent, of: Showable, limits: readonly number[]): string | undefined {
  const { low, nominal, high } = extent;
  if (extent.standing === "undefined" || !(low < high) || ![low, nominal, high].every(Number.isFinite))
    return undefined;
  return lineOf(extent, of, limits.filter(Number.isFinite));
}

/**
 * The dimension line of a range: its ends and nominal with the digits that they are shown with together, the limits exact
 * in the same unit. Undefined where the range is too narrow to be shown as one.
 */
export function lineOf(range: Shownable, of: Showable, limits: readonly number[]): string | undefined {
  const { low, nominal, high } = range;
  const options = optionsOf(of);
  const shown = showApart(range, of.dimension, options);
  const texts = shown.text.split(" .. ");
  if (texts.length !== 3) return undefined;
  const labels = new Map([low, nominal, high].map((value, i) => [value, texts[i]]));
  const unit = unitToShow(range, of.dimension, options);
  const exact = (x: number) => showApart({ nominal: x, low: x, high: x }, of.dimension, { ...options, unit }).text;
  return drawDimensionLine({
    low,
    nominal,
    high,
    limits,
    label: (value) => labels.get(value) ?? exact(value),
    unit: shown.unit === "1" ? "" : shown.unit,
  });
}

/** The nominal value alone, with the digits that it has beside its range: `5.7 V`. */
export function nominalText(extent: Extent, of: Showable): string {
  const { text, unit } = showApart(extent, of.dimension, optionsOf(of));
  const texts = text.split(" .. ");
  const nominal = texts.length === 3 && extent.standing !== "undefined" ? texts[1] : undefined;
  if (nominal === undefined) return numberText(extent.nominal, of);
  return unit === "1" ? nominal : `${nominal} ${unit}`;
}

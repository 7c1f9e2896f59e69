import type { Extent } from "../engine/outcome";
import { showApart } from "../quantity/display";
import { drawDimensionLine } from "./dimensionLine";
import { numberText, type Showable } from "./value";

/** The dimension line of a quantity, with the limits that rules set it; undefined where it has no range to draw. */
export function quantityLine(extent: Extent, of: Showable, limits: readonly number[]): string | undefined {
  const { low, nominal, high } = extent;
  if (extent.standing === "undefined" || !(low < high) || ![low, nominal, high].every(Number.isFinite))
    return undefined;
  const shown = showApart(extent, of.dimension, { point: of.point, ...(of.unit ? { unit: of.unit } : {}) });
  const texts = shown.text.split(" .. ");
  if (texts.length !== 3) return undefined;
  const labels = new Map([low, nominal, high].map((value, i) => [value, texts[i]]));
  return drawDimensionLine({
    low,
    nominal,
    high,
    limits: limits.filter(Number.isFinite),
    label: (value) => labels.get(value) ?? "",
    unit: shown.unit === "1" ? "" : shown.unit,
  });
}

/** The nominal value alone, with the digits that it has beside its range: `5.7 V`. */
export function nominalText(extent: Extent, of: Showable): string {
  const { text, unit } = showApart(extent, of.dimension, { point: of.point, ...(of.unit ? { unit: of.unit } : {}) });
  const texts = text.split(" .. ");
  const nominal = texts.length === 3 && extent.standing !== "undefined" ? texts[1] : undefined;
  if (nominal === undefined) return numberText(extent.nominal, of);
  return unit === "1" ? nominal : `${nominal} ${unit}`;
}

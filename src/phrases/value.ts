import { show, showNumber, type Shownable, type ShowOptions } from "../quantity/display";
import type { Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { Extent, InputAt, QuantityOutcome, TruthOutcome } from "../engine/outcome";

/** What is needed to show a value as its author would type it. */
export interface Showable {
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
  /** The place of the last digit that was typed, in SI units. */
  readonly step?: number;
}

/**
 * A value with its range, in the order of a data sheet: `0.4 .. 3 .. 5.6 V`. Without a range, the nominal value alone.
 * While a range is still searched for, what is known of it so far and an ellipsis.
 */
export function extentText(extent: Extent, of: Showable): string {
  if (Number.isNaN(extent.nominal)) return "";
  if (extent.isPending && extent.standing === "undefined") return `${numberText(extent.nominal, of)} …`;
  if (extent.isPending) return `${show(extent, of.dimension, optionsOf(of))} …`;
  if (extent.standing === "undefined") return `${numberText(extent.nominal, of)}, range undefined`;
  return show(extent, of.dimension, optionsOf(of));
}

/** Limits about a value, as a range is shown. */
export function limitsText(limits: Shownable, of: Showable): string {
  return show(limits, of.dimension, optionsOf(of));
}

/** One number with its unit, in six significant digits or as many as are asked for. */
export function numberText(value: number, of: Showable, exactDigits?: number): string {
  return showNumber(value, of.dimension, { ...optionsOf(of), exactDigits });
}

/** A quantity's values, those of a list behind one another; empty where it has none. */
export function valueText(outcome: QuantityOutcome | TruthOutcome): string {
  if (outcome.kind === "truth") return outcome.values.map(truthText).join(", ");
  return outcome.values.map((extent) => extentText(extent, outcome)).join(", ");
}

/** An input at a value: `V_f 2.8 V`; one that has no name of its own, `9.8 V of 10 V ± 2 %`. */
export function inputText({ input, value }: InputAt, digits?: number): string {
  const text = numberText(value, input, digits);
  return /^[\p{L}_]/u.test(input.name) ? `${input.name} ${text}` : `${text} of ${input.name}`;
}

/** The inputs at which a value is lowest or highest; empty where that is not known. */
export function inputsAtEnd({ pushes, found }: Extent, end: "low" | "high"): readonly InputAt[] {
  if (found) return found[end === "low" ? "atLow" : "atHigh"];
  return pushes.map(({ input, highestAt }) => ({
    input,
    value: (highestAt === "high") === (end === "high") ? input.high : input.low,
  }));
}

function truthText(value: boolean | undefined): string {
  return value === undefined ? "open" : value ? "true" : "false";
}

export function optionsOf({ point, unit, step }: Showable): ShowOptions {
  return { point, ...(unit ? { unit } : {}), ...(step ? { step } : {}) };
}

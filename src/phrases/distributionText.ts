import type { ValueDistribution } from "../engine/distribution";
import type { UncertaintyBudget } from "../engine/uncertaintyBudget";
import { differenceText, rounded } from "./contributions";
import { code, escaped } from "./markdown";
import { limitsText, type Showable } from "./value";

/**
 * How a value is distributed, by trials, as Markdown: *95 % of builds 18.2 .. 20 .. 21.9 mA about the mean, standard
 * deviation 0.95 mA, by 140000 trials*. Operating conditions are nominal then, which is said of those that matter.
 */
export function distributionText(
  distribution: ValueDistribution,
  of: Showable,
  budget: UncertaintyBudget | undefined,
): string {
  const { standardDeviation, trials, withoutValue } = distribution;
  const held = (budget?.contributions ?? []).filter(({ isHeld }) => isHeld).map(({ input }) => code(input.name));
  return [
    `95 % of builds ${escaped(intervalText(distribution, of))} about the mean`,
    `standard deviation ${escaped(differenceText(standardDeviation, of))}`,
    `by ${trials} trials${held.length > 0 ? ` with ${held.join(", ")} nominal` : ""}`,
    ...(withoutValue > 0 ? [`${withoutValue} of them without a value`] : []),
  ].join(", ");
}

/** The limits that hold 95 % of builds about the mean, to the digits that trials are good for: `18.2 .. 20 .. 21.9 mA`. */
export function intervalText({ mean, standardDeviation, interval95 }: ValueDistribution, of: Showable): string {
  const fine = (x: number) => (standardDeviation > 0 ? rounded(x, standardDeviation, of) : x);
  // The step of what was typed is no measure of what is computed.
  const { dimension, point, unit } = of;
  const limits = { nominal: fine(mean), low: fine(interval95.low), high: fine(interval95.high) };
  return limitsText(limits, { dimension, point, ...(unit ? { unit } : {}) });
}

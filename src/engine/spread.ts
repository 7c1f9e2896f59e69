/**
 * How an uncertain input is spread from build to build, about its nominal value and between its limits:
 * - `even` between the limits (JCGM 100:2008, 4.3.7; with a typical value that is not the middle, 4.3.8);
 * - `normal` about the nominal value;
 * - `student`: Student's t about the nominal value, scaled by the standard uncertainty (JCGM 101:2008, 6.4.9.2):
 *   the mean of readings, or the next piece of a sample;
 * - `held`: an operating condition. Every build passes through all of it, so it is spread over none.
 */
export type Spread = Shape & {
  /**
   * It stands for the mean of so many pieces, each spread so and drawn on its own: its limits are those of a piece, its
   * standard uncertainty that of the mean. 1 where left out.
   */
  readonly pieces?: number;
};

type Shape =
  | { readonly shape: "even" }
  | { readonly shape: "normal"; readonly standardUncertainty: number }
  | { readonly shape: "student"; readonly standardUncertainty: number; readonly degreesOfFreedom: number }
  | { readonly shape: "held" };

export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** In the unit of the input. Infinite where a limit is not known; 0 of a condition. */
export function standardUncertaintyOf(spread: Spread, limits: Limits): number {
  return uncertaintyOfOne(spread, limits) / Math.sqrt(spread.pieces ?? 1);
}

function uncertaintyOfOne(spread: Spread, { low, high }: Limits): number {
  switch (spread.shape) {
    case "even":
      return (high - low) / Math.sqrt(12);
    case "held":
      return 0;
    default:
      return spread.standardUncertainty;
  }
}

/** How much is known about the standard uncertainty itself: limits count as known (JCGM 100, G.4.3). */
export function degreesOfFreedomOf(spread: Spread): number {
  return spread.shape === "student" ? spread.degreesOfFreedom : Infinity;
}

/** The fourth central moment over the square of the variance: 9/5 of an even spread, 3 of a normal one; a mean nears 3. */
export function kurtosisOf(spread: Spread): number {
  return spread.shape === "even" ? 3 - 6 / 5 / (spread.pieces ?? 1) : 3;
}

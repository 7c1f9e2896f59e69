/**
 * Statistics of observations, in the unit in which they are given.
 * Source: JCGM 100:2008, 4.2 (type A evaluation of standard uncertainty).
 */
export interface Observed {
  readonly count: number;
  readonly mean: number;
  /** Experimental standard deviation of the observations, with n − 1 (4.2.2). NaN of a single observation. */
  readonly deviation: number;
  /** What the value that they stand for is uncertain by; NaN of a single observation. */
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** One thing read repeatedly: the mean, with the standard uncertainty s/√n (JCGM 100, 4.2.3). */
export function readings(observations: readonly number[]): Observed {
  const observed = describe(observations);
  return { ...observed, standardUncertainty: observed.deviation / Math.sqrt(observed.count) };
}

/**
 * Different pieces: what the next one will be. It differs from the mean of those at hand by its own deviation and by
 * that of the mean, so its standard uncertainty is s·√(1 + 1/n) (ISO 16269-8:2004, prediction interval for one further
 * observation of a normal population).
 */
export function sample(observations: readonly number[]): Observed {
  const observed = describe(observations);
  return { ...observed, standardUncertainty: observed.deviation * Math.sqrt(1 + 1 / observed.count) };
}

/**
 * Estimates of the correlation of two quantities observed together, pair by pair: r(x, y) of their means, which is that
 * of the observations (JCGM 100, 5.2.3). NaN where one of them did not vary.
 */
export function correlationOf(xs: readonly number[], ys: readonly number[]): number {
  const x = center(xs);
  const y = center(ys);
  let product = 0;
  for (let i = 0; i < xs.length; i++) product += (xs[i] - x.mean) * (ys[i] - y.mean);
  return product / Math.sqrt(x.squares * y.squares);
}

function describe(observations: readonly number[]): Observed {
  const count = observations.length;
  const { mean, squares } = center(observations);
  const deviation = count > 1 ? Math.sqrt(squares / (count - 1)) : NaN;
  return { count, mean, deviation, standardUncertainty: deviation, degreesOfFreedom: count - 1 };
}

/**
 * The mean and the sum of squares about it, in passes that each correct what rounding left in the one before:
 * observations that agree in their first seven digits keep the others.
 */
function center(observations: readonly number[]): { readonly mean: number; readonly squares: number } {
  const count = observations.length;
  let mean = sum(observations, (x) => x) / count;
  mean += sum(observations, (x) => x - mean) / count;
  const squares = sum(observations, (x) => (x - mean) ** 2);
  const left = sum(observations, (x) => x - mean);
  return { mean, squares: squares - left ** 2 / count };
}

function sum(observations: readonly number[], f: (x: number) => number): number {
  let total = 0;
  for (const x of observations) total += f(x);
  return total;
}

/**
 * The root of a function between two places where its sign differs.
 *
 * Source of the method: I. F. D. Oliveira, R. H. C. Takahashi, An enhancement of the bisection method average performance
 * preserving minmax optimality, ACM Transactions on Mathematical Software 47(1), 2020, article 5 (interpolate, truncate,
 * project), with κ₁ = 0.2 / (b − a), κ₂ = 2 and n₀ = 1 as recommended there. It takes one evaluation more than bisection
 * at most, and a handful where the function is smooth.
 */
export function rootBetween(f: (x: number) => number, from: number, to: number): number | undefined {
  let [a, b] = [from, to];
  let [atA, atB] = [f(a), f(b)];
  if (atA === 0) return a;
  if (atB === 0) return b;
  if (!(atA * atB < 0)) return undefined;
  // As if the function were rising.
  const sense = atA < 0 ? 1 : -1;
  [atA, atB] = [sense * atA, sense * atB];
  const tolerance = Math.max(Math.abs(a), Math.abs(b)) * 2 ** -52 + Number.MIN_VALUE;
  const most = Math.min(MOST_EVALUATIONS, Math.ceil(Math.log2((b - a) / (2 * tolerance))) + 1);
  const k1 = 0.2 / (b - a);
  for (let j = 0; j <= most && b - a > 2 * tolerance; j++) {
    const half = a + (b - a) / 2;
    const radius = tolerance * 2 ** (most - j) - (b - a) / 2;
    const secant = (b * atA - a * atB) / (atA - atB);
    const interpolated = Number.isFinite(secant) ? secant : half;
    const way = Math.sign(half - interpolated);
    const truncation = Math.min(k1 * (b - a) ** 2, Math.abs(half - interpolated));
    const truncated = interpolated + way * truncation;
    const x = Math.abs(truncated - half) <= radius ? truncated : half - way * Math.max(0, radius);
    const value = sense * f(x);
    if (Number.isNaN(value)) return undefined;
    if (value === 0) return x;
    if (value > 0) [b, atB] = [x, value];
    else [a, atA] = [x, value];
  }
  return Math.abs(atA) < Math.abs(atB) ? a : b;
}

/** Bisection alone is at the last digit before, from any bracket of doubles that is written by hand. */
const MOST_EVALUATIONS = 200;

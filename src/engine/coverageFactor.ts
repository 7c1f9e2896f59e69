/**
 * How many standard uncertainties reach on either side of an estimate for a given coverage probability:
 * quantiles of the normal distribution and of Student's t.
 *
 * Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions (1964): 26.7.3, 26.7.4 for whole degrees of
 * freedom, 26.7.5 for many. JCGM 100:2008, table G.2, has the figures.
 */

/** From here on the expansion in 1/ν is good to all digits, and the sum would only take longer. */
const MANY_DEGREES = 1000;

/**
 * The coverage factor k with which −k .. k holds the share `probability` of Student's t with that many degrees of
 * freedom; Infinity gives the normal distribution. Degrees of freedom that are not whole are taken down to the next
 * whole number (JCGM 100, G.4.1, note 1). NaN for less than one, and for a probability outside 0 .. 1.
 */
export function coverageFactor(probability: number, degreesOfFreedom: number): number {
  if (!(probability > 0 && probability < 1) || !(degreesOfFreedom >= 1)) return NaN;
  const degrees = Math.floor(degreesOfFreedom);
  if (degrees > MANY_DEGREES) return expandedFromNormal(normalFactor(probability), degrees);
  return solve((k) => centralShare(k, degrees), probability);
}

/** Φ(x): the share of a standard normal distribution below x, with an absolute error below 10⁻¹⁵. */
export function normalShareBelow(x: number): number {
  const size = Math.abs(x);
  const tail = size > 37 ? 0 : Math.exp((-size * size) / 2) * tailRatio(size);
  return x > 0 ? 1 - tail : tail;
}

function normalFactor(probability: number): number {
  return solve((k) => 1 - 2 * normalShareBelow(-k), probability);
}

/** The share of Student's t between −k and k, by the finite sums in θ = arctan(k/√ν). */
function centralShare(k: number, degrees: number): number {
  const angle = Math.atan(k / Math.sqrt(degrees));
  const sine = Math.sin(angle);
  const cosine = Math.cos(angle);
  const odd = degrees % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = degrees === 1 ? 0 : term;
  for (let j = odd ? 3 : 2; j < degrees; j += 2) {
    term *= (cosine * cosine * (j - 1)) / j;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + sine * sum) : sine * sum;
}

/** 26.7.5: the quantile of t as an expansion about that of the normal distribution. */
function expandedFromNormal(x: number, degrees: number): number {
  const terms = [
    x,
    (x ** 3 + x) / 4,
    (5 * x ** 5 + 16 * x ** 3 + 3 * x) / 96,
    (3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / 384,
  ];
  return Number.isFinite(degrees) ? terms.reduce((sum, term, power) => sum + term / degrees ** power, 0) : x;
}

/** Where a share that rises from 0 to 1 reaches the value asked for: bisection, until the doubles are neighbours. */
function solve(share: (k: number) => number, wanted: number): number {
  let low = 0;
  let high = 1;
  while (share(high) < wanted && high < Number.MAX_VALUE / 2) [low, high] = [high, high * 2];
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return high;
    if (share(middle) < wanted) low = middle;
    else high = middle;
  }
}

/**
 * Φ(−x) / e^(−x²/2) for x ≥ 0: J. F. Hart, Computer Approximations (1968), 5666, and a continued fraction beyond 5√2,
 * as put together by G. West, Better approximations to cumulative normal functions, Wilmott Magazine (May 2005).
 */
function tailRatio(x: number): number {
  if (x > 5 * Math.SQRT2) return 1 / ((x + 1 / (x + 2 / (x + 3 / (x + 4 / (x + 0.65))))) * Math.sqrt(2 * Math.PI));
  return polynomial(ABOVE, x) / polynomial(BELOW, x);
}

const ABOVE = [
  3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871, 221.213596169931,
  220.206867912376,
];
const BELOW = [
  8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674, 637.333633378831,
  793.826512519948, 440.413735824752,
];

/** Coefficients of the highest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
  let value = 0;
  for (const coefficient of coefficients) value = value * x + coefficient;
  return value;
}

/**
 * Exact fractions, for one purpose: a unit's factor and a number as written meet here without rounding, and the
 * result is rounded once, to the nearest double. So `0.9144000000000001` has no place to come from.
 */
export interface Rational {
  readonly numerator: bigint;
  /** Greater than zero, and without a common divisor with the numerator. */
  readonly denominator: bigint;
}

export const ONE: Rational = { numerator: 1n, denominator: 1n };

/** Reads `12`, `-4.5e-3`, or two of them around a slash, such as `5/9`. The text is ours, not a note's. */
export function rational(text: string): Rational {
  const [above, below = "1"] = text.split("/");
  return quotient(decimal(above), decimal(below));
}

/** The fraction of two integers, reduced. */
export function fraction(numerator: bigint, denominator: bigint): Rational {
  const sign = denominator < 0n ? -1n : 1n;
  const divisor = greatestCommonDivisor(numerator, denominator) * sign;
  return { numerator: numerator / divisor, denominator: denominator / divisor };
}

/** digits · 10^exponent. */
export function scaled(digits: bigint, exponent: number): Rational {
  const power = 10n ** BigInt(Math.abs(exponent));
  return exponent < 0 ? fraction(digits, power) : { numerator: digits * power, denominator: 1n };
}

export function sum(a: Rational, b: Rational): Rational {
  return fraction(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function product(a: Rational, b: Rational): Rational {
  return fraction(a.numerator * b.numerator, a.denominator * b.denominator);
}

export function quotient(a: Rational, b: Rational): Rational {
  return fraction(a.numerator * b.denominator, a.denominator * b.numerator);
}

/** A whole power; the base is not zero where the exponent is negative. */
export function wholePower(base: Rational, exponent: number): Rational {
  const n = BigInt(Math.abs(exponent));
  return exponent < 0
    ? fraction(base.denominator ** n, base.numerator ** n)
    : fraction(base.numerator ** n, base.denominator ** n);
}

/** The nearest double, ties to even. */
export function toDouble(value: Rational): number {
  const { numerator, denominator } = value;
  if (numerator === 0n) return 0;
  // Thirty digits and one that only says whether more follow: the decimal text then rounds exactly as the fraction does.
  const shift = 30 - digitCount(numerator) + digitCount(denominator);
  const above = shift > 0 ? numerator * 10n ** BigInt(shift) : numerator;
  const below = shift < 0 ? denominator * 10n ** BigInt(-shift) : denominator;
  const sticky = above % below === 0n ? "0" : "1";
  return Number(`${above / below}${sticky}e${-shift - 1}`) + 0; // + 0 turns −0 into 0.
}

/** n where the value is exactly 10^n, otherwise undefined. */
export function decimalExponent(value: Rational): number | undefined {
  const whole = value.denominator === 1n ? value.numerator : value.numerator === 1n ? value.denominator : 0n;
  const text = whole.toString();
  if (!/^10*$/.test(text)) return undefined;
  return value.denominator === 1n ? text.length - 1 : 1 - text.length;
}

function decimal(text: string): Rational {
  const [, digits, decimals = "", exponent = "0"] = /^([-+]?\d+)(?:\.(\d+))?(?:e([-+]?\d+))?$/i.exec(text.trim())!;
  return scaled(BigInt(digits + decimals), Number(exponent) - decimals.length);
}

function digitCount(value: bigint): number {
  return value.toString().length - (value < 0n ? 1 : 0);
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [large, small] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (small !== 0n) [large, small] = [small, large % small];
  return large === 0n ? 1n : large;
}

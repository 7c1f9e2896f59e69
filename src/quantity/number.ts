import { fraction, product, scaled, sum, toDouble, type Rational } from "./rational";
import type { Unit } from "./unit";

/**
 * A number as written, in coherent SI, rounded once: `2.2` with nF is the double nearest to 2.2·10⁻⁹, which
 * `2.2 * 1e-9` is not. With a temperature scale it is a point: `25` with °C is 298.15 K.
 *
 * Reads `12`, `-4.5e3`, `1_000`, `1/4`, `0x1F`, `0b1010`. Anything else is NaN; beyond the doubles it is ±∞ or 0, and
 * so is a division by zero.
 */
export function readDecimal(text: string, unit: Unit | undefined): number {
  return read(text, unit, unit?.exactZero);
}

/** The same for a difference: `2` with °C is 2 K. */
export function readDifference(text: string, unit: Unit | undefined): number {
  return read(text, unit, undefined);
}

/** digits · 10^exponent / divisor. */
interface Written {
  readonly digits: string;
  readonly exponent: number;
  readonly divisor: string;
}

/** More digits than any double can tell apart (767), with a margin; the rest cannot change the result but costs time. */
const MAXIMUM_DIGITS = 800;
/** A written power of ten is cut here, so that its own digits cannot overflow. */
const MAXIMUM_EXPONENT = 1e9;
/** Beyond it every product with a unit's factor is infinite or zero. */
const MAXIMUM_MAGNITUDE = 1500;

const DECIMAL = /^([-+]?)(\d+)(?:\.(\d+))?(?:e([-+]?\d+))?$/i;
const FRACTION = /^([-+]?)(\d+)\/(\d+)$/;
const OTHER_BASE = /^([-+]?)(0x[0-9a-f]+|0b[01]+)$/i;

function read(text: string, unit: Unit | undefined, zero: Rational | undefined): number {
  const decimal = unit === undefined ? 0 : unit.decimal;
  // Most numbers are like 4.7: with a power of ten behind it, a decimal is read to the nearest double as it stands.
  if (decimal !== undefined && zero === undefined && isPlain(text))
    return Number(decimal === 0 ? text : `${text}e${decimal}`);
  const written = parse(text.replace(/_/g, "").replace(/−/g, "-").trim());
  if (written === undefined) return Number.NaN;
  const shift = unit === undefined ? 0 : unit.decimal;
  if (written.divisor === "1" && shift !== undefined && zero === undefined) {
    return Number(`${written.digits}e${written.exponent + shift}`) + 0;
  }
  if (BigInt(written.divisor) === 0n) return Number(written.digits) / 0;
  const magnitude = written.digits.length - written.divisor.length + written.exponent;
  if (Math.abs(magnitude) > MAXIMUM_MAGNITUDE) return Number(`${written.digits}e${written.exponent}`);
  const value = exactValue(written);
  const factor = unit?.exact;
  if (factor === undefined) return toDouble(value) * (unit?.factor ?? 1);
  const inSi = product(value, factor);
  return toDouble(zero === undefined ? inSi : sum(inSi, zero));
}

/** Digits, with or without others behind a point. */
function isPlain(text: string): boolean {
  let points = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === POINT && i > 0 && i < text.length - 1) points++;
    else if (code < ZERO || code > NINE) return false;
  }
  return points <= 1 && text.length > 0 && text.length < MAXIMUM_DIGITS;
}

const POINT = 46;
const ZERO = 48;
const NINE = 57;

function parse(text: string): Written | undefined {
  let match = DECIMAL.exec(text);
  if (match) {
    const [, sign, whole, decimals = "", exponent = "0"] = match;
    const power = Math.max(-MAXIMUM_EXPONENT, Math.min(MAXIMUM_EXPONENT, Number(exponent)));
    return { digits: sign + trimmed(whole + decimals), exponent: power - decimals.length, divisor: "1" };
  }
  if ((match = FRACTION.exec(text))) {
    return { digits: match[1] + trimmed(match[2]), exponent: 0, divisor: trimmed(match[3]) };
  }
  if ((match = OTHER_BASE.exec(text))) return { digits: match[1] + BigInt(match[2]), exponent: 0, divisor: "1" };
  return undefined;
}

/** Without leading zeros, so that the count of digits is the size of the number. */
function trimmed(digits: string): string {
  return digits.replace(/^0+(?=\d)/, "");
}

function exactValue({ digits, exponent, divisor }: Written): Rational {
  const extra = digits.length - MAXIMUM_DIGITS;
  if (extra <= 0) return product(scaled(BigInt(digits), exponent), fraction(1n, BigInt(divisor)));
  return product(scaled(BigInt(digits.slice(0, MAXIMUM_DIGITS)), exponent + extra), fraction(1n, BigInt(divisor)));
}

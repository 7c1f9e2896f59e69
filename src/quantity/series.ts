/**
 * The series of preferred values for resistors, capacitors and inductors: IEC 60063:2015. Values are taken from one
 * decade and hold for all of them.
 */
export type SeriesName = "E3" | "E6" | "E12" | "E24" | "E48" | "E96" | "E192";

/** One decade of E24, times 100. E12, E6 and E3 are every second, fourth and eighth of it. Not powers of 10^(1/24): 27, 30, 33 … 47 and 82 are history. */
const E24: readonly number[] = [
  100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300, 330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820,
  910,
];

/** One decade of E192, times 100. E96 and E48 are every second and fourth of it. All are 10^(i/192) rounded, save 920, where the rule gives 919. */
const E192: readonly number[] = [
  100, 101, 102, 104, 105, 106, 107, 109, 110, 111, 113, 114, 115, 117, 118, 120, 121, 123, 124, 126, 127, 129, 130,
  132, 133, 135, 137, 138, 140, 142, 143, 145, 147, 149, 150, 152, 154, 156, 158, 160, 162, 164, 165, 167, 169, 172,
  174, 176, 178, 180, 182, 184, 187, 189, 191, 193, 196, 198, 200, 203, 205, 208, 210, 213, 215, 218, 221, 223, 226,
  229, 232, 234, 237, 240, 243, 246, 249, 252, 255, 258, 261, 264, 267, 271, 274, 277, 280, 284, 287, 291, 294, 298,
  301, 305, 309, 312, 316, 320, 324, 328, 332, 336, 340, 344, 348, 352, 357, 361, 365, 370, 374, 379, 383, 388, 392,
  397, 402, 407, 412, 417, 422, 427, 432, 437, 442, 448, 453, 459, 464, 470, 475, 481, 487, 493, 499, 505, 511, 517,
  523, 530, 536, 542, 549, 556, 562, 569, 576, 583, 590, 597, 604, 612, 619, 626, 634, 642, 649, 657, 665, 673, 681,
  690, 698, 706, 715, 723, 732, 741, 750, 759, 768, 777, 787, 796, 806, 816, 825, 835, 845, 856, 866, 876, 887, 898,
  909, 920, 931, 942, 953, 965, 976, 988,
];

const DECADES: Readonly<Record<SeriesName, readonly number[]>> = {
  E3: every(8, E24),
  E6: every(4, E24),
  E12: every(2, E24),
  E24,
  E48: every(4, E192),
  E96: every(2, E192),
  E192,
};

export const SERIES_NAMES = Object.keys(DECADES) as SeriesName[];

/** A value that a calculation gives stands for a member within this relative distance: 4.7 kΩ may come out as 4699.999999999999 Ω. */
const CLOSENESS = 1e-12;

const POWERS_OF_TEN = Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));

export function isSeriesName(text: string): text is SeriesName {
  return Object.hasOwn(DECADES, text);
}

/** One decade of a series, from 1 (included) to 10 (not included). */
export function decade(series: SeriesName): readonly number[] {
  return DECADES[series].map((hundredfold) => memberOf(hundredfold, 0));
}

/**
 * The member with the least deviation from x, which is also the least in per cent of x; the smaller of two equally near.
 * A member is the double that its decimal text reads as. NaN unless x is positive and finite, as everywhere here.
 */
export function nearest(series: SeriesName, x: number): number {
  const below = nextDown(series, x);
  const above = nextUp(series, x);
  return x - below <= above - x + CLOSENESS * x ? below : above;
}

/** The least member that is not below x. */
export function nextUp(series: SeriesName, x: number): number {
  const place = placeBelow(series, x);
  const below = memberAt(series, place);
  return isClose(below, x) ? below : memberAt(series, place + 1);
}

/** The greatest member that is not above x. */
export function nextDown(series: SeriesName, x: number): number {
  return memberAt(series, placeBelow(series, x));
}

export function isMember(series: SeriesName, x: number): boolean {
  return isClose(nextDown(series, x), x);
}

/** The members next to x on either side; where x is a member itself, it is neither of them. */
export function neighbours(series: SeriesName, x: number): { below: number; above: number } {
  const place = placeBelow(series, x);
  const below = isClose(memberAt(series, place), x) ? place - 1 : place;
  return { below: memberAt(series, below), above: memberAt(series, place + 1) };
}

/** The place of the greatest member that is not above x, counted on from 1 through all decades; NaN where x has none. */
function placeBelow(series: SeriesName, x: number): number {
  if (!(x > 0 && x < Number.POSITIVE_INFINITY)) return Number.NaN;
  const values = DECADES[series];
  // The logarithm may land one decade too low or too high; the steps below put that right.
  const exponent = Math.floor(Math.log10(x));
  const mantissa = x / Number(`1e${exponent - 2}`);
  let place = exponent * values.length + lastNotAbove(values, mantissa);
  while (!isNotAbove(memberAt(series, place), x)) place--;
  while (isNotAbove(memberAt(series, place + 1), x)) place++;
  return place;
}

/** The member is made smaller, not x larger: the largest doubles would become infinite, and no member is above that. */
function isNotAbove(member: number, x: number): boolean {
  return member * (1 - CLOSENESS) <= x;
}

function lastNotAbove(values: readonly number[], x: number): number {
  let low = 0;
  let high = values.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle] <= x) low = middle;
    else high = middle;
  }
  return low;
}

function memberAt(series: SeriesName, place: number): number {
  const values = DECADES[series];
  const exponent = Math.floor(place / values.length);
  return memberOf(values[place - exponent * values.length], exponent);
}

/** The very double that the decimal text reads as. Powers of ten to 10²² are exact, so one operation rounds as reading does. */
function memberOf(hundredfold: number, exponent: number): number {
  const power = exponent - 2;
  if (Math.abs(power) > 22) return Number(`${hundredfold}e${power}`);
  return power < 0 ? hundredfold / POWERS_OF_TEN[-power] : hundredfold * POWERS_OF_TEN[power];
}

function isClose(member: number, x: number): boolean {
  return Math.abs(member - x) <= CLOSENESS * x;
}

function every(step: number, values: readonly number[]): readonly number[] {
  return values.filter((_, i) => i % step === 0);
}

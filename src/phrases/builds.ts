import type { RuleOutcome, TriedBuilds } from "../engine/outcome";

/** What trials say of a rule; empty where there were none. */
export function buildsText({ builds, required }: RuleOutcome): string {
  if (!builds?.isTried) return "";
  return required === undefined ? failingText(builds) : `${keptText(builds, required)}, ${requiredText(required)}`;
}

/**
 * *3 builds in 1000*, *27 builds in 100*: how many do not keep a rule, counted in no more than the trials bear. Where
 * these find hardly one, *fewer than 1 build in 1000*.
 */
function failingText({ share, low, high }: TriedBuilds): string {
  const failing = 1 - share;
  if (share === 0) return "every build tried";
  const doubt = Math.max(high - share, share - low);
  const fine = failing > 0 ? Math.ceil(-Math.log10(failing) - NOISE) : Infinity;
  const borne = Math.floor(Math.log10(COUNT_DOUBT / doubt) + NOISE);
  const among = 10 ** Math.max(1, Math.min(Math.max(2, fine), borne));
  const count = Math.round(failing * among);
  if (count > 0) return `${countText(count)} in ${among}`;
  return `fewer than ${countText(1)} in ${10 ** Math.floor(-Math.log10(1 - low) + NOISE)}`;
}

/** By so many builds a count may be off. */
const COUNT_DOUBT = 2;

function countText(count: number): string {
  return `${count} ${count === 1 ? "build" : "builds"}`;
}

/** The share that a rule asks for, as written: *99.5 % asked for*. */
function requiredText(required: number): string {
  return `${perCent(required * 100)} asked for`;
}

/**
 * *99.2 % of builds keep it*: to the digits that the trials bear, and to as many as tell it from the share that is asked
 * for. Where that would be none or all of them, which trials cannot know, the bound: *more than 99.9 % of builds keep it*.
 */
function keptText({ share, low, high, reaches }: TriedBuilds, required: number): string {
  // The last digit may be off by two.
  const doubt = 50 * Math.max(high - share, share - low);
  const isOnItsSide = (shown: number) => reaches === undefined || shown >= 100 * required - NOISE === reaches;
  const about = (round: (x: number) => number, x: number, unsure: number) =>
    `${perCent(rounded(100 * x, digitsFor(unsure), round, isOnItsSide))} of builds keep it`;
  const nearest = Math.round(100 * share * 10 ** digitsFor(doubt));
  if (nearest === 0) return `fewer than ${about(Math.ceil, high, 100 * high)}`;
  if (nearest === 100 * 10 ** digitsFor(doubt)) return `more than ${about(Math.floor, low, 100 * (1 - low))}`;
  return about(Math.round, share, doubt);
}

/** Decimals of which the last is no finer than that. */
function digitsFor(doubt: number): number {
  return Math.max(0, Math.floor(-Math.log10(doubt) + NOISE));
}

/** No trials bear more decimals of a per cent. */
const MOST_DECIMALS = 6;
/** Of what is exact but for rounding. */
const NOISE = 1e-9;

/** To so many decimals, or to the fewest more with which it is as is wanted. */
function rounded(
  x: number,
  decimals: number,
  round: (x: number) => number,
  isAsWanted: (shown: number) => boolean,
): number {
  const to = (digits: number) => round(x * 10 ** digits) / 10 ** digits;
  for (let digits = decimals; digits <= MOST_DECIMALS; digits++) if (isAsWanted(to(digits))) return to(digits);
  return to(decimals);
}

function perCent(x: number): string {
  return `${Number(x.toPrecision(12))} %`;
}

import { RATIO } from "../quantity/dimension";
import { readDecimal, readDifference } from "../quantity/number";
import type { Unit } from "../quantity/unit";
import { coverageFactor, normalShareBelow } from "./coverageFactor";
import type { Literal } from "./literal";
import type { Spread } from "./spread";
import type { Observed } from "./statistics";

/** In a worst case a normal input counts as ± 3 standard uncertainties. */
const NORMAL_LIMITS = 3;
/** The share of a normal distribution that lies inside, 99.73 %; of Student's t the same share is counted. */
const SHARE_INSIDE = 1 - 2 * normalShareBelow(-NORMAL_LIMITS);

/** How many standard uncertainties a worst case reaches to either side; 0 of a shape that has limits of its own. */
export function worstCaseFactor(spread: Spread): number {
  switch (spread.shape) {
    case "normal":
      return NORMAL_LIMITS;
    case "student":
      return coverageFactor(SHARE_INSIDE, spread.degreesOfFreedom);
    default:
      return 0;
  }
}

const EVEN = { shape: "even" } as const;

/** Spread evenly between limits (JCGM 100, 4.3.7). */
export function even(unit: Unit | undefined, nominal: number, low: number, high: number, isZero = false): Literal {
  const { dimension = RATIO, isTemperatureScale: point = false } = unit ?? {};
  return { nominal, low, high, spread: EVEN, dimension, point, unit, isZero, step: undefined };
}

/** Of a stated standard uncertainty. */
export function normal(unit: Unit | undefined, nominal: number, standardUncertainty: number): Literal {
  return aboutNominal(unit, nominal, { shape: "normal", standardUncertainty });
}

/** What observations, in that unit, stand for: Student's t with their degrees of freedom (JCGM 101, 6.4.9). */
export function student(unit: Unit | undefined, observed: Observed): Literal {
  const { mean, standardUncertainty, degreesOfFreedom } = observed;
  const inSi = readDifference(String(standardUncertainty), unit);
  const spread = { shape: "student", standardUncertainty: inSi, degreesOfFreedom } as const;
  return aboutNominal(unit, readDecimal(String(mean), unit), spread);
}

function aboutNominal(
  unit: Unit | undefined,
  nominal: number,
  spread: Extract<Spread, { standardUncertainty: number }>,
): Literal {
  const width = worstCaseFactor(spread) * spread.standardUncertainty;
  const { dimension = RATIO, isTemperatureScale: point = false } = unit ?? {};
  return {
    nominal,
    low: nominal - width,
    high: nominal + width,
    spread,
    dimension,
    point,
    unit,
    isZero: false,
    step: undefined,
  };
}

import type { Extent, QuantityOutcome } from "../engine/outcome";
import { mentionsOf } from "../engine/mentions";
import type { Row } from "../engine/snapshot";
import {
  AREA,
  CAPACITANCE,
  countDimension,
  divide,
  ENERGY,
  INDUCTANCE,
  LENGTH,
  MASS,
  POWER,
  RATIO,
  TEMPERATURE,
  VOLTAGE,
  type Dimension,
} from "../quantity/dimension";
import { findName, type Scope } from "./side";

/** A limit beyond which people can be hurt. The chapter `safety` of the handbook has the same figures with their prose. */
export interface Caution {
  readonly code: CautionCode;
  /** The constant of the chapter `safety` that has the figure. */
  readonly constant: string;
  readonly dimension: Dimension;
  /** The quantity is a temperature on a scale. */
  readonly point?: boolean;
  /** In coherent SI, temperatures in K. */
  readonly limit: number;
  /** `above`: the caution is shown for what is greater than the limit, in either direction; `upTo`: for what is not. */
  readonly side: "above" | "upTo";
  /** Words in a name, set off by `_`, a digit or a capital, for quantities whose kind does not tell what they are. */
  readonly words?: readonly string[];
  /** Only where the formula names a capacitance or an inductance. */
  readonly isStored?: boolean;
  /** What the limit is, with the figure as text. */
  readonly meaning: string;
  readonly source: string;
  readonly notCovered: string;
}

export type CautionCode =
  | "caution.voltage"
  | "caution.mains"
  | "caution.energy"
  | "caution.touch"
  | "caution.radiance"
  | "caution.laser"
  | "caution.hearing"
  | "caution.swallow"
  | "caution.lithium"
  | "caution.overhead"
  | "caution.pinch";

const FORCE = divide(ENERGY, LENGTH);
const RADIANCE = divide(divide(POWER, AREA), countDimension("sr"));
const STORES: ReadonlySet<Dimension> = new Set([CAPACITANCE, INDUCTANCE]);

/** The data: one entry a limit. None of the figures was read in its standard, and every message says so. */
export const CAUTIONS: readonly Caution[] = [
  {
    code: "caution.mains",
    constant: "ELV_ac",
    dimension: VOLTAGE,
    limit: 50,
    side: "above",
    words: ["mains", "ac", "rms", "line", "grid"],
    meaning: "an alternating voltage above 50 V r.m.s. is not extra-low",
    source: "IEC 61140 and IEC 60449, extra-low voltage",
    notCovered: "wet skin, children, animals, and arcs; already 30 V r.m.s. is the most that anyone may touch",
  },
  {
    code: "caution.voltage",
    constant: "ES1_dc",
    dimension: VOLTAGE,
    limit: 60,
    side: "above",
    meaning: "a direct voltage above 60 V is more than anyone may touch in the dry",
    source: "IEC 62368-1:2018, table 4, class ES1",
    notCovered: "alternating voltage (30 V r.m.s.), wet skin, children and animals",
  },
  {
    code: "caution.energy",
    constant: "hazardous_energy",
    dimension: ENERGY,
    limit: 20,
    side: "above",
    isStored: true,
    meaning: "stored energy of more than 20 J at 2 V or more is called hazardous",
    source: "IEC 60950-1, 1.2.8",
    notCovered: "the fright that a smaller discharge gives, and the voltage at which it is stored",
  },
  {
    code: "caution.touch",
    constant: "touch_held",
    dimension: TEMPERATURE,
    point: true,
    limit: 321.15,
    side: "above",
    words: ["touch", "skin", "handle", "held", "worn"],
    meaning:
      "what is held or worn for a minute or more burns above 48 °C; metal that is touched for a second, above 60 °C",
    source: "IEC 62368-1:2018, table 38, class TS1",
    notCovered: "children, numb skin, and an ambient above 25 °C",
  },
  {
    code: "caution.radiance",
    constant: "exempt_radiance",
    dimension: RADIANCE,
    limit: 100,
    side: "above",
    meaning: "a blue-light radiance above 100 W/(m²·sr) is no longer of the exempt group, and no distance lessens it",
    source: "IEC 62471:2006, table 6.1",
    notCovered: "ultraviolet, infrared, and people who cannot look away",
  },
  {
    code: "caution.laser",
    constant: "class_1_beam",
    dimension: POWER,
    limit: 0.39e-3,
    side: "above",
    words: ["laser", "beam"],
    meaning: "a visible beam of more than 0.39 mW is not of class 1",
    source: "IEC 60825-1:2014, class 1, continuous and visible",
    notCovered: "pulses, invisible beams, and optics that gather the beam",
  },
  {
    code: "caution.hearing",
    constant: "hearing_level",
    dimension: RATIO,
    limit: 85,
    side: "above",
    words: ["spl", "loudness", "dba"],
    meaning: "more than 85 dB(A) for eight hours a day harms hearing",
    source: "NIOSH 98-126; for leisure WHO and ITU-T H.870, 80 dB(A) for 40 h a week",
    notCovered: "children, who bear less, and peaks, which harm at once",
  },
  {
    code: "caution.swallow",
    constant: "swallowed_diameter",
    dimension: LENGTH,
    limit: 32e-3,
    side: "upTo",
    words: ["cell", "coin", "button"],
    meaning: "a cell of 32 mm or less can be swallowed, and burns through the gullet within two hours",
    source: "IEC 62368-1:2018, 4.8",
    notCovered: "what else of the product is small enough to be swallowed",
  },
  {
    code: "caution.lithium",
    constant: "lithium_energy",
    dimension: ENERGY,
    limit: 360e3,
    side: "above",
    words: ["lithium", "battery", "pack"],
    meaning:
      "a lithium battery of more than 100 Wh falls under the stricter rules of carriage, and its fire is not put out",
    source: "UN Model Regulations, special provision 188",
    notCovered: "crushing, overcharge and charging in frost, at which a smaller one burns too",
  },
  {
    code: "caution.overhead",
    constant: "mass_overhead",
    dimension: MASS,
    limit: 1,
    side: "above",
    words: ["overhead", "hung", "hanging", "ceiling", "suspended"],
    meaning: "what hangs over people and has more than 1 kg can injure where it falls",
    source: "IEC 62368-1:2018, 8.7 and table 35",
    notCovered: "the strength of wall and ceiling, corrosion, vibration and screws that loosen",
  },
  {
    code: "caution.pinch",
    constant: "pinch_force",
    dimension: FORCE,
    limit: 150,
    side: "above",
    words: ["pinch", "crush", "grip", "clamp", "closing"],
    meaning: "a part that stays closed on a hand with more than 150 N injures",
    source: "EN 12453:2017, static closing force",
    notCovered: "sharp edges, hair and sleeves, and the blow of a part that moves fast",
  },
];

/** A caution, and the value with which a quantity passes its limit. */
export interface PassedLimit {
  readonly caution: Caution;
  readonly outcome: QuantityOutcome;
  readonly value: number;
}

/**
 * The limits that a quantity passes at its worst. One whose formula names a quantity of its kind that passes a limit too
 * repeats what is said there, and is left alone.
 */
export function passedLimits(row: Row, scope: Scope): readonly PassedLimit[] {
  return passedBy(row, scope).filter(({ caution }) => !mentionsOne(row, scope, caution.dimension));
}

function passedBy({ outcome, statement }: Row, scope: Scope): readonly PassedLimit[] {
  if (outcome.kind !== "quantity" || outcome.values.length === 0) return [];
  const found: PassedLimit[] = [];
  for (const caution of CAUTIONS) {
    const { dimension, point, words, isStored } = caution;
    if (outcome.dimension !== dimension || outcome.point !== (point ?? false)) continue;
    if (words && !hasWord(outcome.name, words)) continue;
    if (isStored && !namesStore(statement, scope)) continue;
    // The mains have a limit of their own, and it is the lower one.
    if (found.some(({ caution: other }) => other.dimension === dimension)) continue;
    const value = worstOf(outcome.values, caution);
    if (value !== undefined) found.push({ caution, outcome, value });
  }
  return found;
}

/** The value furthest beyond the limit; undefined where all keep it. */
function worstOf(values: readonly Extent[], { limit, side }: Caution): number | undefined {
  const ends = values.flatMap(({ nominal, low, high }) => [low, high, nominal].filter(Number.isFinite));
  if (side === "upTo") {
    const least = Math.min(...ends);
    return least > 0 && least <= limit ? least : undefined;
  }
  const greatest = ends.reduce((most, end) => (Math.abs(end) > Math.abs(most) ? end : most), 0);
  return Math.abs(greatest) > limit * (1 + SLACK) ? greatest : undefined;
}

/** As comparisons of the language allow: a limit that is met exactly is not passed. */
const SLACK = 1e-12;

function mentionsOne({ statement }: Row, scope: Scope, dimension: Dimension): boolean {
  return mentionsOf(statement).some(({ name, member, use }) => {
    if (use === "unit" || use === "call") return false;
    const other = findName(member === undefined ? name : `${name}.${member}`, scope);
    return (
      other !== undefined &&
      other.statement !== statement &&
      passedBy(other, scope).some(({ caution }) => caution.dimension === dimension)
    );
  });
}

/** Whether a formula names a capacitance or an inductance. */
function namesStore(statement: Row["statement"], scope: Scope): boolean {
  return mentionsOf(statement).some(({ name, member }) => {
    const outcome = findName(member === undefined ? name : `${name}.${member}`, scope)?.outcome;
    return outcome?.kind === "quantity" && STORES.has(outcome.dimension);
  });
}

/** Whether one of the words stands in a name: `T_touch`, `touchTemperature`. */
function hasWord(name: string, words: readonly string[]): boolean {
  const parts = name.split(/[_\d]+|(?<=\p{Ll})(?=\p{Lu})/u).map((part) => part.toLowerCase());
  return words.some((word) => parts.includes(word));
}

/** The way out in the sentence, which is left out once it was taken. */
export function howToAccept(code: string): string {
  return `; where this is known and provided for, write \`accept ${code} because "…"\``;
}

import * as interval from "./interval";
import { EQUALITY, Op, slack, type Operation } from "./operation";
import { anySlope, noSlope, slope, steady, stepping, TOO_LARGE } from "./operationParts";

/** What picks, rounds, compares and decides. */
export const DECISIONS = {
  [Op.Abs]: {
    name: "abs",
    kind: "smooth",
    arity: 1,
    number: Math.abs,
    range: (out, low, high) => {
      const a = Math.abs(low);
      const b = Math.abs(high);
      interval.set(out, low <= 0 && high >= 0 ? 0 : Math.min(a, b), Math.max(a, b));
    },
    slopes: (out, low, high) => slope(out, low >= 0 && high > 0 ? 1 : -1, high <= 0 && low < 0 ? -1 : 1),
    trouble: TOO_LARGE,
  },
  [Op.Sign]: stepping("sign", Math.sign),
  [Op.Floor]: stepping("floor", steady(Math.floor)),
  [Op.Ceil]: stepping("ceil", steady(Math.ceil)),
  [Op.Round]: stepping("round", roundHalfAway),
  [Op.Min]: pick(
    "min",
    (a, b) => Math.min(a, b),
    (aLow, aHigh, bLow, bHigh) => (aHigh < bLow ? true : bHigh < aLow ? false : undefined),
  ),
  [Op.Max]: pick(
    "max",
    (a, b) => Math.max(a, b),
    (aLow, aHigh, bLow, bHigh) => (aLow > bHigh ? true : bLow > aHigh ? false : undefined),
  ),
  [Op.Less]: comparison(
    "<",
    less,
    (_aLow, aHigh, bLow) => less(aHigh, bLow),
    (aLow, _aHigh, _bLow, bHigh) => less(aLow, bHigh),
  ),
  [Op.LessOrEqual]: comparison(
    "<=",
    lessOrEqual,
    (_aLow, aHigh, bLow) => lessOrEqual(aHigh, bLow),
    (aLow, _aHigh, _bLow, bHigh) => lessOrEqual(aLow, bHigh),
  ),
  [Op.Equal]: comparison(
    "=",
    (a, b) => Math.abs(a - b) <= slack(a, b),
    (aLow, aHigh, bLow, bHigh) => lessOrEqual(aHigh, bLow) && lessOrEqual(bHigh, aLow),
    (aLow, aHigh, bLow, bHigh) => lessOrEqual(aLow, bHigh) && lessOrEqual(bLow, aHigh),
  ),
  [Op.And]: connective("and", 2, (a, b) => a * b, false),
  [Op.Or]: connective("or", 2, (a, b) => Math.max(a, b), false),
  [Op.Not]: connective("not", 1, (a) => 1 - a, true),
  [Op.If]: {
    name: "if",
    kind: "switch",
    arity: 3,
    number: (condition, a, b) => (Number.isNaN(condition) ? NaN : condition === 1 ? a : b),
    range: (out, cLow, cHigh, aLow, aHigh, bLow, bHigh) => {
      if (cLow === 1) interval.set(out, aLow, aHigh);
      else if (cHigh === 0) interval.set(out, bLow, bHigh);
      else if (Number.isNaN(cLow)) interval.undefinedRange(out);
      else interval.set(out, Math.min(aLow, bLow), Math.max(aHigh, bHigh));
    },
    slopes: (out, cLow, cHigh) => {
      if (cLow === cHigh) noSlope(out, 0);
      else anySlope(out, 0);
      out[2] = cLow === 1 ? 1 : 0;
      out[3] = cHigh === 0 ? 0 : 1;
      out[4] = cHigh === 0 ? 1 : 0;
      out[5] = cLow === 1 ? 0 : 1;
    },
    trouble: "depends on a condition that has no value",
  },
} satisfies Partial<Record<Op, Operation>>;

/** A pick from two by size: between 0 and 1 of each, decided where the ranges do not overlap. */
function pick(
  name: string,
  f: (a: number, b: number) => number,
  aWins: (aLow: number, aHigh: number, bLow: number, bHigh: number) => boolean | undefined,
): Operation {
  return {
    name,
    kind: "smooth",
    arity: 2,
    number: f,
    range: (out, aLow, aHigh, bLow, bHigh) => interval.set(out, f(aLow, bLow), f(aHigh, bHigh)),
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      const a = aWins(aLow, aHigh, bLow, bHigh);
      slope(out, a === true ? 1 : 0, a === false ? 0 : 1);
      out[2] = a === false ? 1 : 0;
      out[3] = a === true ? 0 : 1;
    },
    trouble: TOO_LARGE,
  };
}

/**
 * A comparison: 1 if it holds, 0 if not, [0, 1] where the ranges leave it open.
 * `certain` answers for the pair of ends that makes it hardest, `possible` for the easiest.
 */
function comparison(
  name: string,
  holds: (a: number, b: number) => boolean,
  certain: (aLow: number, aHigh: number, bLow: number, bHigh: number) => boolean,
  possible: (aLow: number, aHigh: number, bLow: number, bHigh: number) => boolean,
): Operation {
  return {
    name,
    kind: "switch",
    arity: 2,
    number: (a, b) => (Number.isNaN(a) || Number.isNaN(b) ? NaN : holds(a, b) ? 1 : 0),
    range: (out, aLow, aHigh, bLow, bHigh) => {
      if (Number.isNaN(aLow) || Number.isNaN(bLow)) return interval.undefinedRange(out);
      interval.set(out, certain(aLow, aHigh, bLow, bHigh) ? 1 : 0, possible(aLow, aHigh, bLow, bHigh) ? 1 : 0);
    },
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      const decided = certain(aLow, aHigh, bLow, bHigh) || !possible(aLow, aHigh, bLow, bHigh);
      for (let operand = 0; operand < 2; operand++)
        if (decided) noSlope(out, operand);
        else anySlope(out, operand);
    },
    trouble: "cannot be compared",
  };
}

/** Truth values are 0 and 1, so that they are rising functions of their operands. */
function connective(name: string, arity: 1 | 2, f: (a: number, b: number) => number, falls: boolean): Operation {
  return {
    name,
    kind: "switch",
    arity,
    number: f,
    range: (out, aLow, aHigh, bLow, bHigh) =>
      falls ? interval.set(out, f(aHigh, bHigh), f(aLow, bLow)) : interval.set(out, f(aLow, bLow), f(aHigh, bHigh)),
    slopes: (out, aLow, aHigh, bLow, bHigh) => {
      const open = aLow !== aHigh || (arity === 2 && bLow !== bHigh);
      for (let operand = 0; operand < arity; operand++)
        if (open) anySlope(out, operand);
        else noSlope(out, operand);
    },
    trouble: "cannot be judged",
  };
}

function lessOrEqual(a: number, b: number): boolean {
  return a <= b + slack(a, b);
}

function less(a: number, b: number): boolean {
  return a < b - slack(a, b);
}

/** Round half away from zero, as on paper: 28.499999999999996, which was meant to be 28.5, is 29. */
function roundHalfAway(x: number): number {
  const size = Math.abs(x);
  return Math.sign(x) * Math.floor(size + 0.5 + EQUALITY * size);
}

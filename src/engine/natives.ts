import { Op } from "./operation";

/** What the units of a native function's arguments must be, and what its result has. */
export type NativeRule =
  /** A plain number in and out: sin, exp, ln. */
  | "ratio"
  /** In and out the same: abs. */
  | "same"
  /** The root of the unit: sqrt, cbrt. */
  | "root"
  /** Any unit in, a plain number out: sign. */
  | "sign"
  /** All of one unit, which the result has: min, max; temperatures on a scale too. */
  | "pick"
  /** All of one unit, which the result has: sum, mod, hypot. */
  | "sum"
  /** All of one unit, a plain number out: atan2. */
  | "angle"
  /** A plain number or a count, or any unit with a step in that unit: floor, ceil, round. */
  | "rounding"
  | "mean"
  | "size"
  | "rss"
  | "kelvin"
  | "point"
  /** A series in quotes and a quantity, the result of the same unit: nearest, below, above. */
  | "series"
  /** The same, for the two members that make a quantity together. */
  | "pair"
  /** One member of a list. */
  | "member"
  /** A value, keys of its unit or texts, and values, whose unit the result has. */
  | "lookup"
  | "interpolate"
  /** A list, and what its members are chosen or sorted by. */
  | "filter"
  | "sorted"
  /** A column of an assembly. */
  | "rollup"
  /** An expression of what a network comes to. */
  | "open"
  /** A number worked out once, of whatever unit: nominal, lowest, highest. */
  | "end"
  /** The sum over pieces. */
  | "total";

export interface Native {
  readonly signature: string;
  readonly does: string;
  readonly rule: NativeRule;
  readonly op?: Op;
  readonly least: number;
  readonly most: number;
}

/** More arguments than anyone writes; a function that takes any number has it as its limit. */
const ANY = 1000;

const one = (signature: string, does: string, rule: NativeRule, op: Op): Native => ({
  signature,
  does,
  rule,
  op,
  least: 1,
  most: 1,
});

const series = (signature: string, does: string, op: Op): Native => ({
  signature,
  does,
  rule: "series",
  op,
  least: 2,
  most: 2,
});

const pair = (signature: string, does: string): Native => ({
  signature,
  does,
  rule: "pair",
  least: 2,
  most: 2,
});

const end = (signature: string, does: string): Native => ({ signature, does, rule: "end", least: 1, most: 1 });

/** The functions that are built in. All else is written in the note language. */
export const NATIVES: ReadonlyMap<string, Native> = new Map<string, Native>([
  ["sqrt", { ...one("sqrt(x)", "the square root", "root", Op.SquareRoot) }],
  ["cbrt", one("cbrt(x)", "the cube root", "root", Op.CubeRoot)],
  ["abs", one("abs(x)", "the value without its sign", "same", Op.Abs)],
  ["sign", one("sign(x)", "−1, 0 or 1", "sign", Op.Sign)],
  ["exp", one("exp(x)", "e to the power x", "ratio", Op.Exp)],
  ["ln", one("ln(x)", "the natural logarithm", "ratio", Op.Ln)],
  ["log10", one("log10(x)", "the decimal logarithm", "ratio", Op.Log10)],
  ["log2", one("log2(x)", "the binary logarithm", "ratio", Op.Log2)],
  ["sin", one("sin(x)", "the sine of an angle", "ratio", Op.Sin)],
  ["cos", one("cos(x)", "the cosine of an angle", "ratio", Op.Cos)],
  ["tan", one("tan(x)", "the tangent of an angle", "ratio", Op.Tan)],
  ["asin", one("asin(x)", "the angle whose sine is x", "ratio", Op.Asin)],
  ["acos", one("acos(x)", "the angle whose cosine is x", "ratio", Op.Acos)],
  ["atan", one("atan(x)", "the angle whose tangent is x", "ratio", Op.Atan)],
  [
    "atan2",
    { signature: "atan2(y, x)", does: "the angle of the point (x, y)", rule: "angle", op: Op.Atan2, least: 2, most: 2 },
  ],
  ["sinh", one("sinh(x)", "the hyperbolic sine", "ratio", Op.Sinh)],
  ["cosh", one("cosh(x)", "the hyperbolic cosine", "ratio", Op.Cosh)],
  ["tanh", one("tanh(x)", "the hyperbolic tangent", "ratio", Op.Tanh)],
  [
    "floor",
    {
      signature: "floor(x, step)",
      does: "rounded down, to a whole number or to a step",
      rule: "rounding",
      op: Op.Floor,
      least: 1,
      most: 2,
    },
  ],
  [
    "ceil",
    {
      signature: "ceil(x, step)",
      does: "rounded up, to a whole number or to a step",
      rule: "rounding",
      op: Op.Ceil,
      least: 1,
      most: 2,
    },
  ],
  [
    "round",
    {
      signature: "round(x, step)",
      does: "rounded to the nearest whole number or step, halves away from zero",
      rule: "rounding",
      op: Op.Round,
      least: 1,
      most: 2,
    },
  ],
  ["min", { signature: "min(a, b, …)", does: "the least", rule: "pick", op: Op.Min, least: 1, most: ANY }],
  ["max", { signature: "max(a, b, …)", does: "the greatest", rule: "pick", op: Op.Max, least: 1, most: ANY }],
  ["sum", { signature: "sum(list)", does: "the sum", rule: "sum", op: Op.Add, least: 1, most: ANY }],
  ["mean", { signature: "mean(list)", does: "the arithmetic mean", rule: "mean", least: 1, most: ANY }],
  ["size", { signature: "size(list)", does: "how many there are", rule: "size", least: 1, most: 1 }],
  ["rss", { signature: "rss(a, b, …)", does: "the root of the sum of squares", rule: "rss", least: 1, most: ANY }],
  ["hypot", { signature: "hypot(a, b)", does: "the hypotenuse", rule: "sum", op: Op.Hypot, least: 2, most: 2 }],
  [
    "mod",
    {
      signature: "mod(a, b)",
      does: "the remainder of a / b, with the sign of b",
      rule: "sum",
      op: Op.Modulo,
      least: 2,
      most: 2,
    },
  ],
  ["nominal", end("nominal(x)", "the nominal value, as an exact number: what firmware assumes")],
  ["lowest", end("lowest(x)", "the lower end of the range, as an exact number: what a slot is cut to")],
  ["highest", end("highest(x)", "the upper end of the range, as an exact number")],
  [
    "total",
    {
      signature: "total(n, x)",
      does: "the sum over n pieces: the `each` inputs of x are drawn anew for every one, all others are shared. `n * x` is one piece counted n times",
      rule: "total",
      least: 2,
      most: 2,
    },
  ],
  [
    "kelvin",
    {
      signature: "kelvin(T)",
      does: "the thermodynamic temperature of a point on a scale",
      rule: "kelvin",
      least: 1,
      most: 1,
    },
  ],
  [
    "point",
    {
      signature: "point(x)",
      does: "the point on a scale of a thermodynamic temperature",
      rule: "point",
      least: 1,
      most: 1,
    },
  ],
  ["nearest", series("nearest(series, x)", "the member of a series of IEC 60063 that is nearest to x", Op.Nearest)],
  ["below", series("below(series, x)", "the greatest member of a series of IEC 60063 that is not above x", Op.Below)],
  ["above", series("above(series, x)", "the least member of a series of IEC 60063 that is not below x", Op.Above)],
  ["pair_ratio", pair("pair_ratio(series, x)", "two members of a series of IEC 60063, first / second nearest to x")],
  ["pair_sum", pair("pair_sum(series, x)", "two members of a series of IEC 60063 whose sum is nearest to x")],
  ["pair_parallel", pair("pair_parallel(series, x)", "two members of a series of IEC 60063, in parallel nearest to x")],
  ["first", { signature: "first(list)", does: "the first of a list", rule: "member", least: 1, most: 1 }],
  ["last", { signature: "last(list)", does: "the last of a list", rule: "member", least: 1, most: 1 }],
  [
    "filter",
    {
      signature: "filter(list, condition)",
      does: "the members for which the condition is true: `filter(parts.price, parts.qty > 100)`",
      rule: "filter",
      least: 2,
      most: 2,
    },
  ],
  [
    "sorted",
    {
      signature: "sorted(list, by)",
      does: "from the least up; or as another list of that length would be sorted, downwards by its negative",
      rule: "sorted",
      least: 1,
      most: 2,
    },
  ],
  [
    "rollup",
    {
      signature: "rollup(table.column)",
      does: "the sum over an assembly with the columns `part`, `of` and `qty`, each part as often as it occurs",
      rule: "rollup",
      least: 1,
      most: 1,
    },
  ],
  [
    "with_open",
    {
      signature: "with_open(x)",
      does: "x, of what a DC network comes to, with one of its resistances open after the other: a value for each, as in `min(with_open(bar.B8.supply))`; a load draws its current, or feeds it, as long as a source of voltage is in a loop with it",
      rule: "open",
      least: 1,
      most: 1,
    },
  ],
  [
    "lookup",
    {
      signature: 'lookup(x, keys, values, "step")',
      does: 'the value beside the last key that is not above x; beside the very key where x is a text, or with `"exact"`',
      rule: "lookup",
      least: 3,
      most: 4,
    },
  ],
  [
    "interpolate",
    {
      signature: 'interpolate(x, xs, ys, "linear")',
      does: 'the value at x on straight lines through the points; with `"smooth"` on a cubic that rises and falls with the points only',
      rule: "interpolate",
      least: 3,
      most: 4,
    },
  ],
]);

/** Constants that are built in. */
export const CONSTANTS: ReadonlyMap<string, number> = new Map([["π", Math.PI]]);

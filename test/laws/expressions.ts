import fc from "fast-check";

/** A generated expression on plain numbers: as a note writes it, and its value by JavaScript alone. */
export interface Expression {
  readonly text: string;
  readonly value: (at: Point) => number;
}

/** The inputs by name. */
export type Point = Readonly<Record<string, number>>;

export interface Limits {
  readonly low: number;
  readonly high: number;
}
export type InputBox = Readonly<Record<string, Limits>>;

export const NAMES = ["x", "y", "z"] as const;

/** Limits of the three inputs; some have no width, some hold zero. */
export const inputBox: fc.Arbitrary<InputBox> = fc.record({ x: limits(-3), y: limits(-3), z: limits(-3) });
/** Limits above zero. */
export const positiveBox: fc.Arbitrary<InputBox> = fc.record({ x: limits(1), y: limits(1), z: limits(1) });

function limits(least: number): fc.Arbitrary<Limits> {
  return fc
    .tuple(fc.integer({ min: least * 4, max: 12 }), fc.constantFrom(0, 0.1, 0.25, 1, 2.5))
    .map(([quarters, width]) => ({ low: quarters / 4, high: quarters / 4 + width }));
}

/** The inputs as statements of a note. */
export function inputLines(box: InputBox): string[] {
  return Object.entries(box).map(([name, { low, high }]) =>
    low === high ? `${name} = ${low} ± 0` : `${name} = ${low} .. ${high}`,
  );
}

const input: fc.Arbitrary<Expression> = fc
  .constantFrom(...NAMES)
  .map((name) => ({ text: name, value: (at) => at[name] }));
const constant: fc.Arbitrary<Expression> = fc
  .constantFrom(0.3, 0.5, 1, 2, 3.3, 10)
  .map((value) => ({ text: `${value}`, value: () => value }));

type Binary = readonly [(a: string, b: string) => string, (a: number, b: number) => number];
type Unary = readonly [(a: string) => string, (a: number) => number];

const BINARIES: readonly Binary[] = [
  [(a, b) => `(${a} + ${b})`, (a, b) => a + b],
  [(a, b) => `(${a} - ${b})`, (a, b) => a - b],
  [(a, b) => `(${a} * ${b})`, (a, b) => a * b],
  [(a, b) => `(${a} / ${b})`, (a, b) => (b === 0 ? NaN : a / b)],
  [(a, b) => `(${a} / (2 + abs(${b})))`, (a, b) => a / (2 + Math.abs(b))],
  [(a, b) => `min(${a}, ${b})`, Math.min],
  [(a, b) => `max(${a}, ${b})`, Math.max],
  [(a, b) => `hypot(${a}, ${b})`, Math.hypot],
  [(a, b) => `floor(${a}, 0.5 + abs(${b}))`, (a, b) => floor(a / (0.5 + Math.abs(b))) * (0.5 + Math.abs(b))],
];

/** Points to look up in; between the last two keys the values fall. */
const KEYS = [-2, 0.5, 1, 2.25, 40];
const VALUES = [-1, 0, 3, 3.5, 2];
/** Above zero, so that products of them rise, too. */
const POSITIVE = [0.2, 0.5, 1.1, 2.25, 40];

/** The value beside the last key that is not above x. */
function byStep(x: number, values: readonly number[]): number {
  return values[KEYS.findLastIndex((key) => !isLess(x, key))] ?? NaN;
}

/** On straight lines through the points. */
function onLines(x: number, values: readonly number[]): number {
  const i = Math.min(
    KEYS.findLastIndex((key) => !isLess(x, key)),
    KEYS.length - 2,
  );
  if (!(i >= 0) || isLess(KEYS[KEYS.length - 1], x)) return NaN;
  return values[i] + ((x - KEYS[i]) * (values[i + 1] - values[i])) / (KEYS[i + 1] - KEYS[i]);
}

const E6 = [1, 1.5, 2.2, 3.3, 4.7, 6.8];

/** The nearest member of E6, the smaller of two that are as near. */
function nearestOfE6(x: number): number {
  if (!(x > 0)) return NaN;
  const decade = 10 ** (Math.floor(Math.log10(x)) - 1);
  const members = [1, 10, 100].flatMap((ten) => E6.map((member) => member * ten * decade));
  return members.reduce((best, member) => (Math.abs(member - x) < Math.abs(best - x) - 1e-12 * x ? member : best));
}

const listed = (numbers: readonly number[]) => `[${numbers.join(", ")}]`;

const UNARIES: readonly Unary[] = [
  [(a) => `(${a})^2`, (a) => a ** 2],
  [(a) => `abs(${a})`, Math.abs],
  [(a) => `sqrt(${a})`, Math.sqrt],
  [(a) => `sqrt(abs(${a}))`, (a) => Math.sqrt(Math.abs(a))],
  [(a) => `sin(${a})`, Math.sin],
  [(a) => `atan(${a})`, Math.atan],
  [(a) => `exp(-abs(${a}))`, (a) => Math.exp(-Math.abs(a))],
  [(a) => `floor(${a})`, floor],
  [(a) => `ceil(${a})`, (a) => -floor(-a)],
  [(a) => `lookup(${a}, ${listed(KEYS)}, ${listed(VALUES)})`, (a) => byStep(a, VALUES)],
  [(a) => `interpolate(${a}, ${listed(KEYS)}, ${listed(VALUES)})`, (a) => onLines(a, VALUES)],
  [(a) => `nearest("E6", 0.25 + abs(${a}))`, (a) => nearestOfE6(0.25 + Math.abs(a))],
  // As a pick from a series does: rising steps that are not even.
  [
    (a) => `(if ${a} < 1 then 1 else if ${a} < 2.2 then 2.2 else 4.7)`,
    (a) => (isLess(a, 1) ? 1 : isLess(a, 2.2) ? 2.2 : 4.7),
  ],
];

/** Rounded down as a note does it: a whole number that decimal fractions miss by a hair is that number. */
function floor(x: number): number {
  const whole = Math.round(x);
  return Math.abs(x - whole) <= 1e-12 * Math.abs(x) ? whole : Math.floor(x);
}

export const expression: fc.Arbitrary<Expression> = fc.letrec<{ expression: Expression }>((tie) => ({
  expression: fc.oneof(
    { maxDepth: 4, depthIdentifier: "expression" },
    { weight: 2, arbitrary: input },
    { weight: 1, arbitrary: constant },
    {
      weight: 5,
      arbitrary: fc
        .tuple(fc.constantFrom(...BINARIES), tie("expression"), tie("expression"))
        .map(([binary, a, b]) => apply(binary, a, b)),
    },
    {
      weight: 3,
      arbitrary: fc
        .tuple(fc.constantFrom(...UNARIES), tie("expression"))
        .map(([[text, f], a]) => ({ text: text(a.text), value: (at: Point) => f(a.value(at)) })),
    },
    {
      weight: 1,
      arbitrary: fc
        .tuple(tie("expression"), tie("expression"), tie("expression"), tie("expression"))
        .map(([a, b, c, d]) => ({
          text: `(if ${a.text} < ${b.text} then ${c.text} else ${d.text})`,
          value: (at: Point) => choose(a.value(at), b.value(at), c.value(at), d.value(at)),
        })),
    },
  ),
})).expression;

function apply([text, f]: Binary, a: Expression, b: Expression): Expression {
  return { text: text(a.text, b.text), value: (at) => f(a.value(at), b.value(at)) };
}

function choose(a: number, b: number, c: number, d: number): number {
  if (Number.isNaN(a) || Number.isNaN(b)) return NaN;
  return isLess(a, b) ? c : d;
}

/** What differs by a hair counts as equal. */
function isLess(a: number, b: number): boolean {
  return a < b - 1e-12 * Math.max(Math.abs(a), Math.abs(b));
}

/** Smooth expressions whose values are positive where the inputs are. */
export const positive: fc.Arbitrary<Expression> = fc.letrec<{ positive: Expression }>((tie) => ({
  positive: fc.oneof(
    { maxDepth: 1 },
    { weight: 2, arbitrary: input },
    { weight: 1, arbitrary: constant },
    {
      weight: 2,
      arbitrary: fc
        .tuple(fc.constantFrom(BINARIES[0], BINARIES[2], BINARIES[3]), tie("positive"), tie("positive"))
        .map(([binary, a, b]) => apply(binary, a, b)),
    },
  ),
})).positive;

/** Positive expressions that rise with x and y and fall with z, each written any number of times. */
export const monotone: fc.Arbitrary<Expression> = fc.letrec<{ rising: Expression; falling: Expression }>((tie) => ({
  rising: monotoneOf("x", "y", tie("rising"), tie("falling")),
  falling: monotoneOf("z", "z", tie("falling"), tie("rising")),
})).rising;

function monotoneOf(
  one: string,
  other: string,
  same: fc.Arbitrary<Expression>,
  opposite: fc.Arbitrary<Expression>,
): fc.Arbitrary<Expression> {
  const RISING: readonly Unary[] = [
    [(a) => `sqrt(${a})`, Math.sqrt],
    [(a) => `ln(1 + ${a})`, (a) => Math.log(1 + a)],
    [(a) => `(${a})^2`, (a) => a ** 2],
    [(a) => `(1 + floor(${a}))`, (a) => 1 + floor(a)],
    [(a) => `lookup(${a}, ${listed(KEYS)}, ${listed(POSITIVE)})`, (a) => byStep(a, POSITIVE)],
    [
      (a) => `interpolate(min(${a}, 40), ${listed(KEYS)}, ${listed(POSITIVE)})`,
      (a) => onLines(Math.min(a, 40), POSITIVE),
    ],
    [(a) => `nearest("E6", 0.25 + ${a})`, (a) => nearestOfE6(0.25 + a)],
  ];
  return fc.oneof(
    { maxDepth: 4, depthIdentifier: "monotone" },
    {
      weight: 3,
      arbitrary: fc.constantFrom(one, other).map((name) => ({ text: name, value: (at: Point) => at[name] })),
    },
    { weight: 1, arbitrary: constant },
    {
      weight: 4,
      arbitrary: fc
        .tuple(fc.constantFrom(BINARIES[0], BINARIES[2], BINARIES[5], BINARIES[6]), same, same)
        .map(([binary, a, b]) => apply(binary, a, b)),
    },
    { weight: 2, arbitrary: fc.tuple(same, opposite).map(([a, b]) => apply(BINARIES[3], a, b)) },
    {
      weight: 2,
      arbitrary: fc
        .tuple(fc.constantFrom(...RISING), same)
        .map(([[text, f], a]) => ({ text: text(a.text), value: (at: Point) => f(a.value(at)) })),
    },
  );
}

/** Pairs of ways to write the same. */
export const REWRITINGS: readonly ((a: string, b: string, c: string) => readonly [string, string])[] = [
  (a, b, c) => [`${a} * (${b} + ${c})`, `${a} * ${b} + ${a} * ${c}`],
  (a, b) => [`(${a} - ${b}) * (${a} + ${b})`, `(${a})^2 - (${b})^2`],
  (a, b) => [`${a} / (${a} + ${b})`, `1 / (1 + ${b} / ${a})`],
  (a, b) => [`${a} || ${b}`, `${a} * ${b} / (${a} + ${b})`],
  (a, b) => [`(${a} - ${b})^2`, `(${a})^2 - 2 * ${a} * ${b} + (${b})^2`],
  (a, b) => [`exp(-${a} - ${b})`, `exp(-${a}) * exp(-${b})`],
  (a, b) => [`${a} - ${b}`, `-(${b} - ${a})`],
  (a, b) => [`if ${a} < ${b} then ${a} else ${b}`, `min(${a}, ${b})`],
  (a, b) => [`max(${a}, ${b})`, `(${a} + ${b} + abs(${a} - ${b})) / 2`],
  (a, b) => [`sqrt((${a})^2 + (${b})^2)`, `hypot(${a}, ${b})`],
  (a, b, c) => [`(${a} + ${b}) / ${c}`, `${a} / ${c} + ${b} / ${c}`],
];

/** Pairs of ways to write the same of any two expressions, with jumps, switches and places without a value. */
export const REWRITINGS_OF_ALL: readonly ((a: string, b: string) => readonly [string, string])[] = [
  (a, b) => [`${a} - ${b}`, `-(${b} - ${a})`],
  (a, b) => [`max(${a}, ${b})`, `-min(-${a}, -${b})`],
  (a, b) => [`(${a} + ${b}) / 2`, `${a} / 2 + ${b} / 2`],
  (a, b) => [`if ${a} < ${b} then ${b} else ${a}`, `if ${b} > ${a} then ${b} else ${a}`],
  (a) => [`abs(${a})`, `max(${a}, -${a})`],
  (a) => [`ceil(${a})`, `-floor(-${a})`],
  (a) => [`${a} * abs(${a})`, `if ${a} < 0 then -(${a})^2 else (${a})^2`],
];

import fc from "fast-check";

/** A formula of plain numbers: written as a note has it, and evaluated by nothing of the engine's. */
export interface Formula {
  readonly text: string;
  readonly at: (point: Point) => Estimate;
}

/** A value, NaN where there is none, and a bound of its rounding error: infinite where a jump or an end is too near to tell. */
export interface Estimate {
  readonly value: number;
  readonly error: number;
}

/** A value for every name. */
export type Point = ReadonlyMap<string, Estimate>;

/** A few roundings, and the widening of ends that keeps ranges safe. */
const ROUNDING = 4e-15;
/** Below this, doubles lose their digits one by one: a product is off by steps of the least of them. */
const LEAST_NORMAL = 2 ** -1022;
const STEPS = 4 * Number.MIN_VALUE;

const near = (a: number, b: number) => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

/** Whole numbers that float noise hides are seen, as on paper. */
const floorOnPaper = (x: number) => (near(x, Math.round(x)) ? Math.round(x) : Math.floor(x));
const less = (a: number, b: number) => a < b && !near(a, b);

type Two = (a: number, b: number) => number;
type OfEstimates = (a: Estimate, b: Estimate) => Estimate;

/** A function of numbers, by which estimates are carried. */
const by =
  (f: Two): OfEstimates =>
  (a, b) =>
    estimate(f, a, b);

const TWO: readonly (readonly [write: (a: string, b: string) => string, f: OfEstimates])[] = [
  [(a, b) => `(${a} + ${b})`, sum],
  [(a, b) => `(${a} - ${b})`, (a, b) => sum(a, { ...b, value: -b.value })],
  [(a, b) => `(${a} * ${b})`, by((a, b) => a * b)],
  [(a, b) => `(${a} / ${b})`, by((a, b) => a / b)],
  [(a, b) => `(${a} || ${b})`, parallel],
  [(a, b) => `min(${a}, ${b})`, by((a, b) => Math.min(a, b))],
  [(a, b) => `max(${a}, ${b})`, by((a, b) => Math.max(a, b))],
  [(a, b) => `hypot(${a}, ${b})`, by((a, b) => Math.sqrt(a * a + b * b))],
];

const ONE: readonly (readonly [write: (a: string) => string, f: (a: number) => number])[] = [
  [(a) => `(-(${a}))`, (a) => -a],
  [(a) => `(${a})^2`, (a) => a * a],
  [(a) => `(${a})^3`, (a) => a * a * a],
  [(a) => `(${a})^-1`, (a) => 1 / a],
  [(a) => `(${a})^-2`, (a) => 1 / (a * a)],
  [(a) => `(${a})^1.5`, (a) => Math.sqrt(a) ** 3],
  [(a) => `sqrt(${a})`, (a) => Math.sqrt(a)],
  [(a) => `cbrt(${a})`, (a) => Math.cbrt(a)],
  [(a) => `abs(${a})`, (a) => Math.abs(a)],
  [(a) => `floor(${a})`, floorOnPaper],
  [(a) => `ceil(${a})`, (a) => -floorOnPaper(-a)],
  [(a) => `sin(${a})`, (a) => Math.sin(a)],
  [(a) => `atan(${a})`, (a) => Math.atan(a)],
  [(a) => `exp((${a}) / 20)`, (a) => Math.exp(a / 20)],
  [(a) => `ln(${a})`, (a) => Math.log(a)],
];

/** Formulas over these names. */
export function formula(names: readonly string[]): fc.Arbitrary<Formula> {
  const leaf: fc.Arbitrary<Formula> = fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...names).map(variable) },
    { weight: 1, arbitrary: fc.constantFrom("1", "2", "0.5", "3", "10", "0.1").map(constant) },
  );
  const { tree } = fc.letrec<{ tree: Formula }>((tie) => ({
    tree: fc.oneof(
      { depthSize: "small", withCrossShrink: true },
      leaf,
      { weight: 4, arbitrary: fc.tuple(fc.nat(TWO.length - 1), tie("tree"), tie("tree")).map(ofTwo) },
      { weight: 2, arbitrary: fc.tuple(fc.nat(ONE.length - 1), tie("tree")).map(ofOne) },
      { weight: 1, arbitrary: fc.tuple(tie("tree"), tie("tree"), tie("tree"), tie("tree")).map(conditional) },
    ),
  }));
  return tree;
}

function variable(name: string): Formula {
  return { text: name, at: (point) => point.get(name)! };
}

function constant(text: string): Formula {
  return { text, at: () => ({ value: Number(text), error: 0 }) };
}

function ofTwo([which, a, b]: [number, Formula, Formula]): Formula {
  const [write, f] = TWO[which];
  return { text: write(a.text, b.text), at: (point) => f(a.at(point), b.at(point)) };
}

function ofOne([which, a]: [number, Formula]): Formula {
  const [write, f] = ONE[which];
  return { text: write(a.text), at: (point) => estimate(f, a.at(point), EXACT) };
}

const EXACT: Estimate = { value: 0, error: 0 };

/** What decimal fractions should have made zero may be taken for zero, or for the noise that it is. */
function sum(a: Estimate, b: Estimate): Estimate {
  const { value, error } = estimate((x, y) => x + y, a, b);
  return near(a.value, -b.value) ? { value, error: error + Math.abs(value) } : { value, error };
}

/** 1 / (1/a + 1/b), with the rounding of each step; nothing where one of them is. */
function parallel(a: Estimate, b: Estimate): Estimate {
  // The inverse of a number below 5.6e-309 is infinite; in parallel with it, nothing is left.
  const isNothing = (x: number) => !Number.isFinite(1 / x);
  if (isNothing(a.value) || isNothing(b.value))
    return estimate((x, y) => (Number.isNaN(x + y) || (x + y === 0 && x !== y) ? NaN : isNothing(x) ? x : y), a, b);
  const inverse = (x: Estimate) => estimate((y) => 1 / y, x, EXACT);
  return inverse(estimate((x, y) => x + y, inverse(a), inverse(b)));
}

/** Errors are carried through a function by evaluating it at their ends. */
function estimate(f: Two, a: Estimate, b: Estimate): Estimate {
  const value = f(a.value, b.value);
  if (!Number.isFinite(value)) return { value: NaN, error: a.error + b.error > 0 ? Infinity : 0 };
  const ends = [-1, 1].flatMap((x) => [-1, 1].map((y) => f(a.value + x * a.error, b.value + y * b.error)));
  const most = Math.max(...ends.map((end) => Math.abs(end - value)));
  const isTiny = Math.abs(value) < LEAST_NORMAL && a.value !== 0 && b.value !== 0;
  const rounding = ROUNDING * Math.abs(value) + (isTiny ? STEPS : 0);
  return { value, error: Number.isFinite(most) ? most + rounding : Infinity };
}

function conditional([left, right, yes, no]: [Formula, Formula, Formula, Formula]): Formula {
  return {
    text: `(if ${left.text} < ${right.text} then ${yes.text} else ${no.text})`,
    at: (point) => {
      const [a, b] = [left.at(point), right.at(point)];
      if (Number.isNaN(a.value) || Number.isNaN(b.value)) return { value: NaN, error: a.error + b.error };
      const chosen = (less(a.value, b.value) ? yes : no).at(point);
      // At the edge of what counts as equal a last digit decides; well inside and well outside, none does.
      const apart = Math.abs(a.value - b.value);
      const doubt = 2 * (a.error + b.error);
      const edge = 1e-12 * Math.max(Math.abs(a.value), Math.abs(b.value));
      const isClear = apart - doubt > 1.5 * edge || apart + doubt <= edge / 2;
      return isClear ? chosen : { value: chosen.value, error: Infinity };
    },
  };
}

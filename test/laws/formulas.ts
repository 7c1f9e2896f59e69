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

const near = (a: number, b: number) => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

/** Whole numbers that float noise hides are seen, as on paper. */
const floorOnPaper = (x: number) => (near(x, Math.round(x)) ? Math.round(x) : Math.floor(x));
const less = (a: number, b: number) => a < b && !near(a, b);

type Two = (a: number, b: number) => number;

const TWO: readonly (readonly [write: (a: string, b: string) => string, f: Two])[] = [
  [(a, b) => `(${a} + ${b})`, (a, b) => a + b],
  [(a, b) => `(${a} - ${b})`, (a, b) => a - b],
  [(a, b) => `(${a} * ${b})`, (a, b) => a * b],
  [(a, b) => `(${a} / ${b})`, (a, b) => a / b],
  [
    (a, b) => `(${a} || ${b})`,
    (a, b) => (a === 0 || b === 0 ? (a + b === 0 && a !== b ? NaN : 0) : 1 / (1 / a + 1 / b)),
  ],
  [(a, b) => `min(${a}, ${b})`, (a, b) => Math.min(a, b)],
  [(a, b) => `max(${a}, ${b})`, (a, b) => Math.max(a, b)],
  [(a, b) => `hypot(${a}, ${b})`, (a, b) => Math.sqrt(a * a + b * b)],
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
  return { text: write(a.text, b.text), at: (point) => estimate(f, a.at(point), b.at(point)) };
}

function ofOne([which, a]: [number, Formula]): Formula {
  const [write, f] = ONE[which];
  return { text: write(a.text), at: (point) => estimate(f, a.at(point), EXACT) };
}

const EXACT: Estimate = { value: 0, error: 0 };

/** Errors are carried through a function by evaluating it at their ends. */
function estimate(f: Two, a: Estimate, b: Estimate): Estimate {
  const value = f(a.value, b.value);
  if (!Number.isFinite(value)) return { value: NaN, error: a.error + b.error > 0 ? Infinity : 0 };
  const ends = [-1, 1].flatMap((x) => [-1, 1].map((y) => f(a.value + x * a.error, b.value + y * b.error)));
  const most = Math.max(...ends.map((end) => Math.abs(end - value)));
  return { value, error: Number.isFinite(most) ? most + ROUNDING * Math.abs(value) : Infinity };
}

function conditional([left, right, yes, no]: [Formula, Formula, Formula, Formula]): Formula {
  return {
    text: `(if ${left.text} < ${right.text} then ${yes.text} else ${no.text})`,
    at: (point) => {
      const [a, b] = [left.at(point), right.at(point)];
      if (Number.isNaN(a.value) || Number.isNaN(b.value)) return { value: NaN, error: a.error + b.error };
      const chosen = (less(a.value, b.value) ? yes : no).at(point);
      const isClear =
        a.error + b.error === 0 || Math.abs(a.value - b.value) > 2 * (a.error + b.error) + 1e-11 * Math.abs(a.value);
      return isClear ? chosen : { value: chosen.value, error: Infinity };
    },
  };
}

import fc from "fast-check";

/** A formula of plain numbers: written as a note has it, and evaluated by nothing of the engine's. */
export interface Formula {
  readonly text: string;
  /** Its value; NaN where it has none. Every intermediate is shown to `see`. */
  readonly at: (point: Point, see: (x: number) => void) => number;
}

/** A value for every name. */
export type Point = ReadonlyMap<string, number>;

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
  return { text, at: () => Number(text) };
}

function ofTwo([which, a, b]: [number, Formula, Formula]): Formula {
  const [write, f] = TWO[which];
  return { text: write(a.text, b.text), at: (point, see) => seen(f(a.at(point, see), b.at(point, see)), see) };
}

function ofOne([which, a]: [number, Formula]): Formula {
  const [write, f] = ONE[which];
  return { text: write(a.text), at: (point, see) => seen(f(a.at(point, see)), see) };
}

function conditional([left, right, yes, no]: [Formula, Formula, Formula, Formula]): Formula {
  return {
    text: `(if ${left.text} < ${right.text} then ${yes.text} else ${no.text})`,
    at: (point, see) => {
      const [a, b] = [left.at(point, see), right.at(point, see)];
      if (Number.isNaN(a) || Number.isNaN(b)) return NaN;
      return (less(a, b) ? yes : no).at(point, see);
    },
  };
}

function seen(x: number, see: (x: number) => void): number {
  if (!Number.isFinite(x)) return NaN;
  see(x);
  return x;
}

import assert from "node:assert/strict";
import fc from "fast-check";
import { all, create, type MathJsInstance, type Unit } from "mathjs";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import type { QuantityOutcome, TruthOutcome } from "../../src/engine/outcome";
import { howMany } from "../howMany";

/** An expression on quantities: as a note has it, as mathjs has it, and how large the rounding in it may be. */
interface Expression {
  readonly ours: string;
  readonly theirs: string;
  /** The value in coherent SI and a bound of its error, by running error analysis; dimensions play no part. */
  readonly estimate: Estimate;
}

interface Estimate {
  readonly value: number;
  readonly error: number;
}

/** A few roundings of a double: of the literal, of the unit's factor, of the operation. */
const EPSILON = 2e-15;

/** Units by quantity, so that sums often make sense: our spelling, theirs, and the SI value of one. */
const FAMILIES: readonly (readonly (readonly [ours: string, theirs: string, si: number])[])[] = [
  [
    ["V", "V", 1],
    ["mV", "mV", 1e-3],
    ["kV", "kV", 1e3],
    ["µV", "uV", 1e-6],
  ],
  [
    ["A", "A", 1],
    ["mA", "mA", 1e-3],
    ["µA", "uA", 1e-6],
    ["nA", "nA", 1e-9],
  ],
  [
    ["Ω", "ohm", 1],
    ["kΩ", "kohm", 1e3],
    ["MΩ", "Mohm", 1e6],
    ["mΩ", "mohm", 1e-3],
  ],
  [
    ["m", "m", 1],
    ["mm", "mm", 1e-3],
    ["in", "inch", 0.0254],
    ["mil", "mil", 2.54e-5],
    ["ft", "ft", 0.3048],
  ],
  [
    ["s", "s", 1],
    ["ms", "ms", 1e-3],
    ["min", "minute", 60],
    ["h", "hour", 3600],
  ],
  [
    ["W", "W", 1],
    ["mW", "mW", 1e-3],
    ["kg·m^2/s^3", "kg m^2 s^-3", 1],
  ],
  [
    ["K", "K", 1],
    ["mK", "mK", 1e-3],
  ],
  [
    ["F", "F", 1],
    ["nF", "nF", 1e-9],
    ["pF", "pF", 1e-12],
  ],
  [
    ["kg", "kg", 1],
    ["g", "g", 1e-3],
    ["lb", "lb", 0.45359237],
  ],
];

const digits = fc
  .tuple(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 0, max: 3 }))
  .map(([n, shift]) => n / 10 ** shift);

const rounded = (value: number, error = 0): Estimate => ({ value, error: error + EPSILON * Math.abs(value) });

const number: fc.Arbitrary<Expression> = digits.map((x) => ({ ours: `${x}`, theirs: `${x}`, estimate: rounded(x) }));

const literal: fc.Arbitrary<Expression> = fc
  .tuple(digits, fc.constantFrom(...FAMILIES.flat()))
  .map(([x, [ours, theirs, si]]) => ({ ours: `${x} ${ours}`, theirs: `(${x} ${theirs})`, estimate: rounded(x * si) }));

/** mathjs takes no difference of temperatures on a scale; in kelvins, by hand, it does. */
const temperatureStep: fc.Arbitrary<Expression> = fc
  .tuple(fc.integer({ min: -40, max: 150 }), fc.integer({ min: -40, max: 150 }))
  .map(([a, b]) => ({
    ours: `(${a} °C - ${b} °C)`,
    theirs: `(${a} K - (${b} K))`,
    estimate: { value: a - b, error: EPSILON * 500 },
  }));

type Combine = (a: Expression, b: Expression) => Expression;

const binary: readonly Combine[] = [
  (a, b) =>
    both(a, b, "*", "*", ({ value: x, error: dx }, { value: y, error: dy }) =>
      rounded(x * y, Math.abs(x) * dy + Math.abs(y) * dx + dx * dy),
    ),
  (a, b) =>
    both(a, b, "/", "/", ({ value: x, error: dx }, { value: y, error: dy }) =>
      rounded(x / y, (dx + Math.abs(x / y) * dy) / Math.max(Math.abs(y) - dy, 0)),
    ),
  (a, b) => both(a, b, "+", "+", ({ value: x, error: dx }, { value: y, error: dy }) => rounded(x + y, dx + dy)),
  (a, b) => both(a, b, "-", "-", ({ value: x, error: dx }, { value: y, error: dy }) => rounded(x - y, dx + dy)),
  // What fits: the same again in another size.
  (a, b) => binary[2](a, binary[0](scaled(b), a)),
  (a, b) => binary[3](binary[0](scaled(b), a), a),
  (a, b) => picked("min", a, binary[0](scaled(b), a)),
  (a, b) => picked("max", a, binary[0](scaled(b), a)),
];

const unary: readonly ((a: Expression) => Expression)[] = [
  (a) => ({ ours: `(-${a.ours})`, theirs: `(-${a.theirs})`, estimate: { ...a.estimate, value: -a.estimate.value } }),
  (a) => ({
    ours: `(${a.ours})^2`,
    theirs: `((${a.theirs})^2)`,
    estimate: rounded(a.estimate.value ** 2, 2 * Math.abs(a.estimate.value) * a.estimate.error + a.estimate.error ** 2),
  }),
  (a) => ({
    ours: `abs(${a.ours})`,
    theirs: `abs(${a.theirs})`,
    estimate: { ...a.estimate, value: Math.abs(a.estimate.value) },
  }),
  // A root of what is surely positive; mathjs would go on with complex numbers.
  (a) => rootOf(unary[2](a)),
];

const { tree } = fc.letrec<{ tree: Expression }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 3, depthIdentifier: "expression" },
    fc.oneof({ weight: 6, arbitrary: literal }, { weight: 2, arbitrary: number }, temperatureStep),
    {
      weight: 4,
      arbitrary: fc.tuple(fc.constantFrom(...binary), tie("tree"), tie("tree")).map(([f, a, b]) => f(a, b)),
    },
    { weight: 1, arbitrary: fc.tuple(fc.constantFrom(...unary), tie("tree")).map(([f, a]) => f(a)) },
  ),
}));

describe("our arithmetic and whole mathjs's own", () => {
  let math: MathJsInstance;
  // Its absolute tolerance would call all small charges equal.
  before(() => (math = create(all, { relTol: 1e-12, absTol: 0 })));

  it("agree on every expression: its value and dimension, or that it has none", () => {
    const seen = { agreed: 0, refused: 0 };
    fc.assert(
      fc.property(tree, ({ ours, theirs, estimate }) => {
        if (!isModerate(estimate)) return;
        const outcome = settled(`y = ${ours}`) as QuantityOutcome;
        // Our exponents are sixths; a root of a root may have others, and is refused.
        if (outcome.problems.some((problem) => problem.code === "unit.exponent")) return;
        const expected = evaluated(math, theirs);
        if (expected === undefined) {
          seen.refused++;
          const codes = outcome.problems.map(({ code }) => code);
          return assert.ok(
            codes.some((code) => code.startsWith("unit.")),
            `${ours}: ${outcome.problems.length} problems`,
          );
        }
        seen.agreed++;
        assert.deepEqual(outcome.problems, [], ours);
        const [{ nominal }] = outcome.values;
        const exponents = [...outcome.dimension.exponents].map((n) => Math.round(n * 6));
        assert.deepEqual(exponents, expected.exponents, `${ours}: dimension`);
        const tolerance = estimate.error * 2;
        const isSame = Math.abs(nominal - expected.value) <= tolerance;
        assert.ok(isSame, `${ours}: ${nominal} and ${expected.value}, within ${tolerance}`);
      }),
      { numRuns: howMany(10000) },
    );
    assert.ok(seen.agreed > seen.refused && seen.refused > 0, JSON.stringify(seen));
  });

  it("agree on comparisons", () => {
    const signs = fc.constantFrom("<", "<=", ">", ">=");
    fc.assert(
      fc.property(tree, tree, fc.boolean(), signs, (left, other, fits, sign) => {
        const right = fits ? binary[0](scaled(other), left) : other;
        const [a, b] = [left.estimate, right.estimate];
        if (!isModerate(a) || !isModerate(b)) return;
        if (Math.abs(a.value - b.value) <= 2 * (a.error + b.error) + 1e-11 * Math.abs(a.value)) return;
        const outcome = settled(`y = ${left.ours} ${sign} ${right.ours}`) as TruthOutcome;
        if (outcome.problems.some((problem) => problem.code === "unit.exponent")) return;
        let expected: unknown;
        try {
          expected = math.evaluate(`${left.theirs} ${sign} ${right.theirs}`);
        } catch {
          return assert.notEqual(outcome.problems.length, 0, `${left.ours} ${sign} ${right.ours}`);
        }
        assert.deepEqual(outcome.problems, [], `${left.ours} ${sign} ${right.ours}`);
        assert.deepEqual(outcome.values, [expected], `${left.ours} ${sign} ${right.ours}`);
      }),
      { numRuns: howMany(4000) },
    );
  });
});

function both(
  a: Expression,
  b: Expression,
  ours: string,
  theirs: string,
  f: (a: Estimate, b: Estimate) => Estimate,
): Expression {
  return {
    ours: `(${a.ours} ${ours} ${b.ours})`,
    theirs: `(${a.theirs} ${theirs} ${b.theirs})`,
    estimate: f(a.estimate, b.estimate),
  };
}

/** A plain number out of an expression, to make something of the same dimension with. */
function scaled({ estimate }: Expression): Expression {
  const x = Number((Math.abs(estimate.value) % 7).toFixed(2)) + 0.25;
  return { ours: `${x}`, theirs: `${x}`, estimate: rounded(x) };
}

function picked(name: "min" | "max", a: Expression, b: Expression): Expression {
  const value = Math[name](a.estimate.value, b.estimate.value);
  return {
    ours: `${name}(${a.ours}, ${b.ours})`,
    theirs: `${name}(${a.theirs}, ${b.theirs})`,
    estimate: { value, error: Math.max(a.estimate.error, b.estimate.error) },
  };
}

function rootOf(a: Expression): Expression {
  const value = Math.sqrt(a.estimate.value);
  return { ours: `sqrt(${a.ours})`, theirs: `sqrt(${a.theirs})`, estimate: rounded(value, a.estimate.error / value) };
}

/** A difference that rounding has eaten, or a number beyond the doubles, tells nothing. */
function isModerate({ value, error }: Estimate): boolean {
  return Number.isFinite(value) && error < 1e-6 * Math.abs(value) && Math.abs(value) > 1e-200;
}

function settled(statement: string) {
  const program = new Program(WHOLE_PARTS);
  program.setText("note.calcs.md", `    ${statement}\n`);
  program.settle();
  return program.snapshot("note.calcs.md")!.rows[0].outcome;
}

/** mathjs's base dimensions in the order of ours: kg, m, s, A, K, cd, mol, bit. */
const BASES = ["kg", "m", "s", "A", "K", "cd", "mol", "bit"];

/** The value in coherent SI and the exponents in sixths; undefined where mathjs refuses. */
function evaluated(math: MathJsInstance, text: string): { value: number; exponents: number[] } | undefined {
  let result: unknown;
  try {
    result = math.evaluate(text);
  } catch {
    return undefined;
  }
  if (typeof result === "number") return { value: result, exponents: BASES.map(() => 0) };
  const { dimensions, value } = result as Unit & { dimensions: number[]; value: number };
  const order = BASE_DIMENSIONS.map(
    (name) => dimensions[(math.Unit as unknown as { BASE_DIMENSIONS: string[] }).BASE_DIMENSIONS.indexOf(name)],
  );
  return { value, exponents: order.map((n) => Math.round(n * 6)) };
}

const BASE_DIMENSIONS = [
  "MASS",
  "LENGTH",
  "TIME",
  "CURRENT",
  "TEMPERATURE",
  "LUMINOUS_INTENSITY",
  "AMOUNT_OF_SUBSTANCE",
  "BIT",
];

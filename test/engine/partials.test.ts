import assert from "node:assert/strict";
import fc from "fast-check";
import { CONE_OPERATIONS } from "../../src/engine/coneOperations";
import { SOLUTIONS } from "../../src/engine/solutions";
import { Gradient } from "../../src/engine/gradient";
import { Op } from "../../src/engine/operation";
import { PARTIALS } from "../../src/engine/partials";
import { pointTable } from "../../src/engine/pointTables";
import { howMany } from "../howMany";
import { LOOKED_IN } from "./lookupOperands";
import { modelOf } from "./models";

type Point = readonly [number, number, number];

const TRUTHS: ReadonlySet<number> = new Set([Op.And, Op.Or, Op.Not]);
/** Kinks and poles at zero are looked at apart. */
const operand = fc.noBias(fc.integer({ min: -2999, max: 2999 }).map((n) => n / 1000)).filter((x) => Math.abs(x) > 0.01);
const truth = fc.constantFrom(0, 1);
const RUNS = howMany(2000);
const weight = fc.double({ min: 0.01, max: 0.99, noNaN: true });

/** Steps for the difference quotients, and how far they may be off from the derivative. */
const STEP = 1e-5;
const CLOSE = 1e-6;

describe("partial derivatives", () => {
  it("exist of every operation on the tape of a cone", () => {
    assert.equal(PARTIALS.length, CONE_OPERATIONS.length);
    CONE_OPERATIONS.forEach((operation, op) => assert.equal(typeof PARTIALS[op], "function", operation.name));
  });

  CONE_OPERATIONS.forEach((operation, op) => {
    // The steps of an iteration have the derivatives of its solution: see the tests of solutions.
    if (op in SOLUTIONS) return;
    it(`of ${operation.name} are the limits of its difference quotients`, () => {
      let compared = 0;
      const isTruth = (i: number) => TRUTHS.has(op) || (op === Op.If && i === 0);
      const lookedIn = LOOKED_IN.get(op);
      const isWeight = (i: number) => op === Op.Blend && i === 0;
      const at = (i: number) => (i === 1 && lookedIn ? lookedIn : isTruth(i) ? truth : isWeight(i) ? weight : operand);
      const point: fc.Arbitrary<Point> = fc.tuple(at(0), at(1), at(2));
      fc.assert(
        fc.property(point, (place) => {
          const value = operation.number(...place);
          if (!Number.isFinite(value)) return;
          const partials = new Float64Array(3);
          PARTIALS[op](partials, ...place, value);
          for (let i = 0; i < operation.arity; i++) {
            if (isTruth(i) || (i === 1 && lookedIn)) continue;
            const quotient = quotientOf(operation.number, place, i);
            if (quotient === undefined) continue;
            compared++;
            const allowed = CLOSE * Math.max(1, Math.abs(quotient));
            assert.ok(Math.abs(partials[i] - quotient) <= allowed, `by operand ${i}: ${partials[i]}, not ${quotient}`);
          }
        }),
        { numRuns: RUNS },
      );
      // Beside a key an exact look-up has no value.
      const isCompared = compared >= RUNS / 20 || TRUTHS.has(op) || op === Op.ExactLookup;
      assert.ok(isCompared, `${compared} of ${RUNS} points could be compared`);
    });
  });

  it("at a kink are the mean of those on either side, and none where there is no slope", () => {
    const of = (op: Op, ...[x, y, z]: Point) => {
      const out = new Float64Array(3);
      PARTIALS[op](out, x, y, z, CONE_OPERATIONS[op].number(x, y, z));
      return [...out];
    };
    assert.equal(of(Op.Abs, 0, 0, 0)[0], 0);
    assert.deepEqual(of(Op.Min, 2, 2, 0).slice(0, 2), [0.5, 0.5]);
    assert.equal(of(Op.SquareRoot, 0, 0, 0)[0], Infinity);
    assert.equal(of(Op.Power, -2, 3, 0)[1], NaN);
    assert.equal(of(Op.Power, 0, 2, 0)[1], 0);
    const bent = pointTable([0, 1, 2], [0, 1, 4]);
    assert.deepEqual(
      [0, 1, 2].map((x) => of(Op.Interpolate, x, bent, 0)[0]),
      [1, 2, 3],
    );
  });
});

describe("gradient", () => {
  it("has all derivatives of one sweep, of inputs used several times too", () => {
    const { cone, place } = modelOf([
      "given a = 2 ± 1",
      "given b = 3 ± 1",
      "c = a * b",
      "y = c^2 / a + exp(c - 6) * b",
    ]);
    const gradient = new Gradient(cone);
    assert.equal(gradient.at(cone.inputs.map(({ nominal }) => nominal)), 21);
    // y = a·b² + e^(ab − 6)·b: b² + b²·e⁰ and 2ab + e⁰·(1 + ab)
    assert.ok(Math.abs(gradient.derivatives[place("a")] - 18) < 1e-12);
    assert.ok(Math.abs(gradient.derivatives[place("b")] - 19) < 1e-12);
  });

  it("of an exponent that is an input, and of one that was rounded", () => {
    const { cone, place } = modelOf(["given n = 2.2 ± 1", "given x = -3 ± 1", "y = x^floor(n) + 2^n"]);
    const gradient = new Gradient(cone);
    gradient.at(cone.inputs.map(({ nominal }) => nominal));
    assert.ok(Math.abs(gradient.derivatives[place("n")] - 2 ** 2.2 * Math.LN2) < 1e-12);
    assert.ok(Math.abs(gradient.derivatives[place("x")] - -6) < 1e-12);
  });

  it("goes by the branch that is taken", () => {
    const { cone, place } = modelOf(["given a = 2 ± 1", "given b = 3 ± 1", "y = if a > b then 5 * a else 7 * b"]);
    const gradient = new Gradient(cone);
    gradient.at(cone.inputs.map(({ nominal }) => nominal));
    assert.deepEqual([gradient.derivatives[place("a")], gradient.derivatives[place("b")]], [0, 7]);
  });

  it("has no value where the formula has none", () => {
    const { cone } = modelOf(["given x = 4 ± 1", "y = sqrt(x)"]);
    assert.ok(Number.isNaN(new Gradient(cone).at([-1])));
  });
});

/** Undefined where the function is too steep, too bent or broken for the quotient to say anything. */
function quotientOf(f: (...at: Point) => number, at: Point, i: number): number | undefined {
  const along = (step: number) => f(...(at.map((x, j) => (i === j ? x + step : x)) as unknown as Point));
  const [a, b, c, d] = [-2, -1, 1, 2].map((k) => along(k * STEP));
  const [wide, narrow] = [(d - a) / (4 * STEP), (c - b) / (2 * STEP)];
  const [left, right] = [(along(0) - b) / STEP, (c - along(0)) / STEP];
  const scale = CLOSE * Math.max(1, Math.abs(narrow));
  const isSmooth = Math.abs(wide - narrow) < scale / 4 && Math.abs(left - right) < 1000 * scale;
  return isSmooth ? narrow : undefined;
}

import assert from "node:assert/strict";
import fc from "fast-check";
import { coverageIntervals, cutsFrom, symmetricInterval } from "../../src/engine/coverageInterval";
import { finish } from "../../src/engine/slices";
import { Random } from "../../src/engine/random";
import { howMany } from "../howMany";

const NO_CUTS = { below: -Infinity, above: Infinity };

/** JCGM 101, 7.7, word for word: ranks from 1 on all values in order. */
function byTheBook(values: readonly number[], probability: number) {
  const y = [NaN, ...[...values].sort((a, b) => a - b)];
  const M = values.length;
  const q = Math.min(M - 1, Math.floor(probability * M + 0.5));
  const r = Number.isInteger((M - q) / 2) ? (M - q) / 2 : Math.floor((M - q + 1) / 2);
  let shortest = 1;
  for (let s = 1; s <= M - q; s++) if (y[s + q] - y[s] < y[shortest + q] - y[shortest]) shortest = s;
  return {
    symmetric: { low: y[r], high: y[r + q] },
    shortest: { low: y[shortest], high: y[shortest + q] },
  };
}

describe("coverage intervals", () => {
  it("are those of JCGM 101, 7.7, wherever the cuts lie", () => {
    // −0 and 0 are one value, and either may stand for both.
    const value = fc
      .oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: -3, max: 3 }))
      .map((x) => x + 0);
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 2, maxLength: 200 }),
        fc.constantFrom(0.5, 0.9, 0.95, 0.99),
        fc.tuple(value, value),
        (values, probability, [below, above]) => {
          const expected = byTheBook(values, probability);
          for (const cuts of [{ below, above }, NO_CUTS, cutsFrom(Float64Array.from(values), probability)]) {
            assert.deepEqual(finish(coverageIntervals(Float64Array.from(values), probability, cuts)), expected);
            const symmetric = symmetricInterval(Float64Array.from(values), probability, cuts);
            assert.deepEqual(symmetric, expected.symmetric);
          }
        },
      ),
      { numRuns: howMany(5000) },
    );
  });

  it("of many values need no sort of the middle, and leave the values as they are", () => {
    const values = new Float64Array(200_000);
    new Random("values").fillNormal(values, values.length, 0, 1);
    const before = values.slice();
    const cuts = cutsFrom(values.slice(0, 10_000), 0.95);
    const outside = values.reduce((count, value) => count + (value <= cuts.below || value >= cuts.above ? 1 : 0), 0);
    assert.ok(outside > 0.1 * values.length && outside < 0.14 * values.length, `${outside} are sorted`);
    assert.deepEqual(finish(coverageIntervals(values, 0.95, cuts)), byTheBook([...values], 0.95));
    assert.deepEqual(values, before);
  });

  it("of few different values count them, and sort none", () => {
    const values = new Float64Array(200_000);
    new Random("steps").fillEven(values, values.length, 0, 1);
    values.forEach((value, i) => (values[i] = value < 0.02 ? -1 : value < 0.7 ? 2 : 3));
    const cuts = cutsFrom(values.slice(0, 10_000), 0.95);
    assert.deepEqual(cuts, { below: 2, above: 3 });
    assert.deepEqual(finish(coverageIntervals(values, 0.95, cuts)), byTheBook([...values], 0.95));
  });

  it("of a lopsided distribution: the shortest lies where the values are dense", () => {
    const values = new Float64Array(100_000);
    new Random("lopsided").fillEven(values, values.length, 0, 1);
    values.forEach((value, i) => (values[i] = -Math.log(value)));
    const { symmetric, shortest } = finish(coverageIntervals(values, 0.95, cutsFrom(values.slice(), 0.95)));
    // Of an exponential distribution: −ln 0.975 .. −ln 0.025, and 0 .. −ln 0.05.
    for (const [actual, expected, tolerance] of [
      [symmetric.low, 0.0253178, 0.003],
      [symmetric.high, 3.6888795, 0.1],
      [shortest.low, 0, 0.01],
      [shortest.high, 2.9957323, 0.08],
    ])
      assert.ok(Math.abs(actual - expected) < tolerance, `${actual}, not ${expected}`);
  });
});

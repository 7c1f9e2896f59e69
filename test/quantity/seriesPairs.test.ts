import assert from "node:assert/strict";
import fc from "fast-check";
import { decade, type SeriesName } from "../../src/quantity/series";
import { pairFor, type Pairing } from "../../src/quantity/seriesPairs";
import { howMany } from "../howMany";

const WORTH: Readonly<Record<Pairing, (a: number, b: number) => number>> = {
  ratio: (a, b) => a / b,
  sum: (a, b) => a + b,
  parallel: (a, b) => (a * b) / (a + b),
};

/** All pairs of members no more than a thousand times apart, by brute force: the least deviation there is. */
function leastDeviation(series: SeriesName, pairing: Pairing, x: number): number {
  const exponent = Math.floor(Math.log10(x));
  const members = Array.from({ length: 14 }, (_, i) => i - 7).flatMap((power) =>
    decade(series).map((member) => member * 10 ** (exponent + power)),
  );
  const seconds = pairing === "ratio" ? decade(series) : members;
  let least = Infinity;
  for (const a of members)
    for (const b of seconds) {
      if (pairing !== "ratio" && (a > b * 1000.0001 || b > a * 1000.0001)) continue;
      const deviation = WORTH[pairing](a, b) / x;
      least = Math.min(least, pairing === "ratio" ? Math.abs(Math.log(deviation)) : Math.abs(deviation - 1));
    }
  return least;
}

describe("pairs of a series", () => {
  const cases: readonly [SeriesName, Pairing, number, [number, number]][] = [
    ["E24", "ratio", 3.3, [3.3, 1]],
    ["E24", "ratio", 0.5, [1, 2]],
    ["E12", "sum", 10_000, [8200, 1800]],
    ["E24", "parallel", 5000, [7500, 15_000]],
    ["E24", "parallel", 75, [100, 300]],
    ["E6", "sum", 0.9, [0.68, 0.22]],
  ];
  for (const [series, pairing, x, pair] of cases)
    it(`${x} as a ${pairing} of ${series} is ${pair.join(" and ")}`, () => {
      const [a, b] = pairFor(series, pairing, x);
      assert.ok(Math.abs(a / pair[0] - 1) < 1e-12 && Math.abs(b / pair[1] - 1) < 1e-12, `${a} and ${b}`);
    });

  for (const pairing of ["ratio", "sum", "parallel"] as const)
    it(`no pair is nearer as a ${pairing}`, () => {
      fc.assert(
        fc.property(
          fc.constantFrom<SeriesName>("E3", "E6", "E12", "E24"),
          fc.double({ min: 0.2, max: 5e4, noNaN: true }),
          (series, x) => {
            const [a, b] = pairFor(series, pairing, x);
            const share = WORTH[pairing](a, b) / x;
            const deviation = pairing === "ratio" ? Math.abs(Math.log(share)) : Math.abs(share - 1);
            const least = leastDeviation(series, pairing, x);
            assert.ok(deviation <= least + 1e-9, `${a} and ${b} are off by ${deviation}, not ${least}`);
          },
        ),
        { numRuns: howMany(400) },
      );
    });

  it("are none of what is not above zero", () => {
    for (const x of [0, -1, NaN, Infinity, 5e-324, 1e-300, 1e300, Number.MAX_VALUE])
      for (const pairing of ["ratio", "sum", "parallel"] as const)
        assert.deepEqual(pairFor("E24", pairing, x), [NaN, NaN]);
  });
});

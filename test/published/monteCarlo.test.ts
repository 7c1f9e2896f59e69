import assert from "node:assert/strict";
import { finish } from "../../src/engine/slices";
import { propagate } from "../../src/engine/monteCarlo";
import { howMany } from "../howMany";
import { modelOfExample, type PublishedExample } from "./examples";
import published from "./monteCarlo.json";

interface Example extends PublishedExample {
  readonly name: string;
  readonly probability?: number;
  readonly mean: readonly number[];
  readonly standardDeviation: readonly number[];
  /** Ends of the interval, then what either may be off by. Of symmetrical densities: of both kinds of interval. */
  readonly interval?: readonly number[];
}

const TRIALS = howMany(1_000_000);
/** The tolerances are those of 10⁶ trials; the error of a mean shrinks with the root of their number. */
const WIDER = Math.sqrt(1_000_000 / TRIALS);

/** The place of the shortest interval is known less well than the ends of the symmetric one. */
const SHORTEST = 4;

describe("published figures: propagation of distributions (JCGM 101)", () => {
  for (const example of published.examples as unknown as readonly Example[]) {
    it(`${example.name}, ${TRIALS} trials`, () => {
      const { cone, spreads } = modelOfExample(example);
      const { probability } = example;
      const found = finish(propagate(cone, spreads, { seed: example.name, trials: TRIALS, probability }));
      assert.equal(found.withoutValue, 0);
      assertNear(found.mean, example.mean[0], example.mean[1], "mean");
      assertNear(found.standardDeviation, example.standardDeviation[0], example.standardDeviation[1], "deviation");
      if (!example.interval) return;
      const [low, high, tolerance] = example.interval;
      assertNear(found.symmetric.low, low, tolerance, "low end");
      assertNear(found.symmetric.high, high, tolerance, "high end");
      assertNear(found.shortest.low, low, SHORTEST * tolerance, "low end of the shortest");
      assertNear(found.shortest.high, high, SHORTEST * tolerance, "high end of the shortest");
    });
  }
});

function assertNear(actual: number, expected: number, tolerance: number, what: string): void {
  const allowed = tolerance * WIDER;
  assert.ok(Math.abs(actual - expected) <= allowed, `${what}: ${actual}, published ${expected} ± ${allowed}`);
}

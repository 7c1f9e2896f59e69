import assert from "node:assert/strict";
import { conditionsOf, lowestShare } from "../../src/engine/conditions";
import { canHoldTogether } from "../../src/engine/correlation";
import { finish } from "../../src/engine/slices";
import { Draws } from "../../src/engine/draws";
import { propagate } from "../../src/engine/monteCarlo";
import { shareOfBuilds } from "../../src/engine/shareOfBuilds";
import type { Spread } from "../../src/engine/spread";
import { firstOrder } from "../../src/engine/uncertainty";
import { modelOf, normal, student, type Model } from "./models";

const HELD: Spread = { shape: "held" };

const LINEAR = ["given a = 3 ± 1", "given b = 2 ± 0.5", "y = 2 * a + b"];

describe("propagation of distributions", () => {
  it("gives the same figures for the same seed, and others for another", () => {
    const { cone, spreads } = modelOf(LINEAR);
    const run = (seed: string) => finish(propagate(cone, spreads, { seed, trials: 30_000 }));
    assert.deepEqual(run("a"), run("a"));
    assert.notEqual(run("a").mean, run("b").mean);
  });

  it("goes on until the figures are good to two digits of the deviation (7.9)", () => {
    const { cone, spreads } = modelOf(LINEAR);
    const found = finish(propagate(cone, spreads, { seed: "adaptive" }));
    assert.equal(found.isStable, true);
    assert.equal(found.trials, 100_000, "ten sequences of 10,000 agree well enough");
    const u = firstOrder(cone, spreads).standardUncertainty!;
    // u is 1.19, so two digits are good to ± 0.05, and the averages to twice their standard deviation.
    assert.ok(Math.abs(found.standardDeviation - u) < 0.05, `${found.standardDeviation}, not ${u}`);
    assert.ok(Math.abs(found.mean - 8) < 0.05);
    const fine = finish(propagate(cone, spreads, { seed: "adaptive", digits: 3, most: 10_000_000 }));
    assert.ok(fine.isStable && fine.trials > 200_000, `${fine.trials} trials`);
    assert.ok(Math.abs(fine.standardDeviation - u) < 0.005);
  });

  it("says where that takes more trials than allowed", () => {
    const { cone, spreads } = modelOf(LINEAR);
    const found = finish(propagate(cone, spreads, { seed: "short", digits: 4, most: 35_000 }));
    assert.equal(found.isStable, false);
    assert.equal(found.trials, 35_000);
    assert.equal("isStable" in finish(propagate(cone, spreads, { seed: "short", trials: 100 })), false);
  });

  it("adds up blocks as one: the figures of all values, far from zero", () => {
    const { cone, spreads } = modelOf(["given a = 0 ± 1", "y = a + 10000000"]);
    const { mean, standardDeviation } = finish(propagate(cone, spreads, { seed: "far", trials: 123_457 }));
    assert.ok(Math.abs(mean - 1e7) < 0.01);
    assert.ok(Math.abs(standardDeviation - 1 / Math.sqrt(3)) < 0.005, `${standardDeviation}`);
  });

  it("pauses every few milliseconds, tells how far it is, and is cancelled by not asking", () => {
    const { cone, spreads } = modelOf(LINEAR);
    const run = propagate(cone, spreads, { seed: "slices", trials: 1_000_000 });
    let [steps, before] = [0, 0];
    for (let step = run.next(); !step.done; step = run.next()) {
      assert.ok(step.value.trials >= before && step.value.trials - before <= 10_000);
      assert.equal(step.value.expected, 1_000_000);
      before = step.value.trials;
      steps++;
    }
    assert.ok(steps >= 100, `${steps} steps`);
    const cancelled = propagate(cone, spreads, { seed: "slices" });
    cancelled.next();
    cancelled.return(undefined as never);
    assert.equal(cancelled.next().done, true);
  });

  it("counts trials without a value and leaves them out", () => {
    const { cone, spreads } = modelOf(["given a = -1 .. 3", "y = sqrt(a)"]);
    const found = finish(propagate(cone, spreads, { seed: "roots", trials: 40_000 }));
    assert.ok(Math.abs(found.withoutValue / found.trials - 0.25) < 0.015);
    assert.ok(Math.abs(found.mean - (2 / 3) * Math.sqrt(3)) < 0.02);
    const none = modelOf(["given a = -3 .. -1 .. 3", "y = sqrt(a - 5)"]);
    const nothing = finish(propagate(none.cone, none.spreads, { seed: "none", most: 30_000 }));
    assert.equal(nothing.withoutValue, nothing.trials);
    assert.ok(Number.isNaN(nothing.mean) && Number.isNaN(nothing.symmetric.low));
  });

  it("of what does not vary stops at once", () => {
    const { cone, spreads } = modelOf(["given a = 1 .. 1.5", "y = floor(a)"]);
    const found = finish(propagate(cone, spreads, { seed: "steady" }));
    assert.deepEqual(
      { ...found },
      {
        trials: 100_000,
        withoutValue: 0,
        mean: 1,
        standardDeviation: 0,
        symmetric: { low: 1, high: 1 },
        shortest: { low: 1, high: 1 },
        isStable: true,
      },
    );
  });

  it("of a chain that doubles back on one input knows it for one", () => {
    const { cone, spreads } = modelOf(["given a = 2 ± 1", "b = a * 3", "y = b - a - a - a"]);
    const { standardDeviation } = finish(propagate(cone, spreads, { seed: "one", trials: 10_000 }));
    assert.ok(standardDeviation < 1e-14);
  });
});

describe("draws of correlated inputs", () => {
  const SHAPES: readonly (readonly [string, Spread])[] = [
    ["even", { shape: "even" }],
    ["normal", normal(2)],
    ["t", student(0.7, 9)],
  ];

  for (const [nameOfA, a] of SHAPES) {
    for (const [nameOfB, b] of SHAPES) {
      it(`${nameOfA} and ${nameOfB} have the coefficient stated, and keep their shapes`, () => {
        const model = modelOf(["given a = 3 ± 1", "given b = 2 ± 0.5", "y = a + b"], { a, b });
        for (const r of [0.9, -0.5]) {
          const [first, second] = drawn(model, [["a", "b", r]]);
          assert.ok(Math.abs(coefficient(first, second) - r) < 0.02, `${coefficient(first, second)}, not ${r}`);
          const [alone] = drawn(model, []);
          const ratio = deviation(first) / deviation(alone);
          assert.ok(Math.abs(ratio - 1) < 0.03, `${ratio} of the deviation`);
        }
      });
    }
  }

  it("of three inputs have all their coefficients", () => {
    const model = modelOf(["given a = 0 ± 1", "given b = 0 ± 1", "given c = 0 ± 1", "y = a + b + c"], { b: normal(1) });
    const [a, b, c] = drawn(model, [
      ["a", "b", 0.5],
      ["b", "c", -0.4],
      ["a", "c", 0.3],
    ]);
    assert.ok(Math.abs(coefficient(a, b) - 0.5) < 0.02);
    assert.ok(Math.abs(coefficient(b, c) + 0.4) < 0.02);
    assert.ok(Math.abs(coefficient(a, c) - 0.3) < 0.02);
  });

  it("with a coefficient of 1 are one variable", () => {
    const [a, b] = drawn(modelOf(["given a = 0 ± 1", "given b = 5 ± 2", "y = a + b"]), [["a", "b", 1]]);
    for (let i = 0; i < a.length; i++) assert.ok(Math.abs(b[i] - (5 + 2 * a[i])) < 1e-9);
  });

  it("can hold together or not", () => {
    const pairs = (...r: readonly number[]) => [
      { a: 0, b: 1, r: r[0] },
      { a: 1, b: 2, r: r[1] },
      { a: 0, b: 2, r: r[2] },
    ];
    assert.equal(canHoldTogether(pairs(0.9, 0.9, 0.7)), true);
    assert.equal(canHoldTogether(pairs(0.9, 0.9, 0.5)), false);
    assert.equal(canHoldTogether(pairs(0.9, 0.9, -0.9)), false);
    assert.equal(canHoldTogether(pairs(1, 1, 1)), true);
    assert.equal(canHoldTogether(pairs(1, 0.5, 0.4)), false);
    assert.equal(canHoldTogether([{ a: 4, b: 7, r: 1.2 }]), false);
    assert.equal(canHoldTogether([]), true);
  });
});

describe("share of builds", () => {
  const keeps = (...lines: readonly string[]) => modelOf(lines);

  it("is that of the inputs that keep the condition", () => {
    const { cone, spreads } = keeps("given a = 0 .. 1", "given b = 0 .. 1", "ok = a + b <= 0.5");
    const share = finish(shareOfBuilds(cone, spreads, { seed: "corner" }));
    assert.ok(share.low <= 0.125 && share.high >= 0.125, `${share.low} .. ${share.high}`);
    assert.ok(share.high - share.low <= 0.002);
    assert.equal(share.kept / share.trials, share.share);
    assert.deepEqual(share, finish(shareOfBuilds(cone, spreads, { seed: "corner" })));
  });

  it("of a condition that always holds has a lower bound by the number of trials", () => {
    const { cone, spreads } = keeps("given a = 0 .. 1", "ok = a <= 2");
    const { share, low, high, trials } = finish(shareOfBuilds(cone, spreads, { seed: "all", trials: 5000 }));
    assert.deepEqual([share, high, trials], [1, 1, 5000]);
    assert.ok(low > 0.999 && low < 1);
  });

  it("counts a build without a value as one that does not keep it", () => {
    const { cone, spreads } = keeps("given a = -1 .. 1", "ok = sqrt(a) <= 2");
    const { share, withoutValue, trials } = finish(shareOfBuilds(cone, spreads, { seed: "none", trials: 20_000 }));
    assert.equal(share, 1 - withoutValue / trials);
    assert.ok(Math.abs(share - 0.5) < 0.02);
  });

  it("goes on until it is certain whether a required share is reached", () => {
    const { cone, spreads } = keeps("given a = 0 .. 1", "ok = a <= 0.9");
    const run = (required: number) => finish(shareOfBuilds(cone, spreads, { seed: "required", required }));
    assert.equal(run(0.89).reaches, true);
    assert.equal(run(0.91).reaches, false);
    assert.ok(run(0.899).trials > run(0.85).trials);
    const open = finish(shareOfBuilds(cone, spreads, { seed: "required", required: 0.9, most: 50_000 }));
    assert.equal(open.reaches, undefined);
    assert.equal(open.trials, 50_000);
  });

  it("is taken at every operating condition, with the same builds", () => {
    const lines = ["over T = 0 .. 10", "given a = 0 .. 1", "ok = a <= 1 - (T - 5)^2 / 50"];
    const { cone, spreads, place } = modelOf(lines, { T: HELD });
    const conditions = conditionsOf(cone, spreads);
    assert.deepEqual(
      conditions.map((condition) => condition.get(place("T"))),
      [0, 1.25, 2.5, 3.75, 5, 6.25, 7.5, 8.75, 10],
    );
    const lowest = finish(lowestShare(cone, spreads, conditions, { seed: "T", trials: 20_000 }));
    assert.equal(lowest.conditions, 9);
    assert.equal(lowest.at.get(place("T")), 0);
    assert.ok(Math.abs(lowest.share - 0.5) < 0.02);
    const other = finish(shareOfBuilds(cone, spreads, { seed: "T", trials: 20_000, held: conditions[8] }));
    assert.equal(other.kept, lowest.kept);
  });

  it("of several conditions at all combinations, and of many at the ends of each in turn", () => {
    const over = (count: number) => {
      const names = Array.from({ length: count }, (_, i) => `T${i}`);
      const lines = [...names.map((name, i) => `over ${name} = ${i} .. ${i + 1}`), `y = ${names.join(" + ")}`];
      const { cone, spreads } = modelOf(lines, Object.fromEntries(names.map((name) => [name, HELD])));
      return conditionsOf(cone, spreads);
    };
    assert.deepEqual(
      [1, 2, 3, 4, 5, 6].map((count) => over(count).length),
      [9, 25, 27, 16, 32, 64],
    );
    assert.equal(over(7).length, 16);
    assert.deepEqual(over(7)[1].get(6), 7);
    const { cone, spreads } = modelOf(["given a = 0 .. 1", "ok = a <= 2"]);
    assert.deepEqual(conditionsOf(cone, spreads), [new Map()]);
  });
});

/** Draws of the inputs in the order of their names. */
function drawn(model: Model, pairs: readonly (readonly [string, string, number])[]): Float64Array[] {
  const { cone, spreads, names } = model;
  const draws = new Draws(cone.inputs, spreads, { seed: "draws", correlations: model.correlations(pairs) });
  const blocks = cone.inputs.map(() => new Float64Array(40_000));
  draws.fill(blocks, 40_000);
  return [...names].sort().map((name) => blocks[names.indexOf(name)]);
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value) / values.length;
}

function deviation(values: Float64Array): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / values.length);
}

function coefficient(a: Float64Array, b: Float64Array): number {
  const [x, y] = [mean(a), mean(b)];
  return a.reduce((sum, value, i) => sum + (value - x) * (b[i] - y), 0) / a.length / deviation(a) / deviation(b);
}

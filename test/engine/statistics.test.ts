import assert from "node:assert/strict";
import { correlationOf, readings, sample } from "../../src/engine/statistics";

describe("statistics of observations", () => {
  it("of readings: mean, s/√n, n − 1", () => {
    const { mean, deviation, standardUncertainty, degreesOfFreedom, count } = readings([2, 4, 4, 6]);
    assert.deepEqual([mean, count, degreesOfFreedom], [4, 4, 3]);
    assert.equal(deviation, Math.sqrt(8 / 3));
    assert.equal(standardUncertainty, Math.sqrt(8 / 3) / 2);
  });

  it("of a sample: the next piece differs by s·√(1 + 1/n)", () => {
    const { mean, standardUncertainty, degreesOfFreedom } = sample([2, 4, 4, 6]);
    assert.deepEqual([mean, degreesOfFreedom], [4, 3]);
    assert.equal(standardUncertainty, Math.sqrt(8 / 3) * Math.sqrt(1.25));
  });

  it("of one observation: a mean, and nothing about its uncertainty", () => {
    const one = readings([5]);
    assert.equal(one.mean, 5);
    assert.ok(Number.isNaN(one.standardUncertainty));
    assert.ok(Number.isNaN(sample([5]).standardUncertainty));
    assert.equal(one.degreesOfFreedom, 0);
  });

  it("of observations that agree in their first digits keep the others", () => {
    const { mean, deviation } = readings([1e9 + 1, 1e9 + 2, 1e9 + 3]);
    assert.equal(mean, 1e9 + 2);
    assert.equal(deviation, 1);
  });

  it("of pairs: the coefficient of correlation", () => {
    assert.ok(Math.abs(correlationOf([1, 2, 3], [10, 20, 30]) - 1) < 1e-15);
    assert.ok(Math.abs(correlationOf([1, 2, 3], [5, 3, 1]) + 1) < 1e-15);
    assert.ok(Math.abs(correlationOf([1, 2, 3, 4], [2, 1, 4, 3]) - 0.6) < 1e-15);
    assert.ok(Number.isNaN(correlationOf([1, 2], [3, 3])));
  });
});

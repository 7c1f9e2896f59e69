import assert from "node:assert/strict";
import { erf } from "mathjs";
import { coverageFactor, normalShareBelow } from "../../src/engine/coverageFactor";

describe("coverage factors", () => {
  it("of a normal distribution are its quantiles (Abramowitz and Stegun, table 26.1)", () => {
    for (const [probability, factor] of [
      [0.5, 0.674489750196082],
      [0.95, 1.959963984540054],
      [0.99, 2.575829303548901],
      [0.998, 3.090232306167813],
    ])
      assert.ok(Math.abs(coverageFactor(probability, Infinity) - factor) < 1e-13, `${probability}`);
  });

  it("of one and two degrees of freedom follow closed forms", () => {
    for (const p of [0.01, 0.3, 0.6827, 0.95, 0.9973, 0.9999]) {
      assertRelative(coverageFactor(p, 1), Math.tan((Math.PI * p) / 2));
      assertRelative(coverageFactor(p, 2), p * Math.sqrt(2 / (1 - p * p)));
    }
  });

  it("of many degrees of freedom are the same by sum and by expansion, and fall towards the normal ones", () => {
    for (const p of [0.5, 0.95, 0.9973]) {
      const [a, b, c, d] = [998, 999, 1000, 1001].map((degrees) => coverageFactor(p, degrees));
      assert.ok(a > b && b > c && c > d && d > coverageFactor(p, Infinity));
      // Three of the sum tell the fourth, of the expansion, but for their third difference.
      assert.ok(Math.abs(d - (3 * c - 3 * b + a)) < 1e-10, `${p}`);
    }
  });

  it("take degrees of freedom down to a whole number, and need one", () => {
    assert.equal(coverageFactor(0.99, 16.7), coverageFactor(0.99, 16));
    assert.equal(coverageFactor(0.95, 0.9), NaN);
    assert.equal(coverageFactor(1, 5), NaN);
    assert.equal(coverageFactor(0, 5), NaN);
  });

  it("rest on a normal distribution that agrees with the error function", () => {
    for (let x = -6; x <= 6; x += 0.01) {
      const expected = (1 + erf(x / Math.SQRT2)) / 2;
      assert.ok(Math.abs(normalShareBelow(x) - expected) < 1e-15 + 2e-15 * expected, `${x}`);
    }
    assert.ok(Math.abs(normalShareBelow(-10) / 7.61985302416052e-24 - 1) < 1e-8);
    assert.equal(normalShareBelow(-40), 0);
    assert.equal(normalShareBelow(40), 1);
  });
});

function assertRelative(actual: number, expected: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-11 * Math.abs(expected), `${actual}, not ${expected}`);
}

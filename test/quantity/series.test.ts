import assert from "node:assert/strict";
import fc from "fast-check";
import {
  decade,
  isMember,
  isSeriesName,
  nearest,
  neighbours,
  nextDown,
  nextUp,
  SERIES_NAMES,
  type SeriesName,
} from "../../src/quantity/series";
import { howMany } from "../howMany";
import { si } from "./reading";

describe("series of preferred values", () => {
  it("are the seven of IEC 60063", () => {
    assert.deepEqual(SERIES_NAMES, ["E3", "E6", "E12", "E24", "E48", "E96", "E192"]);
    for (const name of SERIES_NAMES) assert.equal(decade(name).length, Number(name.slice(1)));
    for (const name of ["E5", "e24", "constructor", "", "E24 "]) assert.equal(isSeriesName(name), false);
  });

  it("give values that are the doubles of their literals, in every decade", () => {
    for (let exponent = -300; exponent <= 300; exponent++) {
      for (const text of ["1", "2.2", "4.7", "8.2"]) {
        const literal = Number(`${text}e${exponent}`);
        assert.equal(nearest("E12", literal * 1.001), literal);
      }
    }
    assert.equal(nearest("E24", 4.65e-9), si("4.7 nF"));
    assert.equal(nearest("E96", 4990.001), si("4.99 kΩ"));
  });

  it("take a member that a calculation missed by rounding for that member", () => {
    assert.ok(isMember("E24", 4.7e3 * (1 + 1e-15)));
    assert.equal(nextUp("E24", 4699.999999999999), 4700);
    assert.equal(nextUp("E24", 4700.000000000001), 4700);
    assert.equal(nextDown("E24", 4699.999999999999), 4700);
    assert.equal(isMember("E24", 4701), false);
    assert.equal(isMember("E24", 0.1 * 3 * 10), true);
  });

  it("cross decades", () => {
    assert.equal(nearest("E24", 9.6), 10);
    assert.equal(nextUp("E24", 9.11), 10);
    assert.deepEqual(neighbours("E24", 1), { below: 0.91, above: 1.1 });
    assert.deepEqual(neighbours("E24", 0.95), { below: 0.91, above: 1 });
    assert.deepEqual(neighbours("E3", 1000), { below: 470, above: 2200 });
  });

  it("end where the doubles end", () => {
    assert.equal(nextDown("E24", 5e-324), 5e-324);
    assert.equal(nextDown("E24", 3.1e-320), 3e-320);
    assert.equal(nextDown("E24", Number.MAX_VALUE), 1.6e308);
    assert.equal(nextUp("E24", Number.MAX_VALUE), Infinity);
  });

  it("choose the least deviation, and the smaller of two as near", () => {
    assert.equal(nearest("E12", 1.1), 1);
    assert.equal(nearest("E24", 0.45), 0.43); // A tie on paper, though not in doubles.
    assert.equal(nearest("E3", 330), 220); // By ratio it would be 470: −33 % against +42 %.
  });

  it("have no member for what has no decade", () => {
    for (const x of [0, -1, Number.NaN, Infinity, -Infinity]) {
      for (const pick of [nearest, nextUp, nextDown]) assert.ok(Number.isNaN(pick("E24", x)));
      assert.equal(isMember("E24", x), false);
      assert.deepEqual(neighbours("E24", x), { below: Number.NaN, above: Number.NaN });
    }
  });

  it("order their answers, and find every member itself", () => {
    const series = fc.constantFrom(...SERIES_NAMES);
    const size = fc.double({ min: -25, max: 25, noNaN: true }).map((exponent) => 10 ** exponent);
    fc.assert(
      fc.property(series, size, (name: SeriesName, x) => {
        const [below, above, near] = [nextDown(name, x), nextUp(name, x), nearest(name, x)];
        assert.ok(below <= x * (1 + 1e-12) && above >= x * (1 - 1e-12));
        assert.ok(near === below || near === above);
        assert.ok(Math.abs(near - x) <= Math.min(Math.abs(x - below), Math.abs(above - x)) + 1.1e-12 * x);
        for (const member of [below, above]) {
          assert.ok(isMember(name, member));
          assert.equal(nearest(name, member), member);
        }
        if (below !== above) assert.deepEqual(neighbours(name, x), { below, above });
        const around = neighbours(name, below);
        assert.ok(around.below < below && below < around.above);
        assert.equal(neighbours(name, around.below).above, below);
      }),
      { numRuns: howMany(20000) },
    );
  });
});

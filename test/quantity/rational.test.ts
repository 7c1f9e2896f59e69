import assert from "node:assert/strict";
import fc from "fast-check";
import { decimalExponent, fraction, product, rational, sum, toDouble, wholePower } from "../../src/quantity/rational";
import { howMany } from "../howMany";

describe("exact fractions", () => {
  it("round to the double that the decimal text reads as", () => {
    const decimals = fc.tuple(fc.bigInt(-(10n ** 30n), 10n ** 30n), fc.integer({ min: -330, max: 300 }));
    fc.assert(
      fc.property(decimals, ([digits, exponent]) => {
        const text = `${digits}e${exponent}`;
        assert.equal(toDouble(rational(text)), Number(text) + 0);
      }),
      { numRuns: howMany(20000) },
    );
  });

  it("round to the nearest double, by exact comparison with its two neighbours", () => {
    const positive = fc.bigInt(1n, 10n ** 25n);
    fc.assert(
      fc.property(positive, positive, (numerator, denominator) => {
        const value = fraction(numerator, denominator);
        const nearest = toDouble(value);
        for (const other of [nextDouble(nearest, 1), nextDouble(nearest, -1)]) {
          assert.ok(distance(value, nearest) <= distance(value, other));
        }
      }),
      { numRuns: howMany(10000) },
    );
  });

  it("break a tie by the digit beyond any decimal text of the quotient", () => {
    // 2^53 + 1 lies half way between two doubles; a part in 10^40 more must round up.
    const half = rational("9007199254740993");
    assert.equal(toDouble(half), 9007199254740992);
    assert.equal(toDouble(sum(half, rational("1e-40"))), 9007199254740994);
  });

  it("add, multiply and raise without rounding", () => {
    assert.deepEqual(sum(rational("1/3"), rational("1/6")), fraction(1n, 2n));
    assert.deepEqual(product(rational("0.3048"), rational("3")), rational("0.9144"));
    assert.deepEqual(wholePower(rational("-2/3"), -3), fraction(-27n, 8n));
  });

  it("know the powers of ten", () => {
    assert.equal(decimalExponent(rational("1e-9")), -9);
    assert.equal(decimalExponent(rational("1000")), 3);
    assert.equal(decimalExponent(rational("1")), 0);
    for (const text of ["20", "1/3", "0.5", "-1", "11"]) assert.equal(decimalExponent(rational(text)), undefined);
  });
});

function nextDouble(x: number, step: 1 | -1): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  view.setBigInt64(0, view.getBigInt64(0) + BigInt(step));
  return view.getFloat64(0);
}

/** |value − double| · denominator · 2^1100, exactly. */
function distance(value: { numerator: bigint; denominator: bigint }, double: number): bigint {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, double);
  const bits = view.getBigUint64(0);
  const mantissa = (bits & (2n ** 52n - 1n)) | (2n ** 52n);
  const exponent = ((bits >> 52n) & 2047n) - 1075n;
  const difference = (value.numerator << 1100n) - ((mantissa * value.denominator) << (1100n + exponent));
  return difference < 0n ? -difference : difference;
}

import assert from "node:assert/strict";
import fc from "fast-check";
import { letterCodeOf, readLetterCode } from "../../src/quantity/letterCode";
import { decade } from "../../src/quantity/series";
import { howMany } from "../howMany";

describe("letter code for values and tolerances", () => {
  it("is the double that its decimals read as", () => {
    const codes: [code: string, value: number, unitName: string][] = [
      ["4k7", 4700, "Ω"],
      ["4K7", 4700, "Ω"],
      ["2R2", 2.2, "Ω"],
      ["0R47", 0.47, "Ω"],
      ["10k", 10000, "Ω"],
      ["4n7", 4.7e-9, "F"],
      ["100n", 1e-7, "F"],
      ["4u7", 4.7e-6, "F"],
      ["4µ7", 4.7e-6, "F"],
      ["4μ7", 4.7e-6, "F"],
      ["1m5", 1.5e-3, "F"],
      ["1F5", 1.5, "F"],
      ["-4k7", -4700, "Ω"],
    ];
    for (const [code, value, unitName] of codes) {
      const read = readLetterCode(code);
      assert.deepEqual([read?.value, read?.unitName], [value, unitName], code);
    }
  });

  it("keeps digits and power apart for another unit after it", () => {
    const { digits, exponent } = readLetterCode("4u7")!;
    assert.deepEqual([digits, exponent], ["4.7", -6]);
  });

  it("has tolerances, either way or to one side, in per cent or in picofarads", () => {
    assert.deepEqual(readLetterCode("4k7J")!.tolerance, { low: -0.05, high: 0.05 });
    assert.deepEqual(readLetterCode("4k7K")!.tolerance, { low: -0.1, high: 0.1 });
    assert.deepEqual(readLetterCode("1M0F")!.tolerance, { low: -0.01, high: 0.01 });
    assert.deepEqual(readLetterCode("4u7Z")!.tolerance, { low: -0.2, high: 0.8 });
    assert.deepEqual(readLetterCode("2p2C")!.absoluteTolerance, { low: -0.25e-12, high: 0.25e-12 });
    assert.equal(readLetterCode("2p2C")!.tolerance, undefined);
    assert.deepEqual(readLetterCode("10p0F")!.tolerance, { low: -0.01, high: 0.01 });
    assert.deepEqual(readLetterCode("2p2J")!.tolerance, { low: -0.05, high: 0.05 });
  });

  it("is nothing else: a unit after a number, a name, a letter without meaning", () => {
    for (const text of [
      "10m",
      "10F",
      "10K",
      "R47",
      "4k",
      "4k7X",
      "k47",
      "4k7j",
      "47",
      "4.7k",
      "4k7 J",
      "",
      "10kJ",
      "4k7\n",
    ]) {
      if (text === "4k") assert.equal(readLetterCode(text)!.value, 4000);
      else assert.equal(readLetterCode(text), undefined, JSON.stringify(text));
    }
  });

  it("of a value is what designers write", () => {
    const resistances = [4700, 0.47, 100, 1e4, 33200, 0.005, 1e6, 4.32e9, 1];
    assert.deepEqual(
      resistances.map((value) => letterCodeOf(value, "Ω")),
      ["4k7", "0R47", "100R", "10k", "33k2", "0R005", "1M0", "4G32", "1R0"],
    );
    const capacitances = [1e-7, 4.7e-9, 2.2e-12, 4.7e-4, 1e-13, 1e-6];
    assert.deepEqual(
      capacitances.map((value) => letterCodeOf(value, "F")),
      ["100n", "4n7", "2p2", "470u", "0p1", "1u0"],
    );
    for (const value of [0, -1, Number.NaN, Infinity, 1 / 3, 12345, 1e13])
      assert.equal(letterCodeOf(value, "Ω"), undefined);
  });

  it("reads back as the same double", () => {
    const member = fc.constantFrom(...decade("E192"));
    fc.assert(
      fc.property(member, fc.integer({ min: -1, max: 9 }), fc.boolean(), (value, exponent, isResistance) => {
        const unitName = isResistance ? "Ω" : "F";
        const x = Number(`${value}e${exponent - (isResistance ? 0 : 12)}`);
        const code = letterCodeOf(x, unitName);
        assert.ok(code !== undefined, String(x));
        assert.deepEqual([readLetterCode(code)?.value, readLetterCode(code)?.unitName], [x, unitName]);
      }),
      { numRuns: howMany(5000) },
    );
  });
});

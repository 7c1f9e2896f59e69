import assert from "node:assert/strict";
import fc from "fast-check";
import { readDecimal, readDifference } from "../../src/quantity/number";
import { product, rational, toDouble } from "../../src/quantity/rational";
import { UNIT_LIST } from "../../src/quantity/unit";
import { howMany } from "../howMany";
import { si, unit } from "./reading";

describe("numbers as written", () => {
  it("are read in every form of the language", () => {
    const forms: [text: string, value: number][] = [
      ["12", 12],
      ["-3", -3],
      ["−3", -3],
      ["1_000", 1000],
      ["1e-6", 1e-6],
      ["2.5E3", 2500],
      ["0x1F", 31],
      ["0b1010", 10],
      ["-0xff", -255],
      ["1/4", 0.25],
      ["-1/3", -1 / 3],
      ["0", 0],
      ["-0", 0],
      ["007", 7],
    ];
    for (const [text, value] of forms) assert.equal(readDecimal(text, undefined), value, text);
  });

  it("are rounded once, unit included", () => {
    const literals: [text: string, value: number][] = [
      ["2.2 nF", 2.2e-9],
      ["4.7 kΩ", 4700],
      ["0.1 mV", 1e-4],
      ["3 ft", 0.9144],
      ["1/16 in", 0.0015875],
      ["1.6 mil", 4.064e-5],
      ["1/4 W", 0.25],
      ["0x1F mV", 0.031],
      ["33 %", 0.33],
      ["7 ppm", 7e-6],
      ["1 oz/ft^2", 0.30515172727394063],
      ["3.3 V/√MHz", 3.3e-3],
      ["2 V/√kHz", 2 * Math.sqrt(0.001)],
      ["1/3 h", 1200],
    ];
    for (const [text, value] of literals) assert.equal(si(text), value, text);
  });

  it("are points with a temperature scale, and differences where that is asked for", () => {
    assert.equal(si("25 °C"), 298.15);
    assert.equal(si("-40 °C"), 233.15);
    assert.equal(si("-40 °F"), 233.15);
    assert.equal(si("-459.67 °F"), 0);
    assert.equal(si("0 °C"), 273.15);
    assert.equal(si("20 m°C"), 273.17);
    assert.equal(readDifference("2", unit("°C")), 2);
    assert.equal(readDifference("9", unit("°F")), 5);
    assert.equal(si("100 ppm/°C"), 1e-4);
  });

  it("that cannot be read are NaN", () => {
    for (const text of [
      "",
      "x",
      "1.",
      ".5",
      "1e",
      "1/",
      "/2",
      "0xG",
      "0b2",
      "1.2.3",
      "1/2/3",
      "Infinity",
      "NaN",
      "1,5",
      "1 2",
      "--1",
    ]) {
      assert.ok(Number.isNaN(readDecimal(text, undefined)), text);
      assert.ok(Number.isNaN(readDecimal(text, unit("in"))), text);
    }
  });

  it("beyond the doubles are infinite or zero, at once", () => {
    for (const name of ["V", "in", "°C", "√kHz"]) {
      assert.equal(readDecimal("1e999999999999", unit(name)), Infinity);
      assert.equal(readDecimal("-1e400", unit(name)), -Infinity);
      assert.equal(readDifference("1e-999999999999", unit(name)), 0);
      assert.equal(readDecimal(`1e${"9".repeat(400)}`, unit(name)), Infinity);
    }
    assert.equal(readDecimal("1/0", unit("V")), Infinity);
    assert.equal(readDecimal("-1/0", unit("V")), -Infinity);
    assert.ok(Number.isNaN(readDecimal("0/0", unit("V"))));
    assert.equal(readDecimal("1e-400", unit("°C")), 273.15);
    assert.equal(readDecimal(`0.${"3".repeat(100000)}`, unit("in")), readDecimal("1/3", unit("in")));
    assert.equal(readDecimal(`${"0".repeat(100000)}1`, unit("in")), 0.0254);
  });

  it("equal the exact product of number and factor, rounded, for every unit", () => {
    const symbol = fc.constantFrom(...UNIT_LIST.map((each) => each.symbol));
    const text = fc
      .tuple(fc.integer({ min: -999999, max: 999999 }), fc.integer({ min: -12, max: 12 }))
      .map(([digits, exponent]) => `${digits}e${exponent}`);
    fc.assert(
      fc.property(symbol, text, (name, number) => {
        const of = unit(name);
        assert.equal(readDifference(number, of), toDouble(product(rational(number), of.exact!)));
      }),
      { numRuns: howMany(20000) },
    );
  });
});

import assert from "node:assert/strict";
import { divide, multiply, power, RATIO } from "../../src/quantity/dimension";
import { showNumber } from "../../src/quantity/display";
import { readLetterCode } from "../../src/quantity/letterCode";
import { decade, nearest, nextDown, nextUp, SERIES_NAMES, type SeriesName } from "../../src/quantity/series";
import { PREFIXES } from "../../src/quantity/unitAlgebra";
import { si, unit } from "../quantity/reading";
import constants from "./constants.json";
import conversions from "./conversions.json";
import letterCodes from "./letterCodes.json";
import { tells } from "../engine/told";
import preferredValues from "./preferredValues.json";
import prefixes from "./prefixes.json";
import units from "./units.json";

describe("published figures: units", () => {
  for (const { name, unit: symbol, si: coherent, printed, exact } of units.factors) {
    it(`${name} (NIST SP 811)`, () => {
      assert.equal(unit(symbol).dimension, unit(coherent).dimension);
      assertClose(unit(symbol).factor, exact, units.toleranceOfExact);
      assertClose(unit(symbol).factor, printed, units.toleranceOfPrinted);
    });
  }

  for (const { value, unit: symbol, expected, in: scale } of units.temperatures) {
    it(`${value} ${symbol} is ${expected} ${scale} (NIST SP 811)`, () => {
      const point = showNumber(si(`${value} ${symbol}`), unit("K").dimension, { point: true, unit: unit(scale) });
      assert.equal(point, `${expected} ${scale}`);
    });
  }

  it("prefixes are those of the SI Brochure, and no others", () => {
    assert.equal(prefixes.prefixes.length, PREFIXES.size);
    for (const { symbol, factor } of prefixes.prefixes) {
      assert.equal(Number(`1e${PREFIXES.get(symbol)}`), Number(factor), symbol);
      assert.equal(unit(`${symbol}V`).factor, Number(factor), symbol);
    }
  });

  for (const { expression, factors, pi, to, expected } of conversions.conversions) {
    it(`${expression} in ${to} (GNU units)`, () => {
      let [value, dimension] = [Math.PI ** pi, RATIO];
      for (const [number, symbol, exponent] of factors as [string, string | null, number][]) {
        value *= si(symbol === null ? number : `${number} ${symbol}`) ** exponent;
        const part = symbol === null ? RATIO : power(unit(symbol).dimension, Math.abs(exponent))!;
        dimension = exponent > 0 ? multiply(dimension, part) : divide(dimension, part);
      }
      assert.equal(dimension, unit(to).dimension);
      assertClose(value / unit(to).factor, expected, conversions.tolerance);
    });
  }

  for (const { name, value, unit: one, sameValue, sameUnit: other, tolerance } of constants.pairs) {
    it(`${name}: ${one} and ${other} agree (CODATA 2022)`, () => {
      assert.equal(unit(one).dimension, unit(other).dimension);
      assertClose(value * unit(one).factor, sameValue * unit(other).factor, tolerance);
    });
  }

  it("board stock of 1/16 in is 1.5875 mm (common practice, no source)", () => {
    assert.equal(si("1/16 in"), 1.5875e-3);
    assert.equal(showNumber(si("1/16 in"), unit("in").dimension), "1.5875 mm");
  });
});

describe("published figures: preferred values (IEC 60063)", () => {
  for (const { series, decade: values } of preferredValues.tables) {
    it(`${series} in full`, () => assert.deepEqual(decade(series as SeriesName), values));
  }

  for (const name of ["E48", "E96", "E192"] as const) {
    it(`${name} by the rule of the standard`, () => {
      const count = Number(name.slice(1));
      const byRule = Array.from({ length: count }, (_, i) => Math.round(10 ** (2 + i / count)) / 100);
      const exception = byRule.indexOf(9.19);
      if (exception >= 0) byRule[exception] = 9.2;
      assert.equal(exception, name === "E192" ? 185 : -1);
      assert.deepEqual(decade(name), byRule);
    });
  }

  it("E24 departs from the rule of the standard in eight places", () => {
    const byRule = Array.from({ length: 24 }, (_, i) => Math.round(10 ** (1 + i / 24)) / 10);
    const departures = decade("E24").filter((value, i) => value !== byRule[i]);
    assert.deepEqual(departures, [2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2]);
  });

  it("each coarser series is part of the finer ones of its kind", () => {
    for (const family of [SERIES_NAMES.slice(0, 4), SERIES_NAMES.slice(4)]) {
      for (let i = 1; i < family.length; i++) {
        const finer = decade(family[i]);
        for (const value of decade(family[i - 1])) assert.ok(finer.includes(value), `${value} of ${family[i - 1]}`);
      }
    }
  });

  for (const { series, value, nearest: near, nextUp: up, nextDown: down } of preferredValues.queries) {
    it(`${value} in ${series}`, () => {
      const name = series as SeriesName;
      assert.deepEqual([nearest(name, value), nextUp(name, value), nextDown(name, value)], [near, up, down]);
      // The same as a note asks for it.
      tells([
        [`must nearest("${name}", ${value} Ω) = ${near} Ω`, "holds"],
        [`must above("${name}", ${value} Ω) = ${up} Ω`, "holds"],
        [`must below("${name}", ${value} Ω) = ${down} Ω`, "holds"],
      ]);
    });
  }
});

describe("published figures: letter codes (IEC 60062)", () => {
  /** The note language begins a code with a digit (`R47` is a name), and ends one with a letter only where that is no unit. */
  const isOurs = (code: string): boolean => /^\d/.test(code) && !/^\d+K$/.test(code) && !/^\d+R[A-Z]$/.test(code);

  for (const entry of letterCodes.codes) {
    const { code, value, unit: unitName } = entry;
    if (isOurs(code)) {
      it(`${code} is ${value} ${unitName}`, () => {
        const read = readLetterCode(code)!;
        assert.deepEqual([read.value, read.unitName], [value, unitName]);
        const perCent = "tolerancePerCent" in entry ? entry.tolerancePerCent! : undefined;
        assert.deepEqual(read.tolerance, perCent && { low: -perCent / 100, high: perCent / 100 });
      });
    } else {
      it(`${code} is left to names and units`, () => assert.equal(readLetterCode(code), undefined));
    }
  }
});

function assertClose(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance * Math.abs(expected), `${actual} is not ${expected}`);
}

import assert from "node:assert/strict";
import fc from "fast-check";
import {
  dimensionName,
  divide,
  multiply,
  power,
  RATIO,
  siUnit,
  withoutCounts,
  type Dimension,
} from "../../src/quantity/dimension";
import { UNIT_LIST } from "../../src/quantity/unit";
import { howMany } from "../howMany";
import { unit } from "./reading";

const of = (text: string): Dimension => unit(text).dimension;

describe("dimensions", () => {
  it("are the same object where they are equal", () => {
    assert.equal(multiply(of("V"), of("A")), of("W"));
    assert.equal(divide(of("V"), of("A")), of("Ω"));
    assert.equal(multiply(of("A"), of("s")), of("C"));
    assert.equal(multiply(of("Ω"), of("F")), of("s"));
    assert.equal(of("N·m"), of("J"));
    assert.equal(of("lm"), of("cd·sr"));
    assert.notEqual(of("lm"), of("cd"));
    assert.notEqual(of("V").key, of("A").key);
  });

  it("keep counts and money apart from everything", () => {
    assert.equal(multiply(of("LED/board"), of("board")), of("LED"));
    assert.notEqual(of("LED"), of("board"));
    assert.notEqual(of("LED"), RATIO);
    assert.equal(of("LED").isRatio, false);
    assert.equal(divide(of("LED"), of("LED")), RATIO);
    assert.deepEqual([...of("mA/LED").counts], [["LED", -1]]);
    assert.notEqual(of("EUR"), of("USD"));
  });

  it("drop the counts that are named and no others", () => {
    assert.equal(withoutCounts(of("A·string/LED"), ["string"]), of("A/LED"));
    assert.equal(withoutCounts(of("A·string"), ["LED"]), of("A·string"));
    assert.equal(withoutCounts(of("1/board^2"), ["board"]), RATIO);
  });

  it("have powers in sixths and no others", () => {
    assert.equal(power(of("V^2"), 0.5), of("V"));
    assert.equal(power(power(of("m"), 1 / 3)!, 3), of("m"));
    assert.equal(power(of("s"), -1 / 6), power(power(of("s"), 0.5)!, -1 / 3));
    assert.equal(power(of("m"), 0.3333333333), power(of("m"), 1 / 3));
    const sixth = power(of("m"), 1 / 6)!;
    assert.equal([1, 2, 3, 4, 5, 6].map(() => sixth).reduce(multiply), of("m"), "six sixths are one");
    assert.equal(power(of("m"), 0.4), undefined);
    assert.equal(power(of("LED"), 0.3), undefined);
    assert.equal(power(of("m"), Number.NaN), undefined);
    assert.equal(power(of("m"), Number.POSITIVE_INFINITY), undefined);
    assert.equal(power(RATIO, 0.123), RATIO);
    assert.equal(power(of("V"), 0), RATIO);
  });

  it("obey the laws of a group", () => {
    const dimension = fc
      .array(
        fc.tuple(
          fc.constantFrom("V", "A", "m", "kg", "K", "s", "LED", "EUR", "lm", "byte"),
          fc.integer({ min: -3, max: 3 }),
        ),
        {
          maxLength: 4,
        },
      )
      .map((powers) => powers.reduce((total, [name, n]) => multiply(total, power(of(name), n)!), RATIO));
    fc.assert(
      fc.property(dimension, dimension, dimension, (a, b, c) => {
        assert.equal(multiply(a, b), multiply(b, a));
        assert.equal(multiply(multiply(a, b), c), multiply(a, multiply(b, c)));
        assert.equal(divide(multiply(a, b), b), a);
        assert.equal(divide(a, a), RATIO);
        assert.equal(power(multiply(a, b), 2), multiply(power(a, 2)!, power(b, 2)!));
      }),
      { numRuns: howMany(5000) },
    );
  });

  it("are named in words where they have a name", () => {
    const names = ["V", "m", "s", "rad", "K", "LED", "EUR", "1/s", "W/(m·K)", "lm", "lx", "A/LED", "V/√Hz", "K/W"];
    assert.deepEqual(
      names.map((name) => dimensionName(of(name))),
      [
        "voltage",
        "length",
        "time",
        "ratio",
        "temperature difference",
        "count of LED",
        "money in EUR",
        "frequency",
        "thermal conductivity",
        "luminous flux",
        "illuminance",
        "A/LED",
        "voltage noise density",
        "thermal resistance",
      ],
    );
  });

  it("have a coherent unit as text", () => {
    const units: [typed: string, coherent: string][] = [
      ["mV", "V"],
      ["%", "1"],
      ["LED", "LED"],
      ["oz/ft^2", "kg/m^2"],
      ["mW/(mm·°C)", "W/(m·K)"],
      ["mil^2", "m^2"],
      ["°C", "K"],
      ["1/(Ω·F)", "1/s"],
      ["kHz", "1/s"],
      ["nV/√kHz", "V/√Hz"],
      ["V·A·s", "J"],
      ["V/A", "Ω"],
      ["J/kg", "m^2/s^2"],
      ["V/K", "V/K"],
      ["LED/board", "LED/board"],
      ["EUR/(board·A)", "EUR/(A·board)"],
      ["A^2·s", "A^2·s"],
      ["W/m", "W/m"],
      ["lm/m", "lm/m"],
      ["N·s/m", "kg/s"],
      ["V/A^2", "Ω/A"],
      ["m^2/cd^2", "m^2/cd^2"],
      ["m^0.5", "√m"],
    ];
    for (const [typed, coherent] of units) assert.equal(siUnit(of(typed)), coherent);
  });

  it("read their own coherent unit back, with the factor one", () => {
    const word = fc.constantFrom(...UNIT_LIST.map(({ symbol }) => symbol), "LED", "EUR");
    const powers = fc.array(fc.tuple(word, fc.constantFrom(-2, -1, -0.5, 0.5, 1, 2)), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(powers, (factors) => {
        const dimension = factors.reduce((total, [name, n]) => multiply(total, power(of(name), n)!), RATIO);
        if (dimension.isRatio) return;
        const coherent = unit(siUnit(dimension));
        assert.equal(coherent.dimension, dimension, siUnit(dimension));
        assert.equal(coherent.factor, 1);
      }),
      { numRuns: howMany(5000) },
    );
  });

  it("are written with squares and roots of named units where that is shortest", () => {
    assert.equal(siUnit(of("Ω^2")), "Ω^2");
    assert.equal(siUnit(power(of("W"), 0.5)!), "√W");
    assert.equal(siUnit(multiply(of("kg"), of("m/s"))), "N·s");
    assert.equal(siUnit(of("m^2/s^2")), "m^2/s^2");
  });
});

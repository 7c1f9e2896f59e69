import assert from "node:assert/strict";
import { all, create, type MathJsInstance, type Unit as MathjsUnit } from "mathjs";
import { readFileSync, readdirSync } from "node:fs";
import { divide, multiply, power } from "../../src/quantity/dimension";
import { show, showNumber } from "../../src/quantity/display";
import { readDecimal, readDifference } from "../../src/quantity/number";
import { isBuiltInUnit } from "../../src/quantity/unit";
import { BASE_SYMBOLS, mathjsUnit, multiplyExponents, PREFIXES } from "../../src/quantity/unitAlgebra";
import { si, tryUnit, unit } from "./reading";

/** Each trap is shown to be one in mathjs itself first: where a new version closes it, the test says so. */
describe("the traps of mathjs", () => {
  let math: MathJsInstance;
  const evaluate = (text: string): MathjsUnit => math.evaluate(text) as MathjsUnit;
  before(() => (math = create(all)));

  it("it shows a result in what it parsed before; we show a dimension in one unit", () => {
    const product = (): string => math.multiply(math.unit("2 V"), math.unit("3 A")).toString();
    const before = product();
    math.unit("1 BTU/h");
    math.unit("1 hp");
    assert.notEqual(product(), before, "mathjs no longer remembers");
    const W = multiply(unit("V").dimension, unit("A").dimension);
    assert.equal(showNumber(6, W), "6 W");
    unit("VA");
    assert.equal(showNumber(6, W), "6 W");
  });

  it("its lists of units grow with every product; our dimensions have no list", () => {
    type Listed = { units: unknown[]; multiply(other: unknown): Listed; divide(other: unknown): Listed };
    const theirMetre = math.unit("1 m");
    let theirs: Listed = math.unit("1 V") as unknown as Listed;
    for (let i = 0; i < 10; i++) theirs = theirs.multiply(theirMetre).divide(theirMetre);
    assert.equal(theirs.units.length, 21, "mathjs no longer grows");
    const { dimension } = unit("V");
    const metre = unit("m").dimension;
    let ours = dimension;
    for (let i = 0; i < 1000; i++) ours = divide(multiply(ours, metre), metre);
    assert.equal(ours, dimension);
  });

  it("a difference of its degC is a point again; ours is a difference", () => {
    const difference = evaluate("25 degC - 20 degC");
    assert.notEqual(difference.toNumber("K"), 5, "mathjs no longer takes it for a point");
    assert.equal(si("25 °C") - si("20 °C"), 5);
    assert.equal(readDifference("5", unit("°C")), 5);
    assert.equal(readDecimal("10", unit("°F")), 260.9277777777778);
  });

  it("its VAR is imaginary; var is real", () => {
    assert.equal(math.typeOf((evaluate("1 VAR") as unknown as { value: unknown }).value), "Complex");
    assert.equal(si("2 kvar"), 2000);
    assert.equal(unit("var").dimension, unit("W").dimension);
    assert.throws(() => mathjsUnit("VAR"));
  });

  it("its rad is a base dimension; ours is one", () => {
    assert.equal(
      (evaluate("1 rad") as unknown as { dimensions: number[] }).dimensions.filter((n) => n !== 0).length,
      1,
    );
    assert.ok(unit("rad").dimension.isRatio);
    assert.equal(unit("rad/s").dimension, unit("1/s").dimension);
  });

  it("its min and sec are functions where a unit is meant; ours are a unit and none", () => {
    assert.equal(typeof math.evaluate("min"), "function");
    assert.equal(typeof math.evaluate("sec"), "function");
    assert.equal(si("2 min"), 120);
    assert.equal(isBuiltInUnit("sec"), false);
  });

  it("a variable shadows its units; nothing a note defines reaches ours", () => {
    assert.equal(math.evaluate("3 V", { V: 7 }), 21);
    assert.equal(si("3 V"), 3);
    // A counted item of that name does not shadow it either.
    assert.equal(tryUnit("V"), unit("V"));
  });

  it("float noise of its conversions does not leak", () => {
    assert.notEqual(evaluate("3 ft").toNumber("m"), 0.9144, "mathjs no longer has the noise");
    assert.equal(si("3 ft"), 0.9144);
    assert.equal(showNumber(3 * 0.3048, unit("m").dimension), "914.4 mm");
    assert.equal(
      show({ low: 0.1 + 0.2, nominal: 0.1 + 0.2, high: 0.3 }, unit("V").dimension, { unit: unit("V") }),
      "0.3 V",
    );
  });

  it("it lacks lm, lx, rpm, Ω, µ, %, ppm and sr as units; we have them", () => {
    const theirs = (math as unknown as { Unit: { isValuelessUnit(name: string): boolean } }).Unit;
    for (const name of ["lm", "lx", "rpm", "Ω", "µm", "%", "ppm", "sr"]) {
      assert.equal(theirs.isValuelessUnit(name), false, `mathjs has ${name} now`);
      assert.ok(isBuiltInUnit(name), name);
    }
  });

  it("some of its factors are old or short; ours are exact", () => {
    assert.notEqual(evaluate("1 eV").toNumber("J"), 1.602176634e-19, "mathjs has the exact value now");
    assert.notEqual(evaluate("1 psi").toNumber("Pa"), 6894.757293168362, "mathjs has the exact value now");
    assert.equal(si("1 eV"), 1.602176634e-19);
    assert.equal(si("1 psi"), 6894.757293168362);
  });

  it("its words that a note does not know are no units", () => {
    for (const name of ["stick", "cup", "mins", "inch", "feet", "degC", "BTU", "hp", "lbm", "angstrom", "cycle"]) {
      assert.equal(isBuiltInUnit(name), false, name);
    }
  });
});

describe("the wall around mathjs", () => {
  it("is the only importer of it", () => {
    const sources = readdirSync("src", { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".ts"));
    const importers = sources.filter((path) =>
      /from "mathjs|require\("mathjs/.test(readFileSync(`src/${path}`, "utf8")),
    );
    assert.deepEqual(importers, ["quantity/unitAlgebra.ts"]);
  });

  it("uses neither its parser nor its evaluation", () => {
    const source = readFileSync("src/quantity/unitAlgebra.ts", "utf8");
    assert.doesNotMatch(source, /\.(parse|evaluate|compile|createUnit|format|to)\(/);
  });

  it("has the prefixes of the SI, and no power that the algebra does not keep", () => {
    assert.equal(PREFIXES.size, 24);
    BASE_SYMBOLS.forEach((symbol, place) => {
      assert.deepEqual(
        unit(symbol).dimension.exponents,
        BASE_SYMBOLS.map((_, i) => (i === place ? 1 : 0)),
        symbol,
      );
    });
    const volt = mathjsUnit("V").exponents;
    assert.deepEqual(multiplyExponents(volt, mathjsUnit("A").exponents), mathjsUnit("W").exponents);
    assert.equal(power(unit("V").dimension, 0.1), undefined);
  });
});

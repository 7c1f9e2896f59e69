import assert from "node:assert/strict";
import fc from "fast-check";
import { multiply, power, RATIO, type Dimension } from "../../src/quantity/dimension";
import { chooseUnit, show, showApart, showNumber, showRatio, type ShowOptions } from "../../src/quantity/display";
import { readDecimal } from "../../src/quantity/number";
import { UNIT_LIST } from "../../src/quantity/unit";
import { howMany } from "../howMany";
import { literal, si, unit } from "./reading";

const exact = (text: string, options?: ShowOptions): string =>
  showNumber(si(text), literal(text).unit?.dimension ?? RATIO, options);
const range = (low: number, nominal: number, high: number, of: string, options?: ShowOptions): string =>
  show({ low, nominal, high }, unit(of).dimension, options);

describe("values as shown", () => {
  it("take the named SI unit with an engineering prefix", () => {
    const values: [literal: string, shown: string][] = [
      ["0.06 A", "60 mA"],
      ["24 V·A", "24 W"],
      ["10 V/A", "10 Ω"],
      ["3 A·s", "3 C"],
      ["5 W·s", "5 J"],
      ["4700 Ω", "4.7 kΩ"],
      ["0.0000047 F", "4.7 µF"],
      ["1 1/(Ω·F)", "1 1/s"],
      ["2500 1/s", "2500 1/s"],
      ["1e9 1/s", "1e9 1/s"],
      ["1/16 in", "1.5875 mm"],
      ["0.4 W/(m·K)", "0.4 W/(m·K)"],
      ["0.5 K/W", "0.5 K/W"],
      ["4.5 nV/√Hz", "4.5 nV/√Hz"],
      ["0.02 A/LED", "20 mA/LED"],
      ["112 LED", "112 LED"],
      ["0.12 EUR/LED", "0.12 EUR/LED"],
      ["3 rad", "3"],
      ["25 %", "0.25"],
      ["1000 lm", "1 klm"],
      ["999999.7 V", "1 MV"],
      ["0 V", "0 V"],
      ["-0.005 V", "-5 mV"],
      ["17 nΩ·m", "17 nΩ·m"],
      ["1 cd·sr", "1 lm"],
      ["60 rpm", "1 1/s"],
    ];
    for (const [text, shown] of values) assert.equal(exact(text), shown, text);
  });

  it("take what is customary for masses, areas, volumes and times", () => {
    const values: [literal: string, shown: string][] = [
      ["250 g", "250 g"],
      ["2500 g", "2.5 kg"],
      ["5000 kg", "5000 kg"],
      ["3 mg", "3 mg"],
      ["8960 kg/m^3", "8960 kg/m^3"],
      ["1 oz/ft^2", "305.152 g/m^2"],
      ["1.5 mm^2", "1.5 mm^2"],
      ["0.5 m^2", "0.5 m^2"],
      ["20 cm^2", "2000 mm^2"],
      ["3 cm^3", "3 cm^3"],
      ["0.5 mm^3", "0.5 mm^3"],
      ["90 s", "90 s"],
      ["150 s", "2.5 min"],
      ["2 h", "2 h"],
      ["36 h", "36 h"],
      ["72 h", "3 d"],
      ["5 year", "5 year"],
      ["0.002 s", "2 ms"],
      ["0 s", "0 s"],
      ["0 kg", "0 kg"],
    ];
    for (const [text, shown] of values) assert.equal(exact(text), shown, text);
  });

  it("take the unit that is wanted, as it is", () => {
    assert.equal(exact("0.06 A", { unit: unit("A") }), "0.06 A");
    assert.equal(exact("3 N·m", { unit: unit("N·m") }), "3 N·m");
    assert.equal(exact("1 kHz", { unit: unit("Hz") }), "1000 Hz");
    assert.equal(exact("0.25", { unit: unit("%") }), "25 %");
    assert.equal(exact("3600 C", { unit: unit("mAh") }), "1000 mAh");
    assert.equal(exact("1.5875 mm", { unit: unit("mil") }), "62.5 mil");
    assert.equal(exact("0.0005 N·m", { unit: unit("N·m"), anyPrefix: true }), "500 µN·m");
    assert.equal(exact("7.2e6 J", { unit: unit("Wh"), anyPrefix: true }), "2 kWh");
    assert.equal(exact("1.5 V", { unit: unit("mV"), anyPrefix: true }), "1.5 V");
  });

  it("show a range in the order of a data sheet, in one unit, with digits that match it", () => {
    assert.equal(range(0.4, 3, 5.6, "V"), "0.4 .. 3 .. 5.6 V");
    assert.equal(range(0.00264, 0.02, 0.0377, "A"), "2.64 .. 20 .. 37.7 mA");
    assert.equal(range(0.00105614, 0.06, 0.21107, "W"), "1.06 .. 60 .. 211 mW");
    assert.equal(range(23.98, 24, 24.02, "V"), "23.98 .. 24 .. 24.02 V");
    assert.equal(range(0.0422, 0.32, 0.6032, "A"), "42.2 .. 320 .. 603 mA");
    assert.equal(range(4.99999, 5, 5.000012, "V"), "4.99999 .. 5 .. 5.000012 V");
    assert.equal(range(-0.1, 0, 0.1, "V"), "-100 .. 0 .. 100 mV");
    assert.equal(range(1 / 3, 2 / 3, 1, "V", { unit: unit("V") }), "0.333 .. 0.667 .. 1 V");
    assert.equal(range(100, 112, 120, "LED"), "100 .. 112 .. 120 LED");
    assert.equal(range(1e-9, 1e-6, 5e-3, "A"), "0.001 .. 1 .. 5000 µA");
    assert.equal(range(1e-17, 0.3, 0.5, "V"), "0 .. 300 .. 500 mV");
    assert.equal(range(0.28, 0.3, 0.32, "%", { unit: unit("%") }), "28 .. 30 .. 32 %");
  });

  it("round what lies below the last digit away, and up where it is more than half of it", () => {
    assert.equal(range(-1e-7, 0.0000006, 1000, "V", { unit: unit("V") }), "-1e-7 .. 6e-7 .. 1000 V");
    assert.equal(range(-4e-10, 6e-10, 1000, "V", { unit: unit("V") }), "0 .. 1e-9 .. 1000 V");
  });

  it("take a range that only rounding opened for an exact value", () => {
    assert.equal(range(0.3, 0.1 + 0.2, 0.30000000000000004, "V"), "300 mV");
    assert.equal(range(0.3, 0.3, 0.3001, "V"), "300 .. 300 .. 300.1 mV");
  });

  it("show exact values with six digits at most, whole counts in full, and no float noise", () => {
    assert.equal(exact("1/3 kΩ"), "333.333 Ω");
    assert.equal(exact("1234567 Ω"), "1.23457 MΩ");
    assert.equal(exact("1234567 Ω", { exactDigits: 9 }), "1.234567 MΩ");
    assert.equal(exact("1234567 LED"), "1234567 LED");
    assert.equal(exact("1234567"), "1234567");
    assert.equal(exact("1/3"), "0.333333");
    assert.equal(showNumber(0.1 * 3, unit("V").dimension), "300 mV");
    assert.equal(showNumber(3 * 0.3048, unit("m").dimension), "914.4 mm");
    assert.equal(showNumber(1e-9, RATIO), "1e-9");
    assert.equal(showNumber(2.5e20, RATIO), "2.5e20");
    assert.equal(showNumber(-0, unit("V").dimension), "0 V");
  });

  it("show temperature points in °C, or as asked", () => {
    const point = { point: true };
    assert.equal(exact("25 °C", point), "25 °C");
    assert.equal(exact("0 °C", point), "0 °C");
    assert.equal(showNumber(273.15 + 1e-11, unit("K").dimension, point), "0 °C");
    assert.equal(exact("68 °F", point), "20 °C");
    assert.equal(exact("20 °C", { ...point, unit: unit("°F") }), "68 °F");
    assert.equal(exact("0.1 °C", point), "0.1 °C");
    assert.equal(range(288.15, 298.15, 358.15, "K", point), "15 .. 25 .. 85 °C");
    assert.equal(range(233.15, 273.15, 358.15, "K", point), "-40 .. 0 .. 85 °C");
    assert.equal(exact("300 K", { ...point, unit: unit("K") }), "300 K");
    assert.equal(exact("40 K"), "40 K");
    assert.equal(exact("0.5 K"), "0.5 K");
  });

  it("leave out a limit that is not known, and say what is not finite", () => {
    assert.equal(range(-Infinity, 3, 3.2, "V"), ".. 3 .. 3.2 V");
    assert.equal(range(Number.NaN, 3, 3.2, "V"), ".. 3 .. 3.2 V");
    assert.equal(range(0.4, 3, Number.NaN, "V"), "0.4 .. 3 .. ∞ V");
    assert.equal(range(0.4, Number.NaN, 3, "V"), "undefined V");
    assert.equal(range(0.4, 3, Infinity, "V"), "0.4 .. 3 .. ∞ V");
    assert.equal(showNumber(Number.NaN, unit("V").dimension), "undefined V");
    assert.equal(showNumber(Infinity, unit("V").dimension), "∞ V");
    assert.equal(showNumber(-Infinity, RATIO), "-∞");
  });

  it("have a unit, whatever exponents a calculation made", () => {
    assert.equal(showNumber(2, power(unit("m").dimension, 20)!), "2 m^20");
    assert.equal(showNumber(2, power(unit("kg").dimension, 1e10)!), "2 kg^10000000000");
    assert.equal(showNumber(2, power(unit("m").dimension, -1 / 6)!), "2 1/m^0.1667");
  });

  it("come apart into digits and unit", () => {
    assert.deepEqual(showApart({ low: 0.06, nominal: 0.06, high: 0.06 }, unit("A").dimension), {
      text: "60",
      unit: "mA",
    });
    assert.deepEqual(showApart({ low: 2, nominal: 2, high: 2 }, RATIO), { text: "2", unit: "1" });
    assert.equal(chooseUnit(0.06, unit("A").dimension).text, "mA");
    assert.equal(chooseUnit(0, unit("A").dimension).text, "A");
    assert.equal(chooseUnit(Number.NaN, unit("A").dimension).text, "A");
    assert.equal(chooseUnit(Number.NaN, unit("s").dimension).text, "s");
  });

  it("show a number as written with the digits that were typed", () => {
    const written: [low: number, nominal: number, high: number, of: string, step: number, shown: string][] = [
      [3.2875, 3.3, 3.3125, "V", 1e-4, "3.2875 .. 3.3 .. 3.3125 V"],
      [3.254625, 3.2875, 3.320375, "V", 1e-4, "3.2546 .. 3.2875 .. 3.3204 V"],
      [23.875, 24, 24.125, "V", 1e-3, "23.875 .. 24 .. 24.125 V"],
      [11.4, 12, 12.6, "V", 1e-3, "11.4 .. 12 .. 12.6 V"],
      [32768.123, 32768.123, 32768.123, "V", 1e-3, "32.768123 kV"],
      [1.5, 1.5, 1.5, "V", 1e-7, "1.5 V"],
      [12.345678, 12.345678, 12.345678, "EUR", 1e-6, "12.345678 EUR"],
      // What is typed more coarsely than it is shown changes nothing.
      [0.4, 3, 5.6, "V", 1, "0.4 .. 3 .. 5.6 V"],
      [0.0254, 0.0381, 0.0508, "in", 0.000254, "1 .. 1.5 .. 2 in"],
    ];
    for (const [low, nominal, high, of, step, shown] of written) {
      const inUnit = of === "in" ? { unit: unit(of) } : {};
      assert.equal(show({ low, nominal, high }, unit(of).dimension, { ...inUnit, step }), shown);
    }
  });

  it("show shares for phrases", () => {
    const shares: [x: number, shown: string][] = [
      [0.12345, "12 %"],
      [1.5, "150 %"],
      [12.3456, "1235 %"],
      [0.00123, "0.12 %"],
      [0.05, "5 %"],
      [0, "0 %"],
      [-0.41, "-41 %"],
      [Infinity, "∞ %"],
    ];
    for (const [x, shown] of shares) assert.equal(showRatio(x), shown);
  });
});

describe("the law of display: what is shown reads back", () => {
  const word = fc.constantFrom(...UNIT_LIST.map(({ symbol }) => symbol), "LED", "EUR");
  const dimension: fc.Arbitrary<Dimension> = fc
    .array(fc.tuple(word, fc.constantFrom(-2, -1, -0.5, 0.5, 1, 1, 1, 2)), { maxLength: 3 })
    .map((factors) => factors.reduce((total, [name, n]) => multiply(total, power(unit(name).dimension, n)!), RATIO));
  const size = fc.tuple(
    fc.double({ min: 1, max: 10, noNaN: true }),
    fc.integer({ min: -20, max: 20 }),
    fc.constantFrom(1, -1),
  );
  const number = size.map(([mantissa, exponent, sign]) => sign * mantissa * 10 ** exponent);

  it("an exact value, within its six digits", () => {
    fc.assert(
      fc.property(number, dimension, (x, of) => {
        const shown = showNumber(x, of);
        const { number: digits, unit: inUnit } = literal(shown);
        assert.equal(inUnit?.dimension ?? RATIO, of, shown);
        const back = readDecimal(digits, inUnit);
        // An amount of one and more is shown to the cent, as exactly as a double can be trusted.
        const isAmount = of === unit("EUR").dimension && Math.abs(x) >= 1;
        const allowed = isAmount ? Math.max(0.0051, 5.1e-12 * Math.abs(x)) : 5.1e-6 * Math.abs(x);
        assert.ok(Math.abs(back - x) <= allowed, `${x} is shown as ${shown}`);
      }),
      { numRuns: howMany(20000) },
    );
  });

  it("a range, within half of the last of the digits that it must have", () => {
    const width = fc.double({ min: 1e-6, max: 2, noNaN: true });
    fc.assert(
      fc.property(number, width, width, dimension, (nominal, below, above, of) => {
        const value = { nominal, low: nominal - below * Math.abs(nominal), high: nominal + above * Math.abs(nominal) };
        const shown = show(value, of);
        const [, digits, unitText] = /^(\S+ \.\. \S+ \.\. \S+)(?: (.+))?$/.exec(shown)!;
        const inUnit = unitText === undefined ? undefined : unit(unitText);
        const members = digits.split(" .. ").map((text) => readDecimal(text, inUnit));
        const spread = value.high - value.low;
        for (const [i, x] of [value.low, value.nominal, value.high].entries()) {
          const allowed = Math.min(0.051 * spread, Math.max(0.0051 * Math.abs(x), 1e-11 * spread));
          assert.ok(Math.abs(members[i] - x) <= allowed, `${x} of ${JSON.stringify(value)} is shown in ${shown}`);
        }
      }),
      { numRuns: howMany(20000) },
    );
  });

  it("a temperature point, to the millionth of a kelvin or six digits", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2000, noNaN: true }), (kelvins) => {
        const { number: digits, unit: inUnit } = literal(showNumber(kelvins, unit("K").dimension, { point: true }));
        assert.ok(
          Math.abs(readDecimal(digits, inUnit) - kelvins) <= 5.1e-6 * Math.max(1e-3, Math.abs(kelvins - 273.15)),
        );
      }),
      { numRuns: howMany(5000) },
    );
  });

  it("anything, without throwing", () => {
    const any = fc.double();
    fc.assert(
      fc.property(any, any, any, dimension, fc.boolean(), (low, nominal, high, of, point) => {
        assert.equal(typeof show({ low, nominal, high }, of, { point: point && of === unit("K").dimension }), "string");
      }),
      { numRuns: howMany(20000) },
    );
  });
});

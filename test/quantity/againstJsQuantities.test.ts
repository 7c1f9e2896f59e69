import assert from "node:assert/strict";
import fc from "fast-check";
import { createRequire } from "node:module";
import { howMany } from "../howMany";
import { si, unit } from "./reading";

interface Quantity {
  to(unit: string): { scalar: number };
}
const Qty = createRequire(__filename)("js-quantities") as (text: string) => Quantity;

/** Units that a general-purpose library also has: ours, its spelling of it, and the coherent SI unit in its spelling. */
const UNITS: readonly (readonly [ours: string, theirs: string, inSi: string, tolerance?: number])[] = [
  ["mm", "mm", "m"],
  ["in", "in", "m"],
  ["ft", "ft", "m"],
  ["mil", "mil", "m"],
  ["au", "AU", "m", 1e-6],
  ["g", "g", "kg"],
  ["oz", "oz", "kg"],
  ["lb", "lb", "kg"],
  ["t", "tonne", "kg"],
  ["Da", "Da", "kg", 1e-6],
  ["min", "min", "s"],
  ["h", "h", "s"],
  ["d", "day", "s"],
  ["kHz", "kHz", "Hz"],
  ["lbf", "lbf", "N", 1e-6],
  ["psi", "psi", "Pa", 1e-6],
  ["bar", "bar", "Pa"],
  ["kPa", "kPa", "Pa"],
  ["eV", "eV", "J", 1e-7],
  ["kWh", "kW*h", "J"],
  ["mAh", "mA*h", "C"],
  ["kΩ", "kOhm", "Ohm"],
  ["nF", "nF", "F"],
  ["mS", "mS", "S"],
  ["µH", "uH", "H"],
  ["mWb", "mWb", "Wb"],
  ["mT", "mT", "T"],
  ["L", "l", "m3"],
  ["ha", "hectare", "m2"],
  ["in^2", "in2", "m2"],
  ["oz/ft^2", "oz/ft2", "kg/m2"],
  ["lb/ft^3", "lb/ft3", "kg/m3"],
  ["km/h", "km/h", "m/s"],
  ["mW/mm^2", "mW/mm2", "W/m2"],
  ["mA", "mA", "A"],
  ["MV", "MV", "V"],
  ["byte", "byte", "bit"],
  ["°", "deg", "rad"],
  ["%", "%", ""],
  ["ppm", "ppm", ""],
  ["mol", "mol", "mol"],
  ["lm", "lm", "lm"],
  ["lx", "lux", "lux"],
];

describe("our units and a general-purpose library's", () => {
  it("agree on every number in coherent SI", () => {
    const digits = fc.integer({ min: 1, max: 99999 });
    fc.assert(
      fc.property(fc.constantFrom(...UNITS), digits, ([ours, theirs, inSi, tolerance = 1e-9], number) => {
        const [a, b] = [si(`${number} ${ours}`), Qty(`${number} ${theirs}`).to(inSi).scalar];
        assert.ok(Math.abs(a - b) <= tolerance * Math.abs(b), `${number} ${ours}: ${a} and ${b}`);
      }),
      { numRuns: howMany(20000) },
    );
  });

  it("agree on each unit once", () => {
    for (const [ours, theirs, inSi, tolerance = 1e-9] of UNITS) {
      const expected = Qty(`1 ${theirs}`).to(inSi).scalar;
      assert.ok(
        Math.abs(unit(ours).factor / expected - 1) <= tolerance,
        `${ours}: ${unit(ours).factor} and ${expected}`,
      );
    }
  });

  it("agree on temperatures", () => {
    for (const celsius of [-273.15, -40, 0, 25, 85, 125]) {
      assert.ok(Math.abs(si(`${celsius} °C`) - Qty(`${celsius} tempC`).to("tempK").scalar) < 1e-9);
    }
    for (const fahrenheit of [-459.67, -40, 32, 68, 212]) {
      assert.ok(Math.abs(si(`${fahrenheit} °F`) - Qty(`${fahrenheit} tempF`).to("tempK").scalar) < 1e-9);
    }
  });
});

import assert from "node:assert/strict";
import fc from "fast-check";
import { rootBetween } from "../../src/engine/rootFinding";
import { firstOrder } from "../../src/engine/uncertainty";
import { propagate } from "../../src/engine/monteCarlo";
import { finish } from "../../src/engine/slices";
import { Gradient } from "../../src/engine/gradient";
import { howMany } from "../howMany";
import { openNotes } from "../notation";
import { modelOf } from "./models";
import { tells } from "./told";

describe("the root of a function in a bracket", () => {
  it("is that of functions whose root is known, in few evaluations", () => {
    const cases: [(x: number) => number, number, number, number][] = [
      [(x) => x * x - 2, 0, 2, Math.SQRT2],
      [(x) => 2 - x * x, 0, 2, Math.SQRT2],
      [(x) => Math.exp(x) - 5, -10, 10, Math.log(5)],
      [(x) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
      [(x) => (x - 1) ** 3, 0, 3, 1],
    ];
    for (const [f, low, high, root] of cases) {
      let evaluations = 0;
      const found = rootBetween((x) => (evaluations++, f(x)), low, high)!;
      assert.ok(
        Math.abs(found - root) <= 4e-16 * Math.max(1, Math.abs(low), Math.abs(high)) || f(found) === 0,
        `${found}, not ${root}`,
      );
      assert.ok(evaluations <= 60, `${evaluations} evaluations`);
    }
    assert.equal(
      rootBetween((x) => x * x + 1, -1, 1),
      undefined,
    );
  });
});

describe("a quantity that is solved for", () => {
  it("satisfies its equation", () => {
    tells([
      ["let x in 0 .. 2 satisfy x^2 = 2", "1.41421"],
      ["let c in 0 .. 1 satisfy cos(c) = c", "0.739085"],
      ["given I_s = 10 fA", "10 fA"],
      ["let V in 0 .. 1 V satisfy I_s * (exp(V / 25.85 mV) - 1) = (5 V - V) / 1 kΩ", "0.69249 V"],
    ]);
  });

  it("has the range of the closed formula where there is one, and is used like any other", () => {
    tells([
      ["given V = 12 V ± 5 %", ""],
      ["given R = 470 Ω ± 1 %", ""],
      ["given V_0 = 2.8 .. 3.2 V", ""],
      // An LED string with a dynamic resistance: I = (V − V_0) / (R + r).
      ["I = (V - V_0) / (R + 10 Ω)", "16.9 .. 18.8 .. 20.6 mA"],
      ["let J in 1 .. 100 mA satisfy V - J * R = V_0 + J * 10 Ω", "16.9 .. 18.8 .. 20.6 mA"],
      ["must J < 21 mA", "holds"],
    ]);
  });

  it("has its range however wide the bracket is", () => {
    tells([
      ["given a = 1 ± 0.1", ""],
      ["let z in 0 .. 1e9 satisfy exp(z / 1000) = a + 5", "1775 .. 1792 .. 1808"],
      ["let w in 1e-12 .. 1 satisfy w + 1e20 * w^2 = 1e-3 * a", "3e-12 .. 3.16e-12 .. 3.32e-12"],
    ]);
  });

  it("has no range where it could leave the bracket", () => {
    const found = openNotes("    given V = 12 V ± 5 %\n    let I in 1 .. 26 mA satisfy I * 470 Ω = V").findings();
    assert.deepEqual(
      found.map(({ code }) => code),
      ["range.undefined"],
    );
    const twice = openNotes("    given a = 1 ± 0.1\n    let y in -1 .. 1 satisfy y^3 = a - 1").findings();
    assert.deepEqual(
      twice.map(({ message }) => message),
      ["There is no range: inside the limits `-1 .. 1` may hold several solutions, or one where the sides touch only."],
    );
  });

  it("has the derivatives of the implicit function theorem, and at each draw the solution there", () => {
    const { cone, spreads } = modelOf([
      "given a = 2 ± 0.02",
      "given b = 3 ± 0.01",
      "let y in 0 .. 3 satisfy y^3 + a * y = b",
    ]);
    const gradient = new Gradient(cone);
    const place = new Map(cone.inputs.map(({ nominal }, i) => [nominal, i]));
    assert.ok(Math.abs(gradient.at(cone.inputs.map(({ nominal }) => nominal)) - 1) < 1e-15);
    assert.ok(Math.abs(gradient.derivatives[place.get(2)!] + 1 / 5) < 1e-12);
    assert.ok(Math.abs(gradient.derivatives[place.get(3)!] - 1 / 5) < 1e-12);
    const u = firstOrder(cone, spreads).standardUncertainty!;
    assert.ok(Math.abs(u - Math.hypot(0.02, 0.01) / 5 / Math.sqrt(3)) < 1e-12);
    const drawn = finish(propagate(cone, spreads, { seed: "let", trials: 20_000 }));
    assert.ok(Math.abs(drawn.standardDeviation - u) < 0.03 * u);
  });

  it("never leaves its range, whatever the inputs", () => {
    const part = fc.double({ min: 0.2, max: 5, noNaN: true });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    let ranges = 0;
    const property = fc.property(part, part, share, share, share, share, (a, b, width, other, s, t) => {
      const [wide, narrow] = [0.4 * a * width, 0.4 * b * other];
      const text = `    given a = ${a} ± ${wide}\n    given b = ${b} ± ${narrow}\n    let y in -1 .. 9 satisfy y^3 + a * y = b * exp(-y / 4)`;
      const { outcome } = openNotes(text).snapshot().rows[2];
      assert.equal(outcome.kind, "quantity");
      if (outcome.kind !== "quantity") return;
      const [{ low, high, nominal, standing }] = outcome.values;
      assert.ok(Math.abs(nominal ** 3 + a * nominal - b * Math.exp(-nominal / 4)) < 1e-12 * (1 + b));
      if (standing === "undefined") return;
      ranges++;
      const [p, q] = [a + wide * (2 * s - 1), b + narrow * (2 * t - 1)];
      const root = rootBetween((y) => y ** 3 + p * y - q * Math.exp(-y / 4), -1, 9)!;
      assert.ok(root >= low - 1e-12 && root <= high + 1e-12, `${root} is not in ${low} .. ${high}`);
    });
    fc.assert(property, { numRuns: howMany(300) });
    assert.ok(ranges > 0, "no range was looked at");
  });
});

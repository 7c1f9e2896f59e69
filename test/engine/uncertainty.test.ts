import assert from "node:assert/strict";
import fc from "fast-check";
import type { Spread } from "../../src/engine/spread";
import {
  expanded,
  firstOrder,
  sharesOfRange,
  sharesOfVariance,
  variesWithoutSlope,
  type Shares,
} from "../../src/engine/uncertainty";
import { howMany } from "../howMany";
import { lastRange } from "./ranges";
import { modelOf, normal, student } from "./models";

const HELD: Spread = { shape: "held" };

describe("standard uncertainty to first order", () => {
  it("of limits is that of an even spread between them (JCGM 100, 4.3.7)", () => {
    const { cone, spreads } = modelOf(["given V = 12 ± 0.6", "y = 3 * V"]);
    const first = firstOrder(cone, spreads);
    assertClose(first.standardUncertainty!, 1.8 / Math.sqrt(3));
    assert.equal(first.nominal, 36);
    assert.equal(first.mean, 36);
    assert.equal(first.degreesOfFreedom, Infinity);
  });

  it("of minimum, typical and maximum is about the middle of the limits, and the mean is not the nominal value (4.3.8)", () => {
    const { cone, spreads } = modelOf(["given V = 2.8 .. 3 .. 3.6", "y = 10 - 2 * V"]);
    const first = firstOrder(cone, spreads);
    assertClose(first.standardUncertainty!, (2 * 0.4) / Math.sqrt(3));
    assertClose(first.nominal, 4);
    assertClose(first.mean, 3.6);
  });

  it("of correlated inputs takes their covariance (5.2.2)", () => {
    const { cone, spreads, correlations } = modelOf(["given a = 1 ± 1", "given b = 1 ± 1", "y = a - b"], {
      a: normal(3),
      b: normal(4),
    });
    for (const [r, expected] of [
      [0, 5],
      [1, 1],
      [-1, 7],
      [0.5, Math.sqrt(13)],
    ])
      assertClose(firstOrder(cone, spreads, correlations([["a", "b", r]])).standardUncertainty!, expected);
  });

  it("leaves out operating conditions", () => {
    const { cone, spreads } = modelOf(["over T = 0 .. 50", "given k = 2 ± 0.1", "y = k * T"], { T: HELD });
    assertClose(firstOrder(cone, spreads).standardUncertainty!, (25 * 0.1) / Math.sqrt(3));
  });

  it("does not exist where an input that matters has no minimum, and says which", () => {
    const { cone, spreads, place } = modelOf(["given a = .. 3 .. 4", "given b = 1 ± 1", "y = a * b"]);
    const first = firstOrder(cone, spreads);
    assert.equal(first.standardUncertainty, undefined);
    assert.deepEqual(first.unbounded, [place("a")]);
    assert.equal(expanded(first), undefined);
    assert.equal(sharesOfVariance(cone, spreads, first), undefined);
  });

  it("does not exist where the formula has no slope or no value", () => {
    const steep = modelOf(["given a = 0 .. 0 .. 4", "y = sqrt(a)"]);
    assert.equal(firstOrder(steep.cone, steep.spreads).standardUncertainty, undefined);
    const nowhere = modelOf(["given a = -4 .. 2", "y = sqrt(a)"]);
    const first = firstOrder(nowhere.cone, nowhere.spreads);
    assert.equal(first.standardUncertainty, undefined);
    assert.deepEqual(first.unbounded, []);
  });

  it("has the degrees of freedom of readings (G.4.1), unless they are correlated", () => {
    const { cone, spreads, correlations } = modelOf(["given a = 1 ± 1", "given b = 1 ± 1", "y = a + b"], {
      a: student(3, 4),
      b: normal(4),
    });
    const first = firstOrder(cone, spreads);
    assertClose(first.degreesOfFreedom!, 625 / (81 / 4));
    assertClose(expanded(first)!.expandedUncertainty, 5 * 2.0422724563012373);
    assert.equal(firstOrder(cone, spreads, correlations([["a", "b", 0.5]])).degreesOfFreedom, undefined);
    assertClose(firstOrder(cone, spreads, correlations([["a", "b", 0]])).degreesOfFreedom!, 625 / (81 / 4));
  });
});

describe("a formula without a slope at the nominal values", () => {
  const varies = (...lines: readonly string[]) => {
    const { cone, spreads } = modelOf(lines);
    return variesWithoutSlope(cone, spreads, firstOrder(cone, spreads));
  };

  it("is known, so that nobody takes zero for its uncertainty", () => {
    for (const formula of ["x^2", "abs(x)", "abs(x - y)", "x * y", "floor(2.5 + x)", "cos(x)"])
      assert.ok(varies("given x = 0 ± 1", "given y = 0 ± 1", `z = ${formula} + 0 * x * y`), formula);
  });

  it("is told from one that varies by nothing from build to build, and from one with a slope", () => {
    assert.equal(varies("given x = 0 ± 1", "over T = 0 .. 10", "z = T^2 + 0 * x"), false);
    assert.equal(varies("given x = 0 ± 0.1", "z = floor(2.5 + x)"), false);
    assert.equal(varies("given x = 0 ± 1", "z = x + x^2"), false);
  });
});

describe("contributions", () => {
  it("of a sum are its squares, and nothing is left to interactions", () => {
    const { cone, spreads, place } = modelOf(["given a = 1 ± 3", "given b = 1 ± 4", "y = a + b"]);
    const first = firstOrder(cone, spreads);
    const variance = sharesOfVariance(cone, spreads, first)!;
    assertClose(variance.ofInputs[place("a")], 0.36);
    assertClose(variance.ofInputs[place("b")], 0.64);
    assert.equal(variance.interactions, 0);
    const range = sharesOfRange(cone, first, { low: -5, high: 9 })!;
    assertClose(range.ofInputs[place("a")], 3 / 7);
    assertClose(range.interactions, 0);
  });

  it("of a product of two that are zero are interaction, all of it: Var(ab) = u²(a)·u²(b)", () => {
    const { cone, spreads } = modelOf(["given a = 0 ± 2", "given b = 0 ± 3", "y = a * b"]);
    const first = firstOrder(cone, spreads);
    assert.equal(first.standardUncertainty, 0);
    assert.deepEqual(sharesOfVariance(cone, spreads, first), { ofInputs: [0, 0], interactions: 1 });
    assert.deepEqual(sharesOfRange(cone, first, { low: -6, high: 6 }), { ofInputs: [0, 0], interactions: 1 });
  });

  it("of a square have the variance of its shape: even about 1, Var(x²) = 4·u² + 4/45·h⁴", () => {
    const h = 0.5;
    const { cone, spreads } = modelOf([`given a = 1 ± ${h}`, "y = a^2"]);
    const { interactions } = sharesOfVariance(cone, spreads, firstOrder(cone, spreads))!;
    const bent = (4 / 45) * h ** 4;
    assertClose(interactions, bent / ((4 * h * h) / 3 + bent));
  });

  it("of a sum over pieces are those of all pieces written out", () => {
    const leftOf = (...lines: readonly string[]) => {
      const { cone, spreads } = modelOf(lines);
      const first = firstOrder(cone, spreads);
      return { left: sharesOfVariance(cone, spreads, first)!.interactions, u: first.standardUncertainty! };
    };
    const same = (pieces: readonly string[], written: readonly string[]) => {
      const [ours, theirs] = [leftOf(...pieces), leftOf(...written)];
      assert.ok(theirs.left > 0.01, `${theirs.left}`);
      assertClose(ours.left, theirs.left);
      assertClose(ours.u, theirs.u);
    };
    const each = (name: string, n: number, value: string) =>
      Array.from({ length: n }, (_, i) => `given ${name}${i} = ${value}`);
    const sum = (n: number, of: (i: number) => string) => Array.from({ length: n }, (_, i) => of(i)).join(" + ");
    // Each piece bends by itself; then their sum bends; then two inputs of a piece go together, and one that all share.
    same(
      ["given t = 1 ± 0.5 each", "y = total(7, t^2)"],
      [...each("t", 7, "1 ± 0.5"), `y = ${sum(7, (i) => `t${i}^2`)}`],
    );
    same(
      ["given t = 1 ± 0.9 each", "y = total(5, t)^3"],
      [...each("t", 5, "1 ± 0.9"), `y = (${sum(5, (i) => `t${i}`)})^3`],
    );
    same(
      ["given a = 1 ± 0.5 each", "given b = 2 ± 0.9 each", "given c = 3 ± 1", "y = total(4, a * b * c)"],
      [
        ...each("a", 4, "1 ± 0.5"),
        ...each("b", 4, "2 ± 0.9"),
        "given c = 3 ± 1",
        `y = c * (${sum(4, (i) => `a${i} * b${i}`)})`,
      ],
    );
  });

  it("with a correlation share the covariance", () => {
    const { cone, spreads, correlations, place } = modelOf(["given a = 0 ± 1", "given b = 0 ± 1", "y = a + b"], {
      a: normal(1),
      b: normal(2),
    });
    const r = correlations([["a", "b", 0.5]]);
    const { ofInputs, interactions } = sharesOfVariance(cone, spreads, firstOrder(cone, spreads, r), r)!;
    assertClose(ofInputs[place("a")], 2 / 7);
    assertClose(ofInputs[place("b")], 5 / 7);
    assert.equal(interactions, 0);
  });

  it("with a correlation are not told where curvature may outweigh the slope", () => {
    const { cone, spreads } = modelOf(["given x = 1 ± 1", "given y = 0 ± 1", "d = y^2 + 0.001 * x"]);
    const correlations = [{ a: 0, b: 1, r: 0.5 }];
    assert.equal(sharesOfVariance(cone, spreads, firstOrder(cone, spreads, correlations), correlations), undefined);
    assert.ok(sharesOfVariance(cone, spreads, firstOrder(cone, spreads))!.interactions > 0.99);
  });

  it("of a range count operating conditions, and are reduced where the formula saturates", () => {
    const { cone, spreads, place } = modelOf(["over T = -10 .. 10", "given k = 0 ± 10", "y = tanh(T + k)"], {
      T: HELD,
    });
    const first = firstOrder(cone, spreads);
    const { ofInputs, interactions } = sharesOfRange(cone, first, { low: -1, high: 1 })!;
    assertClose(ofInputs[place("T")], 0.5);
    assert.equal(interactions, 0);
  });

  it("do not exist of what does not vary", () => {
    const { cone, spreads } = modelOf(["given a = 1 ± 0.1", "y = floor(a + 0.5)"]);
    const first = firstOrder(cone, spreads);
    assert.equal(sharesOfVariance(cone, spreads, first), undefined);
    assert.equal(sharesOfRange(cone, first, { low: 1, high: 1 }), undefined);
    assert.equal(sharesOfRange(cone, first, { low: -Infinity, high: 1 }), undefined);
  });

  it("add up to 1, whatever the formula", () => {
    const input = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }));
    const term = fc.constantFrom(
      "a * b",
      "b / c",
      "exp(c / 10)",
      "a^2",
      "max(a, b)",
      "sqrt(a + c)",
      "floor(b)",
      "a - a",
    );
    fc.assert(
      fc.property(fc.tuple(input, input, input), fc.array(term, { minLength: 1, maxLength: 4 }), (inputs, terms) => {
        const given = inputs.map(([nominal, percent], i) => `given ${"abc"[i]} = ${nominal} ± ${percent} %`);
        const lines = [...given, `y = ${terms.join(" + ")}`];
        const { cone, spreads } = modelOf(lines);
        const first = firstOrder(cone, spreads);
        const shares = [sharesOfVariance(cone, spreads, first), sharesOfRange(cone, first, lastRange(lines))];
        for (const each of shares) if (each) assertWhole(each);
        if (first.standardUncertainty! > 0) assert.ok(shares.every((each) => each !== undefined));
      }),
      { numRuns: howMany(2000) },
    );
  });
});

function assertWhole({ ofInputs, interactions }: Shares): void {
  const sum = ofInputs.reduce((total, share) => total + share, interactions);
  assert.ok(Math.abs(sum - 1) < 1e-12, `the shares add up to ${sum}`);
  for (const share of [...ofInputs, interactions]) assert.ok(share >= 0 && share <= 1, `a share of ${share}`);
}

function assertClose(actual: number, expected: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-12 * Math.max(1, Math.abs(expected)), `${actual}, not ${expected}`);
}

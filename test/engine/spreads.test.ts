import assert from "node:assert/strict";
import { describe, it } from "mocha";
import type { InputPlace } from "../../src/engine/outcome";
import type { Spread } from "../../src/engine/spread";
import { openNotes } from "../notation";

/** The uncertain input that a statement of one literal makes. */
function inputOf(statement: string): InputPlace {
  const { outcome } = openNotes(`    ${statement}\n`).snapshot().rows[0];
  assert.ok(outcome.kind === "quantity", statement);
  const [{ input }] = outcome.values[0].pushes;
  return input;
}

function spreadOf(statement: string): Spread {
  return inputOf(statement).spread;
}

interface Expected {
  readonly nominal: number;
  readonly u: number;
  readonly degreesOfFreedom: number;
}

function near({ nominal, spread }: InputPlace, expected: Expected): void {
  assert.ok(spread.shape === "student");
  assert.equal(spread.degreesOfFreedom, expected.degreesOfFreedom);
  assert.ok(Math.abs(nominal - expected.nominal) <= 1e-14 * expected.nominal, `${nominal}`);
  assert.ok(Math.abs(spread.standardUncertainty - expected.u) <= 1e-14 * expected.u, `${spread.standardUncertainty}`);
}

describe("the spread of an input", () => {
  it("is even between limits, whatever is typical", () => {
    for (const literal of ["12 V ± 5 %", "2.8 .. 3.2 V", "2.8 .. 3.0 .. 3.2 V", "4k7J"])
      assert.deepEqual(spreadOf(`x = ${literal}`), { shape: "even" }, literal);
  });

  it("is normal where a standard or an expanded uncertainty is stated", () => {
    assert.deepEqual(spreadOf("m = 100.02147(35) g"), { shape: "normal", standardUncertainty: 3.5e-7 });
    const { shape, ...rest } = spreadOf("m = 100.021 g ± 0.79 mg (k = 2.26)");
    assert.equal(shape, "normal");
    assert.ok("standardUncertainty" in rest && Math.abs(rest.standardUncertainty - 0.79e-6 / 2.26) < 1e-20);
  });

  it("is Student's t of readings, about their mean with s/√n, and of a sample, with s·√(1 + 1/n)", () => {
    // Of 4, 6 and 8 the mean is 6 and s is 2.
    near(inputOf("x = readings [4, 6, 8] mV"), { nominal: 6e-3, u: 2e-3 / Math.sqrt(3), degreesOfFreedom: 2 });
    near(inputOf("x = sample [4, 6, 8] mV"), { nominal: 6e-3, u: 2e-3 * Math.sqrt(4 / 3), degreesOfFreedom: 2 });
    near(inputOf("x = readings [4k, 6k, 8k]"), { nominal: 6e3, u: 2e3 / Math.sqrt(3), degreesOfFreedom: 2 });
    near(inputOf("T = readings [20, 22, 24] °C"), { nominal: 295.15, u: 2 / Math.sqrt(3), degreesOfFreedom: 2 });
  });

  it("counts in a worst case as ± 3 standard uncertainties where it is normal", () => {
    const { nominal, low, high } = inputOf("m = 100(2) g");
    assert.ok(Math.abs(nominal - 0.1) < 1e-15 && Math.abs(low - 0.094) < 1e-15 && Math.abs(high - 0.106) < 1e-15);
  });

  it("counts by the quantile of t for 99.73 % where it is known from readings (JCGM 100, table G.2: 19.21 and 4.09)", () => {
    const factor = (statement: string) => {
      const { nominal, high, spread } = inputOf(statement);
      assert.ok(spread.shape === "student");
      return (high - nominal) / spread.standardUncertainty;
    };
    assert.ok(Math.abs(factor("x = readings [4, 6, 8] V") - 19.21) < 0.005);
    assert.ok(Math.abs(factor("x = readings [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] V") - 4.09) < 0.005);
  });

  it("is lost where readings agree wholly: they are an exact number", () => {
    const { outcome } = openNotes("    x = readings [5, 5] V\n").snapshot().rows[0];
    assert.ok(outcome.kind === "quantity");
    assert.equal(outcome.values[0].standing, "exact");
  });

  it("is none of an operating condition, which every build passes through", () => {
    assert.deepEqual(spreadOf("over T = -20 .. 50 °C"), { shape: "held" });
  });
});

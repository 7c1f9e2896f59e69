import assert from "node:assert/strict";
import { describe, it } from "mocha";
import type { Spread } from "../../src/engine/spread";
import { openNotes } from "../notation";

/** The spread of the uncertain input that a statement of one literal makes. */
function spreadOf(statement: string): Spread {
  const { outcome } = openNotes(`    ${statement}\n`).snapshot().rows[0];
  assert.ok(outcome.kind === "quantity", statement);
  const [{ input }] = outcome.values[0].pushes;
  return input.spread;
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

  it("is none of an operating condition, which every build passes through", () => {
    assert.deepEqual(spreadOf("over T = -20 .. 50 °C"), { shape: "held" });
  });
});

import assert from "node:assert/strict";
import { lastRange } from "./ranges";

/** A result that jumps by what several ways lead to: the search goes over what it is made of. */
describe("true ranges: what is rounded in the end", () => {
  const DIVIDER = ["given V = 3 V ± 1 %", "given R = 1 kΩ ± 5 %", "given S = 1 kΩ ± 5 %", "out = V * R / (R + S)"];
  const range = (...lines: readonly string[]) => lastRange([...DIVIDER, ...lines]);

  it("is found for a quotient whose sides share inputs", () => {
    const { kind, low, high, bestLow, bestHigh, lowAt } = range("code = floor(out / V * 4096)");
    assert.deepEqual([kind, low, high, bestLow, bestHigh], ["attained", 1945, 2150, 1945, 2150]);
    assert.deepEqual([lowAt.R, lowAt.S], [950, 1050]);
  });

  it("is found where the last steps fall, and where more than one jumps", () => {
    const falling = range("code = 5 - 2 * ceil(out / V * 4096)");
    assert.deepEqual(
      [falling.kind, Math.round(falling.low), Math.round(falling.high)],
      ["attained", 5 - 2 * 2151, 5 - 2 * 1946],
    );
    assert.deepEqual([falling.lowAt.R, falling.highAt.R], [1050, 950]);
    const twice = range("code = min(floor(round(out / V * 4096) / 4) + 1, 500)");
    assert.deepEqual([twice.kind, Math.round(twice.low), twice.high], ["attained", 487, 500]);
  });

  it("has the sign of a rule's margin by the rounded value", () => {
    const { low, high } = lastRange([...DIVIDER, "code = floor(out / V * 4096)", "must code <= 4095"], {
      budgetOnceSignProved: 0,
    });
    assert.ok(high < 0 && low < high, `${low} .. ${high}`);
  });

  it("is left as it is where what comes last turns", () => {
    const { low, high } = range("x = out / V - 0.5", "y = abs(floor(100 * x))");
    assert.ok(low === 0 && high >= 3, `${low} .. ${high}`);
  });
});

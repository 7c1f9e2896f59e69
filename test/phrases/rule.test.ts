import assert from "node:assert/strict";
import { Program } from "../../src/engine/program";
import type { RuleOutcome } from "../../src/engine/outcome";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { rulePhrase } from "../../src/phrases/rule";

/** The rules of a note, in words. */
function phrases(text: string): readonly string[] {
  const program = new Program(WHOLE_PARTS);
  program.setText("n", text);
  program.settle();
  const outcomes = program.snapshot("n")!.rows.map(({ outcome }) => outcome);
  return outcomes.filter((outcome): outcome is RuleOutcome => outcome.kind === "rule").map(rulePhrase);
}

describe("a rule in words", () => {
  it("tells of the row that has the least to spare, in units as in per cent", () => {
    assert.deepEqual(
      phrases(`
| t: | qty | heat [°C] | short |
| - | - | - | - |
| a | 112 | 40 °C | -1 |
| b | 8 | 12 °C | -7 |
| c | 1 | 25 °C | -3 |

    must t.qty > 0
    must t.heat >= 5 °C
    must t.short >= 0
    must t.qty > 0.5
`),
      ["holds, 1 to spare", "holds, 7 K to spare", "fails, b, c and a, 7 short", "holds, 100 % to spare"],
    );
  });

  it("says that nothing is left where both sides meet", () => {
    assert.deepEqual(
      phrases(`    given x = 0 .. 2 mm
    must x >= 0 mm
    must x <= 2 mm
    must x > 0 mm
    must x < 2 mm
    must 1 mm < 1 mm
    should 1 mm <= 1 mm
`),
      [
        "holds, nothing to spare",
        "holds, nothing to spare",
        "fails at the limits, fewer than 1 build in 1000, both sides equal at x 0 mm",
        "fails at the limits, fewer than 1 build in 1000, both sides equal at x 2 mm",
        "fails, both sides equal",
        "holds, nothing to spare",
      ],
    );
  });

  it("tells inputs that are alike together, at the worst point", () => {
    assert.deepEqual(
      phrases(`    given contact = 10 .. 20 .. 40 mΩ each
    given V_f = 2.2 .. 2.5 .. 2.8 V each
    must contact + another contact + another contact <= 100 mΩ
    must contact + another contact + another contact - another contact <= 80 mΩ
    must total(3, V_f) + total(3, V_f) <= 16 V
    must total(3, V_f) <= 8 V
    must 10 V ± 2 % + 10 V ± 2 % <= 20.3 V
`).map((phrase) => phrase.replace(/^.* at /, "")),
      [
        "every contact 40 mΩ",
        "3 × contact 40 mΩ, another contact 10 mΩ",
        "every V_f 2.8 V",
        "each V_f 2.8 V",
        "2 × 10.2 V of 10 V ± 2 %",
      ],
    );
  });

  describe("with a share of builds", () => {
    it("tells what the worst build is short apart from it", () => {
      const [kept, short] = phrases(
        "    given x = 0 .. 1 V\n    must x <= 0.9 V in 80 % of builds\n    must x <= 0.9 V in 99 % of builds\n",
      );
      assert.match(kept, /^holds, (89\.\d|90(\.\d)?) % of builds keep it, 80 % asked for$/);
      assert.match(
        short,
        /^fails at the limits, (89\.\d|90(\.\d)?) % of builds keep it, 99 % asked for, the worst build 11 % short at x 1 V$/,
      );
    });

    /** A rule of which trials said so. */
    const tried = (kept: number, trials: number, required?: number, reaches?: boolean): RuleOutcome => {
      const [low, high] = wilson(kept, trials);
      const builds = { isTried: true, trials, share: kept / trials, low, high, at: [] } as const;
      return {
        kind: "rule",
        word: "must",
        state: reaches ? "holds" : "failsAtLimits",
        clauses: [],
        problems: [],
        ...(required === undefined ? {} : { required }),
        builds: reaches === undefined ? builds : { ...builds, reaches },
      };
    };
    const failing = (kept: number, trials: number) =>
      rulePhrase(tried(kept, trials)).replace("fails at the limits, ", "");
    const kept = (count: number, trials: number, required: number, reaches: boolean) =>
      rulePhrase(tried(count, trials, required, reaches)).replace(/^(holds|fails at the limits), /, "");

    it("counts those that fail in no more than the trials bear", () => {
      assert.equal(failing(7300, 10_000), "27 builds in 100");
      assert.equal(failing(9970, 10_000), "3 builds in 1000");
      assert.equal(failing(9991, 10_000), "1 build in 1000");
      assert.equal(failing(1_999_600, 2_000_000), "2 builds in 10000");
      assert.equal(failing(73, 100), "3 builds in 10");
    });

    it("does not tell apart none and hardly any", () => {
      assert.equal(failing(9998, 10_000), "fewer than 1 build in 1000");
      assert.equal(failing(10_000, 10_000), "fewer than 1 build in 1000");
      assert.equal(failing(100, 100), "fewer than 1 build in 10");
      assert.equal(failing(1_000_000, 1_000_000), "fewer than 1 build in 100000");
    });

    it("says of what was tried that it always failed", () => assert.equal(failing(0, 10_000), "every build tried"));

    it("has the digits that the trials bear", () => {
      assert.equal(kept(98_712, 100_000, 0.95, true), "98.7 % of builds keep it, 95 % asked for");
      assert.equal(kept(1_999_600, 2_000_000, 0.9999, false), "99.98 % of builds keep it, 99.99 % asked for");
      assert.equal(kept(9020, 10_000, 0.999, false), "90 % of builds keep it, 99.9 % asked for");
    });

    it("never claims all of them, or none", () => {
      assert.equal(kept(10_000, 10_000, 0.95, true), "more than 99.9 % of builds keep it, 95 % asked for");
      assert.equal(kept(9999, 10_000, 0.95, true), "more than 99.9 % of builds keep it, 95 % asked for");
      assert.equal(kept(29_987, 30_000, 0.9999, false), "more than 99.9 % of builds keep it, 99.99 % asked for");
      assert.equal(kept(50, 50, 0.5, true), "more than 92 % of builds keep it, 50 % asked for");
      assert.equal(kept(0, 10_000, 0.95, false), "fewer than 0.1 % of builds keep it, 95 % asked for");
    });

    it("has digits enough to be seen on its side of the share that is asked for", () => {
      assert.equal(kept(949_600, 1_000_000, 0.95, false), "94.96 % of builds keep it, 95 % asked for");
      assert.equal(kept(100_000, 100_000, 0.9995, true), "more than 99.99 % of builds keep it, 99.95 % asked for");
      assert.equal(kept(30_000, 30_000, 0.9985, true), "more than 99.9 % of builds keep it, 99.85 % asked for");
      assert.equal(kept(19_999, 20_000, 0.9995, true), "more than 99.97 % of builds keep it, 99.95 % asked for");
    });
  });
});

/** E. B. Wilson's interval of 95 %. */
function wilson(kept: number, trials: number): readonly [number, number] {
  const [share, z] = [kept / trials, 1.96];
  const weight = 1 + (z * z) / trials;
  const middle = (share + (z * z) / (2 * trials)) / weight;
  const half = (z / weight) * Math.sqrt((share * (1 - share)) / trials + (z * z) / (4 * trials * trials));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

import assert from "node:assert/strict";
import { rulePhrase, worstInputsOf } from "../../src/phrases/rule";
import { openNotes } from "../notation";

/** Rules that are no plain comparison, and `!=`, which fails inside a range as well as at its ends. */
describe("a rule with not, or and !=", () => {
  const INPUTS = "    given V = 12 V ± 5 %\n    given W = 12 V ± 5 %\n    a = V / 1 kΩ\n";
  const judged = (rule: string) => {
    const outcome = openNotes(`${INPUTS}    must ${rule}\n`).program.snapshot("note.calcs.md")!.rows.at(-1)!.outcome;
    assert.ok(outcome.kind === "rule");
    return outcome;
  };

  for (const [rule, plain] of [
    ["not (V > 12.5 V)", "V <= 12.5 V"],
    ["not V > 12.5 V", "V <= 12.5 V"],
    ["not (V < 11.5 V)", "V >= 11.5 V"],
    ["not (not (V < 12.5 V))", "V < 12.5 V"],
    ["not (V > 13 V)", "V <= 13 V"],
    ["not V = 12.3 V", "V != 12.3 V"],
  ])
    it(`${rule} is judged as ${plain}`, () => {
      assert.equal(rulePhrase(judged(rule)), rulePhrase(judged(plain)));
      assert.deepEqual(worstInputsOf(judged(rule)), worstInputsOf(judged(plain)));
    });

  for (const [rule, at] of [
    ["V != 12.3 V", ["V 12.3 V"]],
    ["V != 12.6 V", ["V 12.6 V"]],
    ["V != 11.4 V", ["V 11.4 V"]],
    ["a != 11.9 mA", ["V 11.9 V"]],
    ["not (V > 12.5 V and W > 12.5 V)", ["V 12.6 V", "W 12.6 V"]],
  ] as const)
    it(`${rule} fails at ${at.join(", ")}`, () => {
      assert.equal(judged(rule).state, "failsAtLimits");
      assert.deepEqual(worstInputsOf(judged(rule)), at);
    });

  it("is false somewhere in a region", () => {
    const at = (rule: string) => {
      const { state, failsAt } = judged(rule);
      assert.equal(state, "failsAtLimits");
      return failsAt!.map(({ value }) => value);
    };
    const [v] = at("not (V inside 12.3 .. 12.5 V)");
    assert.ok(v >= 12.3 && v <= 12.5, `${v}`);
    const [x, y] = at("V > 12.1 V or W < 12.1 V");
    assert.ok(x < 12.1 + 1e-9 && y > 12.1 - 1e-9, `${x}, ${y}`);
  });

  it("fails where the sides of two inputs meet", () => {
    const { state, clauses } = judged("V + W != 24.5 V");
    assert.equal(state, "failsAtLimits");
    const sum = clauses[0].failsAt!.reduce((total, { value }) => total + value, 0);
    assert.ok(Math.abs(sum - 24.5) < 1e-9, `${sum}`);
  });

  it("holds where no counter-example is within the limits, and names no point where it fails at the nominal values", () => {
    for (const rule of [
      "V > 11 V or W < 12.1 V",
      "V != 13 V",
      "not (V > 12.5 V and W < 11 V)",
      "V > 12.1 V or V < 12.2 V",
    ])
      assert.equal(judged(rule).state, "holds", rule);
    assert.equal(judged("a != 12 mA").state, "fails");
    assert.deepEqual(worstInputsOf(judged("a != 12 mA")), []);
  });

  it("names the end nearest to what a value must not be", () => {
    assert.deepEqual(worstInputsOf(judged("V != 13 V")), ["V 12.6 V"]);
    assert.deepEqual(worstInputsOf(judged("V != 11 V")), ["V 11.4 V"]);
  });
});

import assert from "node:assert/strict";
import type { RuleOutcome } from "../../src/engine/outcome";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { rulePhrase } from "../../src/phrases/rule";

/** Rules against an input that is spread evenly from 0 to 1 V, whose shares can be read off. */
const EVEN = "    assume x = 0 .. 1 V\n";

function rulesOf(text: string): readonly RuleOutcome[] {
  const program = new Program(WHOLE_PARTS);
  program.setText("n", text);
  program.settle();
  const outcomes = program.snapshot("n")!.rows.map(({ outcome }) => outcome);
  return outcomes.filter((outcome): outcome is RuleOutcome => outcome.kind === "rule");
}

function triedShare(rule: RuleOutcome): number {
  assert.ok(rule.builds?.isTried, "It was not tried.");
  return rule.builds.share;
}

describe("the share of builds", () => {
  it("is told of a rule that fails at the limits", () => {
    const [rule] = rulesOf(`${EVEN}    must x <= 0.9 V\n`);
    assert.equal(rule.state, "failsAtLimits");
    assert.ok(Math.abs(triedShare(rule) - 0.9) < 0.002, `${triedShare(rule)}`);
    assert.match(rulePhrase(rule), /^fails at the limits, 10 builds in 100, 11 % short at x 1 V$/);
  });

  it("is of the rule as a whole: chained, joined by and, row by row", () => {
    const rules = rulesOf(
      `${EVEN}    assume y = 0 .. 1 V\n    must 0.1 V <= x <= 0.9 V\n    must x <= 0.9 V and y <= 0.9 V\n    must [x, y] <= 0.9 V\n`,
    );
    const shares = rules.map(triedShare);
    [0.8, 0.81, 0.81].forEach((share, i) => assert.ok(Math.abs(shares[i] - share) < 0.002, `${shares[i]}`));
  });

  it("decides a rule that asks for so many builds", () => {
    const rules = rulesOf(
      `${EVEN}    must x <= 0.9 V in 85 % of builds\n    must x <= 0.9 V in 95 % of builds\n    must x <= 0.9 V in 90 % of builds\n    must x <= 2 V in 99 % of builds\n`,
    );
    assert.deepEqual(
      rules.map(({ state }) => state),
      ["holds", "failsAtLimits", "undecided", "holds"],
    );
    assert.match(rulePhrase(rules[0]), /^holds, (89\.\d|90(\.\d)?) % of builds keep it, 85 % asked for$/);
    assert.match(
      rulePhrase(rules[1]),
      /^fails at the limits, (89\.\d|90(\.\d)?) % of builds keep it, 95 % asked for, the worst build 11 % short at x 1 V$/,
    );
    assert.match(rulePhrase(rules[2]), /^undecided, its share of builds is too near to what it asks for$/);
    assert.equal(rules[3].builds, undefined, "What holds throughout the limits needs no trials.");
  });

  it("is that at the operating condition where the fewest keep it", () => {
    const [rule] = rulesOf(`${EVEN}    over a = 0 .. 0.5 V\n    must x + a <= 1.2 V in 60 % of builds\n`);
    // At a = 0.5 V builds up to 0.7 V keep it; at a = 0 all.
    assert.ok(Math.abs(triedShare(rule) - 0.7) < 0.002, `${triedShare(rule)}`);
    assert.equal(rule.state, "holds");
    assert.ok(rule.builds?.isTried);
    assert.deepEqual(
      rule.builds.at.map(({ input, value }) => [input.name, value]),
      [["a", 0.5]],
    );
  });

  it("is not asked of conditions alone, nor of a rule without a value", () => {
    const [over, none] = rulesOf(
      "    over a = 0 .. 1 V\n    must a <= 0.5 V\n    must a * 1 / 0 < 1 V in 90 % of builds\n",
    );
    assert.equal(over.state, "failsAtLimits");
    assert.deepEqual(over.builds, { isTried: false });
    assert.equal(none.state, "undecided");
    assert.equal(none.builds, undefined);
  });

  it("is the same for the same note, however it came to be", () => {
    const text = `${EVEN}    must x <= 0.9 V\n`;
    const [scratch] = rulesOf(text);
    const program = new Program(WHOLE_PARTS);
    program.setText("n", text.replace("0.9", "0.8"));
    program.settle();
    program.setText("n", text);
    program.update();
    const pending = program.snapshot("n")!.rows[1].outcome as RuleOutcome;
    assert.equal(pending.builds, undefined, "What was said of the note before is gone at once.");
    program.search(() => false);
    assert.deepEqual((program.snapshot("n")!.rows[1].outcome as RuleOutcome).builds, scratch.builds);
  });

  it("follows the correlations of its inputs, whatever line of theirs is edited", () => {
    const text = (line: string) =>
      `    given A = 12 V ± 5 %\n    given B = 1 V ± 0.1 V\n    ${line}\n    must A + B <= 13.5 V in 90 % of builds\n`;
    const program = new Program(WHOLE_PARTS);
    program.setText("n", text("correlation A, B = 0.9"));
    program.settle();
    const lines = ["correlation A, B = -0.9", "", "correlation A, B = 0.9", "correlation A, C = 0.9"];
    for (const line of lines) {
      program.setText("n", text(line));
      program.settle();
      const rule = program.snapshot("n")!.rows.at(-1)!.outcome as RuleOutcome;
      const [fresh] = rulesOf(text(line));
      assert.deepEqual([rule.state, triedShare(rule)], [fresh.state, triedShare(fresh)], line);
    }
  });

  describe("with a number of trials that was asked for", () => {
    const programWith = (trials: number, text: string) => {
      const program = new Program(WHOLE_PARTS);
      program.trialsFor = () => trials;
      program.setText("n", text);
      program.update();
      return program;
    };
    const ruleOf = (program: Program) => program.snapshot("n")!.rows[1].outcome as RuleOutcome;

    it("is that of so many", () => {
      const program = programWith(1234, `${EVEN}    must x <= 0.9 V\n`);
      program.settle();
      const { builds } = ruleOf(program);
      assert.ok(builds?.isTried);
      assert.deepEqual([builds.trials, builds.isCountAsked], [1234, true]);
    });

    it("does not decide where they are too few", () => {
      const program = programWith(100, `${EVEN}    must x <= 0.9 V in 85 % of builds\n`);
      program.settle();
      const reason = "100 trials are too few to tell its share of builds from what it asks for";
      assert.equal(rulePhrase(ruleOf(program)), `undecided, ${reason}`);
    });

    it("comes in slices, each farther than the one before, and can be stopped and taken up again", () => {
      const program = programWith(5_000_000, `${EVEN}    must x <= 0.9 V in 85 % of builds\n`);
      const { remaining } = program;
      let left = 0;
      const seen: number[] = [];
      for (let slice = 0; slice < 5; slice++) {
        left = 4;
        program.search(() => left-- <= 0);
        seen.push(remaining.progressOfTrials!);
      }
      assert.ok(
        seen.every((share, i) => share < 1 && share > (seen[i - 1] ?? 0)),
        seen.join(", "),
      );
      remaining.stopTrials();
      assert.ok(program.isSettled);
      assert.equal(rulePhrase(ruleOf(program)), "undecided, the trials of its builds were stopped");
      program.trialsFor = () => 20_000;
      program.retryBuilds("stopped");
      program.settle();
      assert.match(rulePhrase(ruleOf(program)), /^holds, (89\.\d|90(\.\d)?) % of builds keep it, 85 % asked for$/);
    });

    it("is found anew where another number is asked for", () => {
      const program = programWith(1000, `${EVEN}    must x <= 0.9 V\n`);
      program.settle();
      program.trialsFor = () => 2000;
      program.retryBuilds("all");
      program.settle();
      const { builds } = ruleOf(program);
      assert.ok(builds?.isTried);
      assert.equal(builds.trials, 2000);
    });
  });

  it("is kept while something is tried and put back", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText("n", `${EVEN}    must x <= 0.9 V\n`);
    program.settle();
    const builds = () => (program.snapshot("n")!.rows[1].outcome as RuleOutcome).builds;
    const before = builds();
    program.whatIf("n", [{ span: { start: 15, end: 16 }, text: "0.5" }], () => assert.equal(builds(), undefined));
    assert.equal(builds(), before);
    assert.ok(program.isSettled);
  });
});

import assert from "node:assert/strict";
import { openNotes } from "../notation";

/** Decimal fractions behave as on paper, also where a difference should be nothing. */
describe("decimal fractions", () => {
  const NOTE = `
    rest = 0.3 A - 0.1 A - 0.2 A
    spare = 5 V - 4.9 V - 0.1 V
    steps = floor(0.3 - 0.1 - 0.2)
    way = if rest >= 0 A then 1 else 2
    tiny = 1 V - 0.999999 V
    V = 5 V ± 1 %
    left = V - V * 0.1 - V * 0.9
    must rest >= 0 A
    must rest = 0 A
    must 0.1 V + 0.2 V - 0.3 V <= 0 V
    must left >= 0 V
`;
  const { rows } = openNotes(NOTE).program.snapshot("note.calcs.md")!;
  const nominal = (name: string) => {
    const outcome = rows.find(({ outcome: o }) => o.kind === "quantity" && o.name === name)!.outcome;
    assert.ok(outcome.kind === "quantity");
    return outcome.values[0].nominal;
  };

  it("cancel exactly", () => {
    assert.deepEqual(["rest", "spare", "steps", "way"].map(nominal), [0, 0, 0, 1]);
  });

  it("keep a difference that is one", () => {
    assert.ok(Math.abs(nominal("tiny") - 1e-6) < 1e-15);
  });

  it("do not fail a rule that is met exactly", () => {
    const states = rows.flatMap(({ outcome }) => (outcome.kind === "rule" ? [outcome.state] : []));
    assert.deepEqual(states.slice(0, 3), ["holds", "holds", "holds"]);
  });
});

import assert from "node:assert/strict";
import { openNotes } from "../notation";

/** A data sheet that gives no minimum gives no lower end, and a rule that needs one is not decided. */
describe("a quantity without a minimum", () => {
  const NOTE = `
    assume V_f = .. 3.0 .. 3.2 V from "LED sheet"
    burden = 12 V - 3 * V_f
    must V_f <= 3.3 V
    must V_f >= 2.5 V
    must burden >= 2 V
    must burden <= 6 V
`;

  const rules = () => {
    const { rows } = openNotes(NOTE).program.snapshot("note.calcs.md")!;
    return rows.flatMap(({ outcome }) => (outcome.kind === "rule" ? [outcome] : []));
  };

  it("decides the rules that need its maximum only", () => {
    assert.deepEqual(
      rules().map(({ state }) => state),
      ["holds", "undecided", "holds", "undecided"],
    );
  });

  it("says which minimum is missing", () => {
    assert.deepEqual(
      rules().map(({ reason }) => reason),
      [undefined, "no minimum of V_f is known", undefined, "no minimum of V_f is known"],
    );
  });

  it("does not call the open end a trouble of the operation", () => {
    for (const { problems } of rules()) assert.deepEqual(problems, []);
  });
});

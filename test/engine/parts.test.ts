import assert from "node:assert/strict";
import { HeldNotes } from "../../src/heldNotes";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";

const PATH = "n.calcs.md";

/** An equation, a rule that most builds keep, a range that is searched for, and an end of it. */
const TEXT = `    V = 5 V ± 5 %
    I_max = 51 mA
    let I in 1 .. 100 mA satisfy V = I * 100 Ω
    twice = 2 * I
    must I < I_max in 60 % of builds
    wide = V * (6 V - V)
    least = lowest(wide)
    lowest_supply = min(net.supply)
    worst = min(with_open(net.b.supply))

| net: | from | to | R           | V   | I   |
| ---- | ---- | -- | ----------- | --- | --- |
| s    | 0V   | n  |             | 5 V |     |
| r    | n    | m  | 1 Ω ± 10 %  |     |     |
| q    | n    | m  | 1 Ω ± 10 %  |     |     |
| b    | m    | 0V |             |     | 1 A |
`;

const ALL = ["V", "I_max", "I", "twice", "wide", "least", "lowest_supply", "worst"];

describe("what only some notes need", () => {
  it("comes after the first values, and then what waited for it is worked out", () => {
    const late = new Program(undefined);
    late.setText(PATH, TEXT);
    late.settle();
    assert.deepEqual(valuesOf(late), ["V", "I_max", "wide", "least"]);
    assert.equal(late.isSettled, true);
    late.takeParts(WHOLE_PARTS);
    late.settle();
    assert.deepEqual(valuesOf(late), ALL);
    const early = new Program(WHOLE_PARTS);
    early.setText(PATH, TEXT);
    early.settle();
    const outcomes = (program: Program) => program.snapshot(PATH)!.columns.outcomes;
    assert.deepEqual(outcomes(late), outcomes(early));
    const rule = outcomes(early)[4];
    assert.ok(rule.kind === "rule" && rule.builds?.isTried);
  });

  it("is read when a note asks for it, once", async () => {
    let reads = 0;
    const nothing = { read: () => Promise.resolve({ trouble: "missing", detail: "" } as const) };
    const held = new HeldNotes(nothing, "at once", () => Promise.resolve((reads++, WHOLE_PARTS)));
    held.open("plain.calcs.md", "    a = 1 V\n");
    await held.load();
    assert.equal(reads, 0);
    held.open(PATH, TEXT);
    await held.load();
    held.open("other.calcs.md", TEXT);
    await held.load();
    assert.equal(reads, 1);
    assert.deepEqual(valuesOf(held.program), ALL);
  });
});

/** The names that have a value. */
function valuesOf(program: Program): readonly string[] {
  return program
    .snapshot(PATH)!
    .columns.outcomes.flatMap((outcome) =>
      outcome.kind === "quantity" && outcome.values.length > 0 ? [outcome.name] : [],
    );
}

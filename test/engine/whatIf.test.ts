import assert from "node:assert/strict";
import type { Entry } from "../../src/engine/entry";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { finish } from "../../src/engine/slices";

const PATH = "n";

/** Two ranges that take many slices to search, and a rule whose share of builds takes trials. */
const NOTE = `
    given x = 0 .. 3
    given y = 1 .. 3
    s = x * y
    r = sin(9 * s) + cos(7 * y - 5 * x)
    must r * r - s / (1 + s^2) <= 9
    must x <= 2.7 in 85 % of builds
`;

describe("a look at what would be", () => {
  const at = NOTE.indexOf("0 .. 3");
  const edits = [{ span: { start: at, end: at + 1 }, text: "0.5" }];
  const programOf = () => {
    const program = new Program(WHOLE_PARTS);
    program.setText(PATH, NOTE);
    program.settle();
    return program;
  };
  const FEW = 15;

  it("takes no more slices than it is given, and says what remains", () => {
    const program = programOf();
    const before = program.remaining.slices;
    const rest = program.whatIf(PATH, edits, () => program.remainingOfUpdate().length, FEW);
    assert.ok(rest > 0, "The note was meant to take longer.");
    // The trial and its undoing have so many each; one slice of trials counts for several.
    assert.ok(program.remaining.slices - before <= 3 * FEW, `${program.remaining.slices - before}`);
  });

  it("finds it all at once when what remains has been worked out, whatever was edited meanwhile", () => {
    const program = programOf();
    const runs = program.whatIf(PATH, edits, () => program.remainingOfUpdate(), FEW);
    for (const [i, run] of runs.entries()) {
      for (let slice = 0; slice < 3; slice++) run.next();
      program.setText(PATH, `${NOTE}    z${i} = 1\n`);
      program.settle();
      finish(run);
    }
    program.setText(PATH, NOTE);
    program.settle();
    const before = program.remaining.slices;
    const seen = program.whatIf(PATH, edits, () => [program.isSettled, outcomes(program)] as const, 1);
    assert.equal(seen[0], true);
    assert.equal(program.remaining.slices, before);
    const fresh = new Program(WHOLE_PARTS);
    fresh.setText(PATH, NOTE.replace("0 .. 3", "0.5 .. 3"));
    fresh.settle();
    assert.deepEqual(seen[1], outcomes(fresh));
  });

  it("leaves alone what is still to be searched elsewhere", () => {
    const program = programOf();
    const other = NOTE.replace("0 .. 3", "0 .. 2.9");
    program.setText("other", other);
    program.update();
    const pending = () => [...program.notes.get("other")!.entries()].filter(({ isPending }: Entry) => isPending).length;
    const before = pending();
    assert.ok(before > 0);
    const count = (of: Program) => of.whatIf(PATH, edits, () => of.remainingOfUpdate().length, 0);
    assert.equal(count(program), count(programOf()));
    assert.equal(pending(), before);
    program.settle();
    assert.equal(pending(), 0);
  });
});

function outcomes(program: Program): unknown {
  return JSON.parse(JSON.stringify(program.snapshot(PATH)!.rows.map(({ outcome }) => outcome))) as unknown;
}

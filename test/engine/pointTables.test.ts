import assert from "node:assert/strict";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { hold, howManyTables, letGo, pointTable, tableAt } from "../../src/engine/pointTables";

const PATH = "note.calcs.md";

describe("tables of points", () => {
  it("are one where they are equal, and kept as long as they are held", () => {
    const number = pointTable([0, 1], [2, 4]);
    assert.equal(pointTable([0, 1], [2, 4]), number);
    assert.notEqual(pointTable([0, 1], [2, 4], "smooth"), number);
    hold(number);
    for (let i = 0; i < 3000; i++) pointTable([0, 1], [i, 0.5]);
    assert.deepEqual([...tableAt(number)!.values], [2, 4]);
    letGo(number);
    assert.equal(pointTable([0, 1], [2, 4]), number, "It is found again right after.");
    for (let i = 0; i < 3000; i++) pointTable([0, 1], [i, 0.25]);
    assert.equal(tableAt(number), undefined);
    assert.notEqual(pointTable([0, 1], [2, 4]), number, "No number means two tables.");
  });
});

/** An editor is open all day, and something is typed into a number that look-ups and a solution rest on. */
describe("what typing leaves behind", () => {
  const noteOf = (x: number) => `
    R = 100.${x} Ω
    f = interpolate(3, [0, 5], [1, 2.${x}])
    g = lookup(2, [0, 1, 4], [5.${x}, 6, 7])
    let I in 0 .. 1 A satisfy I * R + 1 mV * exp(I / 26 mA) = 12 V
`;

  it("is bounded: tables and constants go with the definitions that had them", () => {
    const program = new Program(WHOLE_PARTS);
    const type = (x: number) => {
      program.setText(PATH, noteOf(x));
      program.update();
      const { outcome } = program.snapshot(PATH)!.find("I")!;
      assert.ok(outcome.kind === "quantity" && outcome.values.length === 1);
    };
    type(100);
    const slotsBefore = program.slots.takeOne();
    let most = 0;
    for (let x = 101; x < 700; x++) {
      type(x);
      if (x === 500) most = howManyTables();
    }
    assert.ok(howManyTables() <= most, `${most} tables after 400 edits, ${howManyTables()} after 600`);
    const slots = program.slots.takeOne() - slotsBefore;
    assert.ok(slots < 100, `${slots} slots more after 600 edits`);
  });
});

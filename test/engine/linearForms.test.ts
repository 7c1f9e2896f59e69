import assert from "node:assert/strict";
import fc from "fast-check";
import { BoxRunner } from "../../src/engine/boxRunner";
import { coneOf, type Cone } from "../../src/engine/cone";
import { Gradient } from "../../src/engine/gradient";
import { LinearForms } from "../../src/engine/linearForms";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { trueRange } from "../../src/engine/trueRange";
import { oneRange } from "../bench/notes";
import { howMany } from "../howMany";
import { expression, inputBox, inputLines } from "../laws/expressions";
import { programOf } from "./ranges";

function coneOfLast(lines: readonly string[]): Cone {
  const program = programOf(...lines);
  return coneOf(program, [...program.notes.get("note.calcs.md")!.entries()].at(-1)!, 0);
}

/** A run over the whole box, by intervals and then by forms; undefined where the result has no range. */
function narrowed(cone: Cone): BoxRunner | undefined {
  const runner = new BoxRunner(cone);
  const box = Float64Array.from(cone.inputs.flatMap(({ low, high }) => [low, high]));
  runner.forward(box);
  if (Number.isNaN(runner.low[cone.result])) return undefined;
  runner.backward();
  new LinearForms(runner).narrow(box);
  return runner;
}

describe("linear forms", () => {
  it("leave out no value of any register, and no derivative of the result", () => {
    let compared = 0;
    // Inside: at an edge a kink may begin, whose other side is not in the box.
    const shares = fc.array(fc.double({ min: 0.01, max: 0.99, noNaN: true }), { minLength: 3, maxLength: 3 });
    const points = fc.array(shares, { minLength: 6, maxLength: 6 });
    const law = fc.property(expression, inputBox, points, ({ text }, box, all) => {
      const cone = coneOfLast([...inputLines(box).map((line) => `given ${line}`), `result = ${text}`]);
      const runner = narrowed(cone);
      if (!runner) return;
      const at = new BoxRunner(cone);
      const gradient = new Gradient(cone);
      for (const point of all) {
        const places = cone.inputs.map(({ low, high }, i) => Math.min(high, low + point[i] * (high - low)));
        at.forward(Float64Array.from(places.flatMap((x) => [x, x])));
        for (let r = 0; r < at.low.length; r++) {
          // The interval of a point holds its value: the two enclosures have to meet.
          const isApart = at.high[r] < runner.low[r] || at.low[r] > runner.high[r];
          assert.ok(!isApart, `${text}: ${at.low[r]} is not in ${runner.low[r]} .. ${runner.high[r]}`);
        }
        gradient.at(places);
        gradient.derivatives.forEach((slope, i) => {
          if (!Number.isFinite(slope) || cone.inputs[i].low === cone.inputs[i].high) return;
          compared++;
          const noise = 1e-9 * Math.max(1, Math.abs(slope));
          const isInside = slope >= runner.slopeLow[i] - noise && slope <= runner.slopeHigh[i] + noise;
          assert.ok(isInside, `${text}: ${slope} is not in ${runner.slopeLow[i]} .. ${runner.slopeHigh[i]}`);
        });
      }
    });
    fc.assert(law, { numRuns: howMany(20_000) });
    assert.ok(compared > howMany(20_000), `${compared} derivatives were compared`);
  });

  it("know of each input that it is one, but for what is of second order", () => {
    const lines = ["given x = 10 ± 5 %", "given y = 10 ± 5 %", "given z = 10 ± 5 %"];
    const cone = coneOfLast([...lines, "a = x * y / (x + y)", "result = a * z / (a + z) - a / 2"]);
    const byIntervals = new BoxRunner(cone);
    byIntervals.forward(Float64Array.from(cone.inputs.flatMap(({ low, high }) => [low, high])));
    const runner = narrowed(cone)!;
    const width = ({ low, high }: BoxRunner) => high[cone.result] - low[cone.result];
    // At the corners: from 0.77 to 0.89, which is 0.83 ± 0.06.
    assert.ok(width(byIntervals) > 1, `${width(byIntervals)}`);
    assert.ok(width(runner) < 0.25, `${width(runner)}`);
  });

  it("find a range over twenty inputs and some hundred and fifty operations in few runs", () => {
    const counts = Array.from({ length: 25 }, (_, seed) => {
      const program = new Program(WHOLE_PARTS);
      program.setText("note.calcs.md", oneRange(seed + 1));
      program.update();
      const last = [...program.notes.get("note.calcs.md")!.entries()].at(-1)!;
      const { operations } = trueRange(program, last, 0, { budget: 100_000 });
      return operations;
    }).sort((a, b) => a - b);
    assert.ok(counts[12] < 20_000, `${counts[12]} operations at the median`);
  });
});

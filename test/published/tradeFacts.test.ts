import assert from "node:assert/strict";
import type { Extent, QuantityOutcome } from "../../src/engine/outcome";
import { valueText } from "../../src/phrases/value";
import { siUnit } from "../../src/quantity/dimension";
import { openNotes } from "../notation";
import ranges from "./sharedInputs.json";
import trade from "./trade.json";

describe("facts of the trade (common practice, no source)", () => {
  const notes = openNotes(trade.note.map((line) => `    ${line}\n`).join(""));

  it("need a note in which nothing is wrong", () => {
    assert.deepEqual(
      notes.snapshot().rows.flatMap(({ outcome }) => outcome.problems),
      [],
    );
  });

  for (const { name, is, value, unit, shown } of trade.facts) {
    it(is, () => {
      const outcome = quantityOf(notes.snapshot().find(name)!.outcome);
      assert.ok(Math.abs(outcome.values[0].nominal - value) <= 1e-12 * value, `${outcome.values[0].nominal}`);
      assert.equal(siUnit(outcome.dimension), unit);
      assert.equal(valueText(outcome), shown);
    });
  }
});

describe("published ranges of expressions that use an input more than once", () => {
  for (const { name, inputs, formula, true: expected, tolerance, source } of ranges.cases) {
    it(`${name} (${source})`, () => {
      const given = Object.entries(inputs).map(([input, [low, high]]) => `    given ${input} = ${low} .. ${high}\n`);
      const { low, high, standing } = extentOf(`${given.join("")}    result = ${formula}\n`, "result");
      const slack = tolerance * Math.max(...expected.map(Math.abs));
      assert.ok(low <= expected[0] + slack && high >= expected[1] - slack, `${low} .. ${high} leaves out a value`);
      if (standing !== "attained" && standing !== "exact") return;
      // Bounds that had to be searched for are attained to a thousandth of the width.
      const near = slack + 1e-3 * (expected[1] - expected[0]);
      assert.ok(low >= expected[0] - near && high <= expected[1] + near, `${low} .. ${high} is not attained`);
    });
  }

  it("are attained where each line shows by itself that every input pushes one way", () => {
    const monotone = ranges.cases.filter(({ name }) => /divider|regulator|x - x/.test(name));
    assert.ok(monotone.length >= 5);
    for (const { name, inputs, formula, natural, true: expected } of monotone) {
      const given = Object.entries(inputs).map(([input, [low, high]]) => `    given ${input} = ${low} .. ${high}\n`);
      const { low, high, standing } = extentOf(`${given.join("")}    result = ${formula}\n`, "result");
      assert.notEqual(standing, "enclosed", name);
      // Attained says something only where plain interval arithmetic is wider.
      if (natural[0] < expected[0]) assert.ok(low > natural[0] && high < natural[1], name);
    }
  });
});

function extentOf(text: string, name: string): Extent {
  return quantityOf(openNotes(text).snapshot().find(name)!.outcome).values[0];
}

function quantityOf(outcome: { readonly kind: string }): QuantityOutcome {
  assert.equal(outcome.kind, "quantity");
  return outcome as QuantityOutcome;
}

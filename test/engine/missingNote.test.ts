import assert from "node:assert/strict";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";

describe("a note that was missing", () => {
  it("is asked for again once it is closed, as it is when a file appears", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText("a.calcs.md", '    use "b.calcs.md" as b\n    x = 2 * b.y\n');
    assert.deepEqual(program.wanted(), ["b.calcs.md"]);
    program.provide("b.calcs.md", { trouble: "missing", detail: "" });
    program.settle();
    assert.deepEqual(program.wanted(), []);
    program.close("b.calcs.md");
    assert.deepEqual(program.wanted(), ["b.calcs.md"]);
    program.provide("b.calcs.md", { text: "    y = 3 V\n" });
    program.settle();
    const [, x] = program.snapshot("a.calcs.md")!.rows;
    assert.ok(x.outcome.kind === "quantity");
    assert.equal(x.outcome.values[0].nominal, 6);
  });
});

import assert from "node:assert/strict";
import { CAUTIONS } from "../../src/phrases/cautions";
import { checkFindings, openNotes } from "../notation";
import { openChapter } from "./openChapter";

describe("cautions", () => {
  const chapter = openChapter("safety").snapshot();

  for (const { code, constant, dimension, limit, point } of CAUTIONS) {
    it(`${code} has its limit from the chapter safety, and its source`, () => {
      const row = chapter.find(constant);
      assert.ok(row && row.outcome.kind === "quantity", `The chapter has no ${constant}.`);
      assert.equal(row.outcome.dimension, dimension);
      assert.equal(row.outcome.point, point ?? false);
      assert.ok(Math.abs(row.outcome.values[0].nominal - limit) <= 1e-12 * limit);
    });
  }

  it("say that a figure which was not read is to be confirmed", () => {
    assert.match(chapter.text, /No figure on this page was read in its standard\./);
    for (const { source, notCovered } of CAUTIONS) assert.ok(source !== "" && notCovered !== "");
  });

  it("go by an acceptance only, whose reason is told", () => {
    const accepted = openNotes('    mains = 230 V\n    accept caution.mains because "an enclosed supply"\n').findings();
    assert.deepEqual(
      accepted.map(({ severity }) => severity),
      ["hint"],
    );
    assert.match(accepted[0].message, /Accepted because an enclosed supply\.$/);
    checkFindings("    mains = 230 V\n    ~~~~~ caution.mains warning\n    must mains <= 250 V\n");
  });
});

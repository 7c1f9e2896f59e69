import assert from "node:assert/strict";
import fc from "fast-check";
import { applyEdits, difference } from "../../src/text/edit";
import { howMany } from "../howMany";

const shortTexts = fc.stringMatching(/^[ab]{0,8}$/);

describe("applying edits", () => {
  it("takes them in any order, in coordinates of the text before", () => {
    const edits = [
      { span: { start: 10, end: 11 }, text: "3" },
      { span: { start: 0, end: 1 }, text: "supply" },
      { span: { start: 5, end: 5 }, text: " ~" },
    ];
    assert.equal(applyEdits("a = 2\nb = 2", edits), "supply = 2 ~\nb = 3");
    assert.equal(applyEdits("a = 2", []), "a = 2");
  });

  it("lets edits touch, and inserts in front of what is replaced at the same place", () => {
    const edits = [
      { span: { start: 1, end: 2 }, text: "B" },
      { span: { start: 1, end: 1 }, text: "-" },
      { span: { start: 2, end: 3 }, text: "C" },
    ];
    assert.equal(applyEdits("abc", edits), "a-BC");
  });

  it("refuses edits that overlap, run backwards or lie outside the text", () => {
    const refused = [
      [
        { span: { start: 0, end: 2 }, text: "" },
        { span: { start: 1, end: 3 }, text: "" },
      ],
      [{ span: { start: 2, end: 1 }, text: "" }],
      [{ span: { start: 0, end: 4 }, text: "" }],
      [{ span: { start: -1, end: 0 }, text: "" }],
    ];
    for (const edits of refused) assert.throws(() => applyEdits("abc", edits), RangeError);
  });
});

describe("the difference of two texts", () => {
  it("is what lies between the common head and the common tail", () => {
    assert.deepEqual(difference("a = 2 V", "a = 30 V"), { span: { start: 4, end: 5 }, text: "30" });
    assert.deepEqual(difference("aa", "aaa"), { span: { start: 2, end: 2 }, text: "a" });
    assert.deepEqual(difference("same", "same"), { span: { start: 4, end: 4 }, text: "" });
  });

  it("turns the one into the other, and no shorter edit at one place does", () => {
    fc.assert(
      fc.property(shortTexts, shortTexts, (before, after) => {
        const edit = difference(before, after);
        assert.equal(applyEdits(before, [edit]), after);
        const { start, end } = edit.span;
        if (start < end && edit.text !== "") {
          assert.notEqual(before[start], edit.text[0]);
          assert.notEqual(before[end - 1], edit.text[edit.text.length - 1]);
        }
      }),
      { numRuns: howMany(20_000) },
    );
  });
});

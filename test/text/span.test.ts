import assert from "node:assert/strict";
import { cover, shift, touches } from "../../src/text/span";

describe("a span", () => {
  it("shifts by an offset, and back", () => {
    const span = { start: 2, end: 5 };
    assert.deepEqual(shift(span, 10), { start: 12, end: 15 });
    assert.deepEqual(shift(shift(span, 10), -10), span);
  });

  it("is touched at both ends, as by a caret behind the last letter", () => {
    const offsets = [1, 2, 4, 5, 6].filter((offset) => touches({ start: 2, end: 5 }, offset));
    assert.deepEqual(offsets, [2, 4, 5]);
  });

  it("covers another together with all between, whichever comes first", () => {
    const whole = { start: 1, end: 9 };
    assert.deepEqual(cover({ start: 1, end: 3 }, { start: 7, end: 9 }), whole);
    assert.deepEqual(cover({ start: 7, end: 9 }, { start: 1, end: 3 }), whole);
    assert.deepEqual(cover(whole, { start: 2, end: 3 }), whole);
  });
});

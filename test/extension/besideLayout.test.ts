import assert from "node:assert/strict";
import fc from "fast-check";
import { columnsOf, cut, gapBeside } from "../../src/extension/besideLayout";

describe("beside a line", () => {
  const columns: readonly [line: string, columns: number][] = [
    ["", 0],
    ["    a = 2 V", 11],
    ["\ta", 5],
    ["  \ta", 5],
    ["θ_bar = 2 µm", 12],
    ["e\u0301 = 1", 5],
    ["電流 = 1 A", 10],
    ["🔧", 2],
  ];
  for (const [line, expected] of columns)
    it(`counts ${expected} columns in ${JSON.stringify(line)}`, () => assert.equal(columnsOf(line, 4), expected));

  it("starts at the next multiple of eight columns that is two behind the text or more", () => {
    const starts = [0, 5, 6, 7, 8, 14, 15].map((length) => length + gapBeside("x".repeat(length), 4));
    assert.deepEqual(starts, [8, 8, 8, 16, 16, 16, 24]);
  });

  it("always leaves a gap and keeps to the grid", () =>
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), fc.integer({ min: 1, max: 8 }), (line, tabSize) => {
        const gap = gapBeside(line, tabSize);
        assert.ok(gap >= 2 && gap < 10);
        assert.equal((columnsOf(line, tabSize) + gap) % 8, 0);
      }),
    ));

  it("cuts a long phrase between words, and no other", () => {
    assert.equal(cut("fails, 9 % short"), "fails, 9 % short");
    const long = `fails at the limits, ${"V_f 2.8 V, ".repeat(12)}`;
    assert.match(cut(long), /^fails at the limits, (V_f 2\.8 V, )*V_f( 2\.8( V)?)? …$/);
    assert.ok(cut(long).length <= 96 && cut("x".repeat(200)).length <= 96);
  });
});

import assert from "node:assert/strict";
import { align, columnsOf, printable, wrap } from "../../src/cli/layout";

describe("text for a terminal", () => {
  it("leaves no space at the end of a line", () => {
    assert.deepEqual(wrap("ten columns  (line\u00a03)", 12, ""), ["ten columns", "(line 3)"]);
  });

  it("is wrapped at spaces, behind its indent", () => {
    assert.deepEqual(wrap("one two three", 9, "  "), ["  one two", "  three"]);
    assert.deepEqual(wrap("one two three", 8, "  "), ["  one", "  two", "  three"]);
    assert.deepEqual(wrap("unbreakable", 4, "  "), ["  unbreakable"]);
    assert.deepEqual(wrap("", 4, "  "), ["  "]);
    assert.deepEqual(wrap("write `a = 3 V`.", 14, "  "), ["  write", "  `a = 3 V`."]);
    assert.deepEqual(wrap("write `a = 3 V`.", 11, "  "), ["  write `a", "  = 3 V`."]);
    assert.deepEqual(wrap("a 86\u00A0% b", 5, ""), ["a", "86 %", "b"]);
  });

  it("is set in columns", () => {
    assert.deepEqual(
      align([
        ["a", "bb", "c"],
        ["ddd", "e"],
      ]),
      ["a    bb  c", "ddd  e"],
    );
    assert.deepEqual(align([]), []);
  });

  it("counts the columns of wide and of combining characters", () => {
    assert.equal(columnsOf("θ_bar"), 5);
    assert.equal(columnsOf("e\u0301"), 1);
    assert.equal(columnsOf("電流"), 4);
    assert.equal(columnsOf("\u{1F50B}"), 2);
    assert.equal(columnsOf("├─┤"), 3);
    assert.deepEqual(
      align([
        ["電", "x"],
        ["ab", "y"],
      ]),
      ["電  x", "ab  y"],
    );
  });

  it("holds nothing that a terminal would obey", () => {
    assert.equal(printable("a\u001B[31mb\u0007\u009Bc"), "a\uFFFD[31mb\uFFFD\uFFFDc");
    assert.equal(printable("a\u202Eb\u2066c"), "a\uFFFDb\uFFFDc");
    assert.equal(printable("one\r\n   two\tthree"), "one two three");
    assert.equal(printable("µΩ ± θ · – ┃"), "µΩ ± θ · – ┃");
  });
});

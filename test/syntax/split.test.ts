import assert from "node:assert/strict";
import { splitStatements } from "../../src/syntax/split";
import type { Span } from "../../src/text/span";

/** The statements of a block, given with all its lines; blank ones are left out as the scan of a note does. */
function split(text: string): string[] {
  const lines: Span[] = [];
  for (const { 0: line, index } of text.matchAll(/[^\r\n]+/g))
    if (line.trim() !== "") lines.push({ start: index, end: index + line.length });
  return splitStatements(text, lines).map(({ start, end }) => text.slice(start, end));
}

describe("splitting a block into statements", () => {
  it("one line, one statement, without white space around it", () => {
    assert.deepEqual(split("    a = 1   \n    b = 2\t\n"), ["a = 1", "b = 2"]);
    assert.deepEqual(splitStatements("", []), []);
  });

  it("a line that holds only a comment is no statement, and a line of its own inside one", () => {
    assert.deepEqual(split("    # the supply\n    a = 1\n    # b = 2\n    c = 3"), ["a = 1", "c = 3"]);
    assert.deepEqual(split("    a = (1 +\n      # more\n      2)\n    b = 2"), [
      "a = (1 +\n      # more\n      2)",
      "b = 2",
    ]);
    assert.deepEqual(split("    must a > 1 and\n      # why\n      b > 1"), [
      "must a > 1 and\n      # why\n      b > 1",
    ]);
  });

  it("a deeper line goes on where the statement cannot have ended", () => {
    for (const open of [
      "x = a +",
      "x =",
      "x = f(a",
      "x = f(a,",
      "x = a choose",
      "x = if a then",
      "given x = 3 from",
      "must a <",
      "plot a for",
      "must",
    ])
      assert.equal(split(`    ${open}\n      b`).length, 1, open);
    for (const closed of [
      "x = a",
      "x = (a)",
      "x = 60 %",
      "x = parts.from",
      "x = 3 # +",
      'given x = 3 from "("',
      "items a",
    ])
      assert.equal(split(`    ${closed}\n      b`).length, 2, closed);
  });

  it("a deeper line goes on that begins with the clause `where`", () => {
    assert.equal(split("    f(x) = x\n      where x < 3").length, 1);
    assert.equal(split("    f(x) = x # why\n      where x < 3 and\n      x > 1").length, 1);
    assert.equal(split("    f(x) = x where\n      x < 3").length, 1);
    assert.equal(split("    f(x) = x\n    where x < 3").length, 2);
    assert.equal(split("    f(x) = x\n      where = 3").length, 2);
    assert.equal(split("    f(x) = x\n      wherever x < 3").length, 2);
  });

  it("a line at the statement's own indentation begins a new one, so an open bracket costs one statement", () => {
    assert.deepEqual(split("    x = (a +\n    y = 2\n    z = 3"), ["x = (a +", "y = 2", "z = 3"]);
    assert.deepEqual(split("      x = (a +\n    y = 2"), ["x = (a +", "y = 2"]);
  });

  it("indentation is measured in columns", () => {
    assert.equal(split("    x = a +\n\tb").length, 2);
    assert.equal(split("    x = a +\n\t b").length, 1);
    assert.equal(split("  \t x = a +\n     \tb").length, 1);
    assert.equal(split("   \tx = a +\n     b").length, 1);
  });

  it("a blank line ends it; every line break counts as one", () => {
    assert.equal(split("    x = a +\n\n      b").length, 2);
    assert.equal(split("    x = a +\r\n      b").length, 1);
    assert.equal(split("    x = a +\r      b").length, 1);
    assert.equal(split("    x = a +\r\n   \r\n      b").length, 2);
  });

  it("reads each line once, however long the statement", () => {
    const lines = 20_000;
    assert.equal(split("    x = [\n" + "      1,\n".repeat(lines) + "      1]").length, 1);
    assert.equal(split("    x = [\n" + "    a = (1,\n".repeat(lines)).length, lines + 1);
  });
});

import assert from "node:assert/strict";
import type { Completion } from "../../src/features/feature";
import { holding, marked, note } from "./notes";

const HEAD = `items LED, board
given supply = 24 V ± 5 %   # the adapter
assume V_f = 3 V
burden = supply - 7 * V_f
loop(length, area) = length / area
use "other.calcs.md" as other
`;
const OTHER = note("I_rated = 2 A\nitems rail\nadd(x) = x + 1");

function at(markedLine: string): readonly Completion[] {
  const { text, offset } = marked(note(HEAD + markedLine));
  const service = holding({ "n.calcs.md": text, "other.calcs.md": OTHER });
  return service.completions("n.calcs.md", offset);
}

/** The labels in the order in which they are offered. */
function labels(markedLine: string): string[] {
  return [...at(markedLine)].sort((a, b) => (a.rank < b.rank ? -1 : a.rank > b.rank ? 1 : 0)).map(({ label }) => label);
}

function has(markedLine: string, ...expected: string[]): void {
  const found = labels(markedLine);
  assert.deepEqual(
    expected.filter((label) => !found.includes(label)),
    [],
  );
}

describe("completion", () => {
  it("begins a statement with its word", () => {
    for (const line of ["¦", "gi¦", "\ngi¦"]) assert.deepEqual(labels(line).slice(0, 3), ["given", "assume", "over"]);
    const given = at("gi¦").find(({ label }) => label === "given")!;
    assert.equal(given.insert, "given ");
    assert.equal(given.span.end - given.span.start, 2);
    assert.equal(given.detail, 'given NAME = value [each [ITEM]] [from "source"]');
  });
  it("offers names with their values, and functions with their signatures", () => {
    for (const line of ["x = ¦", "x = bur¦", "x = 2 * (¦", "must ¦", "must burden <= ¦", "x = if ¦", "x = V_f + ¦"])
      has(line, "burden", "supply", "V_f", "loop", "other", "sqrt", "π");
    const burden = at("x = bur¦").find(({ label }) => label === "burden")!;
    assert.deepEqual([burden.kind, burden.detail], ["quantity", "1.8 .. 3 .. 4.2 V"]);
    const supply = at("x = ¦").find(({ label }) => label === "supply")!;
    assert.equal(supply.documentation, "the adapter");
    const loop = at("x = ¦").find(({ label }) => label === "loop")!;
    assert.deepEqual([loop.detail, loop.insert], ["loop(length, area)", "loop("]);
    assert.equal(at("x = ¦").find(({ label }) => label === "V_f")!.kind, "assumption");
    assert.ok(!labels("x = ¦").includes("LED"));
  });
  it("offers the parameters in a function's body", () => {
    assert.deepEqual(labels("f(width, by = 2) = ¦").slice(0, 2), ["by", "width"]);
  });
  it("offers units behind a number", () => {
    for (const line of ["x = 12 ¦", "x = 12 m¦", "x = 12m¦", "x = 2.8 .. 3.2 ¦", "x = 5 ± 3 ¦", "x = 3 * 12 ¦"])
      has(line, "V", "Ω", "%", "LED", "in");
    has("x = 20 mA/¦", "LED", "board");
    has("x = 20 m¦", "mA", "mV");
    has("x = 20 E¦", "EUR");
    assert.ok(!labels("x = 20 ¦").includes("burden"));
    assert.ok(!labels("x = R2 * ¦").includes("kΩ"));
  });
  it("offers units in the brackets behind a name", () => has("x [¦] = 3 A", "A", "V", "board"));
  it("puts first the units of what the number is set against", () => {
    for (const line of [
      "must burden <= 5 ¦",
      "must burden > 5 ¦",
      "x = burden + 5 ¦",
      "burden [¦",
      "must burden inside 5 ¦",
    ])
      assert.deepEqual(labels(line).slice(0, 8).sort(), ["GV", "MV", "V", "kV", "mV", "nV", "pV", "µV"], line);
  });
  it("offers counted units behind `without`", () => {
    assert.deepEqual(labels("x = burden without ¦"), ["LED", "board"]);
    assert.deepEqual(labels("x = burden without LED, b¦"), ["LED", "board"]);
  });
  it("offers the members of another note", () => {
    assert.deepEqual(labels("x = other.¦"), ["I_rated", "add"]);
    assert.deepEqual(labels("x = 2 * other.I_¦"), ["I_rated", "add"]);
    assert.deepEqual(labels("x = nothing.¦"), []);
  });
  it("offers words in their places", () => {
    assert.deepEqual(labels("x = burden ¦"), ["choose", "without"]);
    assert.deepEqual(labels("x = burden / 2 A ch¦"), ["choose", "without"]);
    assert.deepEqual(labels("x = burden choose ¦"), ["at least", "at most"]);
    assert.deepEqual(labels("x = burden choose at ¦"), ["least", "most"]);
    assert.deepEqual(labels("x = burden choose 3 V ¦"), ["from"]);
    assert.deepEqual(labels("x = burden choose 3 V from ¦"), ["E3", "E6", "E12", "E24", "E48", "E96", "E192"]);
    assert.deepEqual(labels("given x = 3 V ¦"), ["each", "from"]);
    assert.deepEqual(labels("f(x, y = 2) = x * y ¦"), ["where", "without"]);
    assert.deepEqual(labels("f(x, y = 2) = x * y where x < y ¦"), ["and", "or", "inside"]);
    assert.deepEqual(labels("measured x = 3 V ¦"), ["of", "at", "on", "from", "instead"]);
    assert.deepEqual(labels("x = if burden > 2 V ¦").slice(0, 2), ["then", "else"]);
    has("must burden > 2 V ¦", "and", "or");
    has("must burden > 2 V and ¦", "burden");
    has("x = not ¦", "burden");
  });
  it("says of every word of the language what it does", () => {
    const places = [
      "must burden < 5 V ¦",
      "measured burden = 3 V ¦",
      "a = if burden > 3 V ¦",
      "R = burden / I choose ¦",
      "a = ¦",
    ];
    for (const place of places)
      for (const { label, kind, documentation } of at(place))
        if (kind === "statement") assert.ok(documentation, `${label} in ${place}`);
    assert.ok(labels("must burden < 5 V ¦").includes("in"));
  });

  it("offers what can be measured", () => {
    assert.deepEqual(labels("measured ¦"), ["V_f", "burden", "supply"]);
    assert.deepEqual(labels("measured burden = 3 V at ¦"), ["V_f", "burden", "supply"]);
    assert.deepEqual(labels("measured burden = 3 V at V_f = 3 V, ¦"), ["V_f", "burden", "supply"]);
  });
  it("offers the paths of notes", () => {
    const [other, ...more] = at('use "o¦');
    assert.deepEqual([other.label, more.length], ["other.calcs.md", 0]);
    assert.equal(other.span.end - other.span.start, 1);
    assert.deepEqual(labels('use "other.calcs.md" ¦'), ["as"]);
  });
  it("knows no new names, dates and texts, and offers nothing for them", () => {
    for (const line of [
      "given ¦",
      "assume a¦",
      "items ¦",
      "items a, ¦",
      'use "other.calcs.md" as ¦',
      "measured x = 3 V on 2026-¦",
      "measured x = 3 V of ¦",
      "given x = 3 V from ¦",
      'given x = 3 V from "she¦',
      "x = 3 V # a com¦ment",
      "x = 3 V # ¦",
    ])
      assert.deepEqual(labels(line), [], line);
  });
  it("goes on in a statement over lines", () => {
    has("x = burden +\n    ¦", "burden");
    has("x = (burden\n    + ¦", "burden");
    has("x = burden\n    ¦", "given");
  });
  it("offers nothing in prose", () => {
    for (const text of ["bur¦den", "para\n    bur¦", "- list\n\n    bur¦", "```\n    bur¦\n```", "¦"]) {
      const { text: whole, offset } = marked(text);
      assert.deepEqual(holding({ n: whole }).completions("n", offset), [], text);
    }
  });
  it("works at the end of a note, with CRLF, and with names of any script", () => {
    const { text, offset } = marked("    θ_窓 = 3 V\r\n    x = θ¦");
    const found = holding({ n: text }).completions("n", offset);
    const name = found.find(({ label }) => label === "θ_窓")!;
    assert.equal(text.slice(name.span.start, name.span.end), "θ");
  });
});

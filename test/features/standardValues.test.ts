import assert from "node:assert/strict";
import { finish } from "../../src/engine/slices";
import { guessSourceAt } from "../../src/features/guessSource";
import { standardValuesAt } from "../../src/features/standardValues";
import { openNotes } from "../notation";

/** What is offered on the line of a note, and the line after each. */
function offered(note: string, line: number): readonly (readonly [title: string, after: string])[] {
  const notes = openNotes(note);
  const context = notes.context();
  const start = context.snapshot.lines.lineEnd(line);
  return finish(standardValuesAt(context, { start, end: start })).map(({ title, edits }) => [
    title,
    notes.edited(edits).split("\n")[line],
  ]);
}

describe("standard values", () => {
  it("choose for a definition without a choice, before its comment, and say what follows", () => {
    const note = `
    given U = 3 V
    R = U / 22 mA        # the want
    I = U / R
    must I <= 22.1 mA
`;
    assert.deepEqual(offered(note, 2), [
      [
        "Use 130 Ω of E24: I 23.0769 mA, 1 rule fails: I <= 22.1 mA",
        "    R = U / 22 mA choose 130 Ω from E24   # the want",
      ],
      ["Use 150 Ω of E24: I 20 mA, all rules hold", "    R = U / 22 mA choose 150 Ω from E24   # the want"],
    ]);
  });

  it("leave a comment in its column where there is room", () => {
    const note = `    R = 155 Ω${" ".repeat(30)}# the want`;
    const column = note.indexOf("#");
    for (const [, after] of offered(note, 0)) assert.equal(after.indexOf("#"), column);
    assert.equal(offered(note, 0).length, 2);
  });

  it("replace the value in use, of the statement's own series, and keep its tolerance", () => {
    assert.deepEqual(offered("    R = 155 Ω choose 180 Ω ± 1 % from E12\n    I = 3 V / R\n", 0), [
      ["Use 150 Ω of E12: I 19.8 .. 20 .. 20.2 mA", "    R = 155 Ω choose 150 Ω ± 1 % from E12"],
    ]);
  });

  it("are written as an author would, in the series that is set for the unit", () => {
    assert.deepEqual(offered("    choose C = 5 nF", 0), [
      ["Use 4.7 nF of E6", "    choose C = 4.7 nF"],
      ["Use 6.8 nF of E6", "    choose C = 6.8 nF"],
    ]);
    assert.deepEqual(offered("    L = 9 µH", 0), [
      ["Use 8.2 µH of E12", "    L = 9 µH choose 8.2 µH from E12"],
      ["Use 10 µH of E12", "    L = 9 µH choose 10 µH from E12"],
    ]);
  });

  it("keep the tolerance that a letter code brings", () => {
    assert.deepEqual(offered("    choose R = 4k8J", 0)[0], ["Use 4.7 kΩ of E24", "    choose R = 4.7 kΩ ± 5 %"]);
  });

  it("offer nothing but the value where it is a member that is not chosen yet", () => {
    assert.deepEqual(offered("    R = 150 Ω", 0), [["Use 150 Ω of E24", "    R = 150 Ω choose 150 Ω from E24"]]);
  });

  const none: readonly [reason: string, note: string][] = [
    ["a value that is in use already", "    choose R = 150 Ω"],
    ["a voltage", "    U = 150 V"],
    ["a resistance per piece", "    items LED\n    R = 150 Ω/LED"],
    ["what is given", "    given R = 155 Ω"],
    ["a want without a value", "    R = 3 V / (0 A)"],
    ["a negative want", "    R = -3 Ω"],
    ["a choice from a list", "    R = 155 Ω choose 150 Ω from [150 Ω, 160 Ω]"],
    ["a list", "    R = [155 Ω, 160 Ω]"],
    ["prose", "R = 155 Ω"],
  ];
  for (const [reason, note] of none) {
    it(`are not offered for ${reason}`, () => assert.deepEqual(offered(note, note.split("\n").length - 1), []));
  }
});

describe("the source of a guess", () => {
  const cases: readonly [note: string, after: string | undefined][] = [
    ["    assume V = 3 V      # guess", '    assume V = 3 V from "source"      # guess'],
    ["    assume V = 3 V each", '    assume V = 3 V each from "source"'],
    ['    assume V = 3 V from "sheet"', undefined],
    ["    given V = 3 V", undefined],
  ];
  for (const [note, after] of cases) {
    it(`${after === undefined ? "is not asked for" : "is asked for"}: ${note.trim()}`, () => {
      const notes = openNotes(note);
      const start = note.indexOf("V");
      const fixes = guessSourceAt(notes.snapshot(), { start, end: start });
      assert.deepEqual(
        fixes.map(({ edits }) => notes.edited(edits)),
        after === undefined ? [] : [after],
      );
      if (after !== undefined) assert.deepEqual(openNotes(after).findings(), []);
    });
  }

  it("is asked for on the name only", () => {
    const { length } = "    assume V = 3";
    assert.deepEqual(guessSourceAt(openNotes("    assume V = 3 V").snapshot(), { start: length, end: length }), []);
  });
});

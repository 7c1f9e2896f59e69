import assert from "node:assert/strict";
import { checkFindings, openNotes } from "../notation";
import { valueText } from "../../src/phrases/value";

/** The value of a name, as it is shown. */
function shown(note: string, ...names: readonly string[]): readonly string[] {
  const snapshot = openNotes(note).snapshot();
  return names.map((name) => {
    const outcome = snapshot.find(name)?.outcome;
    return outcome?.kind === "quantity" || outcome?.kind === "truth" ? valueText(outcome) : `${outcome?.kind}`;
  });
}

/** The nominal values of a column. */
function cellsOf(note: string, column: string): readonly number[] {
  const outcome = openNotes(note).snapshot().find(column)?.outcome;
  assert.equal(outcome?.kind, "column");
  return outcome.kind === "column" ? outcome.values.map(({ nominal }) => nominal) : [];
}

const PARTS = `
| parts: | qty      | current | price          | total = qty * price | kind  |
| ------ | -------: | ------: | -------------: | ------------------: | ----- |
| bar    | = boards | 40 mA   | 2.10 EUR/board |                     | lamp  |
| "M3×8" | 7        | 0 mA    | 0.35 EUR       |                     | screw |
`;

describe("a data table", () => {
  it("gives columns, cells and totals", () => {
    const note = `
    items board
    boards = 8 board
    all = sum(parts.total)
    most = max(parts.current)
    one = parts.bar.price
    other = parts["M3×8"].qty
    rows = size(parts.qty)
    kinds = size(parts.kind)
${PARTS}`;
    assert.deepEqual(shown(note, "all", "most", "one", "other", "rows", "kinds"), [
      "19.25 EUR",
      "40 mA",
      "2.1 EUR/board",
      "7",
      "2",
      "2",
    ]);
    checkFindings(note);
  });

  it("is prose where its first header cell is no name with a colon", () => {
    checkFindings(`
    a = parts.x
        ~~~~~ name.unknown

| parts | x |
| ----- | - |
| a     | 1 |
`);
  });

  it("names rows by numbers and by text, and finds them however they are quoted", () => {
    const note = `
    a = wire[24].area
    b = wire["0.5 mm²"].area
    c = wire.solid.area
    d = wire["solid"].area
    e = wire.litz.area

| wire:     | area     |
| --------- | -------: |
| 24        | 0.2 mm^2 |
| "0.5 mm²" | 0.5 mm^2 |
| solid     | 1 mm^2   |
| \`litz\`    | 2 mm^2   |
`;
    assert.deepEqual(shown(note, "a", "b", "c", "d", "e"), ["0.2 mm^2", "0.5 mm^2", "1 mm^2", "1 mm^2", "2 mm^2"]);
  });

  it("draws the cells of a further piece anew, in columns and in what is computed from them", () => {
    const note = `
    given V_f = 3 V ± 0.1 V each
    d = lamps.a.drop - another lamps.a.drop
    twice = lamps.a.double - another lamps.a.double
    sums = sum(another lamps.drop)
    two = total(2, lamps.a.double)
    choose L = lamps.a
    part = L.double - another L.double
    same = another lamps.b.drop
           ~~~~~~~~~~~~~~~~~~~~ piece.same

| lamps: | drop        | double = drop * 2 |
| ------ | ----------: | ----------------: |
| a      | = V_f + 0 V |                   |
| b      | 3 V ± 0.2 V |                   |
`;
    checkFindings(note);
    const text = note.replace(/ *~+ piece\.same\n/, "");
    assert.deepEqual(shown(text, "d", "twice", "sums", "two", "part"), [
      "-200 .. 0 .. 200 mV",
      "-400 .. 0 .. 400 mV",
      "5.7 .. 6 .. 6.3 V",
      "11.6 .. 12 .. 12.4 V",
      "-400 .. 0 .. 400 mV",
    ]);
  });

  it("gives bare numbers the unit of the header", () => {
    const note = `
    all = sum(load.current)

| load: | current [mA] |
| ----- | -----------: |
| lamp  | 40           |
| fan   | 0.2 A        |
| relay | 38 .. 42     |
| pump  | 10 ± 20 %    |
| none  | 0            |
`;
    assert.deepEqual(cellsOf(note, "load.current"), [0.04, 0.2, 0.04, 0.01, 0]);
    assert.deepEqual(shown(note, "all"), ["286 .. 290 .. 294 mA"]);
  });

  it("computes a column row by row: names are cells first, and else quantities of the note", () => {
    const note = `
    factor = 10
    mass = 100

| rods: | length | mass = length * factor | heavy = mass > 25 | share = mass / sum(rods.length) |
| ----- | -----: | ---------------------: | ----------------: | ------------------------------: |
| a     | 2      |                        |                   |                                 |
| b     | 3      |                        |                   |                                 |
`;
    assert.deepEqual(cellsOf(note, "rods.mass"), [20, 30]);
    assert.deepEqual(cellsOf(note, "rods.share"), [4, 6]);
    const heavy = openNotes(note).snapshot().find("rods.heavy")?.outcome;
    assert.deepEqual(heavy?.kind === "column" && heavy.truths, [false, true]);
  });

  it("adds up row by row, by a column of numbers or cell by cell", () => {
    const note = `
| stack: | no | t    | top = sum(filter(stack.t, stack.no <= no)) | sum                       |
| ------ | -: | ---: | -----------------------------------------: | ------------------------: |
| a      | 1  | 2 mm |                                            | = stack.a.t               |
| b      | 2  | 3 mm |                                            | = stack.a.sum + stack.b.t |
| c      | 3  | 5 mm |                                            | = stack.b.sum + stack.c.t |
`;
    for (const column of ["stack.top", "stack.sum"])
      assert.deepEqual(
        cellsOf(note, column).map((x) => Math.round(x * 1e6)),
        [2000, 5000, 10_000],
      );
  });

  it("shares a literal of its formula between the rows, and draws each cell by itself", () => {
    const note = `
    apart = parts.a.x - parts.b.x
    together = parts.a.y - parts.b.y

| parts: | x        | y = 2 V ± 1 V |
| ------ | -------: | ------------: |
| a      | 2 V ± 1 V|               |
| b      | 2 V ± 1 V|               |
`;
    assert.deepEqual(shown(note, "apart", "together"), ["-2 .. 0 .. 2 V", "0 V"]);
  });

  it("lets cells of a column use each other", () => {
    assert.deepEqual(
      cellsOf(
        `
| parts: | qty                 |
| ------ | ------------------: |
| screw  | = 4 * parts.bar.qty |
| bar    | 3                   |
`,
        "parts.qty",
      ),
      [12, 3],
    );
  });

  it("reads escaped pipes, and the parallel sign", () => {
    const note = `
| nets: | a       | r = a \\|\\| a | s = a ∥ a |
| ----- | ------: | ----------: | --------: |
| x     | 10 Ω    |             |           |
`;
    assert.deepEqual(cellsOf(note, "nets.r"), [5]);
    assert.deepEqual(cellsOf(note, "nets.s"), [5]);
  });

  it("is judged row by row, and the rows that fail are named", () => {
    checkFindings(`
    must parts.current <= 30 mA
         ~~~~~~~~~~~~~~~~~~~~~~ rule.fails error
         | \`parts.current <= 30 mA\` fails in bar and clip, 33 % short. parts.current is 40 mA.
    must parts.kind != "screw"
         ~~~~~~~~~~~~~~~~~~~~~ rule.fails

| parts: | current | kind  |
| ------ | ------: | ----- |
| bar    | 40 mA   | lamp  |
| lens   | 20 mA   | lens  |
| clip   | 35 mA   | screw |
`);
  });

  it("gives the true range of a row, where a cell is used twice", () => {
    checkFindings(`
    must loads.loss <= 0.4 W

| loads: | I             | R     | loss = I^2 * R |
| ------ | ------------: | ----: | -------------: |
| a      | 0.1 .. 0.2 A  | 10 Ω  |                |
| b      | -0.1 .. 0.2 A | 10 Ω  |                |
`);
  });

  it("gives a part that is chosen", () => {
    const note = `
    choose Q = fet.C
    loss = (2 A)^2 * Q.R_on
    must Q.maker = "Anna"

| fet: | R_on  | maker |
| ---- | ----: | ----- |
| B    | 10 mΩ | Bert  |
| C    | 5 mΩ  | Anna  |
`;
    assert.deepEqual(shown(note, "loss"), ["20 mW"]);
    checkFindings(note);
  });

  it("is chosen from, and used from other notes", () => {
    checkFindings(`
    use "b.calcs.md" as b
    choose Q = b.coils.small
    L = 9 µH choose 10 µH from b.coils.L
    x = Q.L + b.coils["big"].L
    y = b.coils.L
    must x = 32 µH
    must size(y) = 2

=== b.calcs.md

| coils: | L     |
| ------ | ----: |
| small  | 10 µH |
| big    | 22 µH |
`);
  });

  it("waits with what rests on a table until it is there", () => {
    const notes = openNotes("    x = sum(t.a)\n    choose Q = t.one\n    y = Q.a\n");
    const path = "note.calcs.md";
    const texts = [
      "    x = sum(t.a)\n    choose Q = t.one\n    y = Q.a\n\n| t: | a |\n| - | - |\n| one | 2 V |\n",
      "    x = sum(t.a)\n    choose Q = t.one\n    y = Q.a\n\n| t: | a |\n| - | - |\n| two | 3 V |\n| one | 2 V |\n",
    ];
    const seen = texts.map((text) => {
      notes.replace(path, text);
      return ["x", "y"].map((name) => {
        const outcome = notes.snapshot().find(name)?.outcome;
        return outcome?.kind === "quantity" ? valueText(outcome) : "";
      });
    });
    assert.deepEqual(seen, [
      ["2 V", "2 V"],
      ["5 V", "2 V"],
    ]);
  });

  it("compiles what an edit of a cell touches, and nothing else", () => {
    const text = `
    a = sum(t.x)
    b = sum(t.y)

| t: | x | y | z = x * 2 |
| -- | - | - | --------- |
| r  | 1 | 2 |           |
`;
    const notes = openNotes(text);
    const log = { compiled: [] as string[], run: [] as string[] };
    notes.program.log = log;
    notes.replace("note.calcs.md", text.replace("| 1 |", "| 5 |"));
    assert.deepEqual(log.compiled, ["x\n5"]);
    assert.deepEqual(log.run, ["x\n5", "a = sum(t.x)", "z = x * 2\n"]);
  });
});

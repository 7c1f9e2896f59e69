import assert from "node:assert/strict";
import { applyEdits } from "../../src/text/edit";
import { holding, marked } from "./notes";

const PATH = "n.calcs.md";
const NOTE = `# Bar

    items board
    boards = 8 board
    all = sum(parts.total)
    one = parts.bar.price
    two = parts["M3×8"].qty
    choose best = parts.bar
    cost = best.price

| parts: | qty      | price          | total = qty * price | kind  |
| ------ | -------: | -------------: | ------------------: | ----- |
| bar    | = boards | 2.10 EUR/board |                     | lamp  |
| "M3×8" | 7        | 0.35 EUR       |                     | screw |
`;

/** The note with a mark before the n-th place where a text stands, counted from 1. */
function at(text: string, nth = 1, within = 0): number {
  let place = -1;
  for (let i = 0; i < nth; i++) place = NOTE.indexOf(text, place + 1);
  assert.ok(place >= 0, text);
  return place + within;
}

const service = () => holding({ [PATH]: NOTE });

describe("a data table in the editor", () => {
  it("has what is computed beside its rows", () => {
    const beside = service()
      .results(PATH)
      .filter(({ line }) => line > 9)
      .map(({ line, text }) => [line, text]);
    assert.deepEqual(beside, [
      [12, "qty 8 board · total 16.8 EUR"],
      [13, "total 2.45 EUR"],
    ]);
  });

  it("tells in hover what a header comes to, a cell, a row and the table", () => {
    const hover = (offset: number) => service().hover(PATH, offset)?.markdown;
    assert.equal(
      hover(at("total = qty", 1, 1)),
      "**`parts.total`** total 19.25 EUR, from 2.45 EUR in M3×8 to 16.8 EUR in bar\n\nComputed in every row: `qty * price`",
    );
    assert.equal(hover(at("2.10 EUR", 1, 1)), "**`parts.bar.price`** 2.1 EUR/board");
    assert.equal(hover(at("total)", 1, 1))?.split(",")[0], "**`parts.total`** total 19.25 EUR");
    assert.equal(hover(at(".price", 1, 2)), "**`parts.bar.price`** 2.1 EUR/board");
    assert.equal(hover(at(".price", 2, 2)), "**`parts.bar.price`** 2.1 EUR/board");
    assert.match(
      hover(at("| bar ", 1, 3)) ?? "",
      /^\*\*`bar`\*\* row 1 of 2\n\n`qty` 8 board, `price` 2\.1 EUR\/board/,
    );
    assert.match(hover(at("parts:", 1, 1)) ?? "", /^\*\*`parts`\*\* is a table of 2 rows\n\n- `qty`/);
    assert.match(hover(at("best =", 1, 1)) ?? "", /^\*\*`best`\*\* is `bar` of `parts`/);
    assert.match(hover(at("boards |", 1, 1)) ?? "", /^\*\*`boards`\*\*/);
    assert.equal(hover(at("lamp", 1, 1)), "**`parts.bar.kind`** lamp");
  });

  it("completes columns and rows behind a dot, in formulas and in cells", () => {
    const labels = (line: string, note = NOTE) => {
      const { text, offset } = marked(note.replace("    one = parts.bar.price\n", `    one = ${line}\n`));
      return holding({ [PATH]: text })
        .completions(PATH, offset)
        .map(({ label }) => label);
    };
    assert.deepEqual(labels("parts.¦"), ["qty", "price", "total", "kind", "bar"]);
    assert.deepEqual(labels("sum(parts.p¦"), ["qty", "price", "total", "kind", "bar"]);
    assert.deepEqual(labels("parts.bar.¦"), ["qty", "price", "total", "kind"]);
    assert.deepEqual(labels('parts["M3×8"].¦'), ["qty", "price", "total", "kind"]);
    assert.deepEqual(labels("best.¦"), ["qty", "price", "total", "kind"]);
    const inCell = marked(NOTE.replace("= boards ", "= parts.¦"));
    assert.deepEqual(
      holding({ [PATH]: inCell.text })
        .completions(PATH, inCell.offset)
        .map(({ label }) => label),
      ["qty", "price", "total", "kind", "bar"],
    );
  });

  it("completes in quotes the names of rows, the texts of a column, series and ways to look up", () => {
    const labels = (line: string) => {
      const { text, offset } = marked(NOTE.replace("    one = parts.bar.price\n", `    one = ${line}\n`));
      return holding({ [PATH]: text })
        .completions(PATH, offset)
        .map(({ label, span }) => `${label} ${text.slice(span.start, span.end)}`);
    };
    assert.deepEqual(labels('parts["M¦'), ["bar M", "M3×8 M"]);
    assert.deepEqual(labels('parts["¦"].qty'), ["bar ", "M3×8 "]);
    assert.deepEqual(labels('sum(filter(parts.qty, parts.kind = "sc¦"))'), ["lamp sc", "screw sc"]);
    assert.deepEqual(labels('sum(filter(parts.qty, parts.kind != "¦'), ["lamp ", "screw "]);
    assert.deepEqual(labels('nearest("E¦", 3 Ω)').slice(0, 2), ["E3 E", "E6 E"]);
    assert.deepEqual(labels('lookup(2, [1, 2], sorted([3, 4]), "¦")'), ["step ", "exact "]);
    assert.deepEqual(labels('interpolate(2, [1, 2], [3, 4], "¦")'), ["linear ", "smooth "]);
    assert.deepEqual(labels('lookup("¦", parts.kind, parts.qty)'), []);
  });

  it("finds definitions and references of columns, rows and the table", () => {
    const text = (offset: number) => {
      const place = service().definition(PATH, offset);
      return (
        place && [
          service().snapshot(PATH)!.lines.lineAt(place.span.start),
          NOTE.slice(place.span.start, place.span.end),
        ]
      );
    };
    assert.deepEqual(text(at("total)", 1)), [10, "total"]);
    assert.deepEqual(text(at("bar.price", 1)), [12, "bar"]);
    assert.deepEqual(text(at("M3×8", 1, 1)), [13, '"M3×8"']);
    assert.deepEqual(text(at("qty * price", 1)), [10, "qty"]);
    assert.deepEqual(text(at("parts.bar", 1)), [10, "parts"]);
    const lines = (offset: number) =>
      service()
        .references(PATH, offset)
        .map(({ span }) => service().snapshot(PATH)!.lines.lineAt(span.start));
    assert.deepEqual(lines(at("| price", 1, 2)), [5, 8, 10, 10]);
    assert.deepEqual(lines(at("| bar", 1, 2)), [5, 7, 12]);
    assert.deepEqual(lines(at("parts:", 1)), [4, 5, 6, 7, 10]);
  });

  it("renames a column, a row and the table wherever they stand", () => {
    const renamed = (offset: number, name: string) => {
      const renaming = service().rename(PATH, offset, name);
      return "refusal" in renaming ? renaming.refusal : applyEdits(NOTE, renaming.edits[0].edits);
    };
    assert.equal(
      renamed(at("qty * price"), "count"),
      NOTE.replace("].qty", "].count").replace("| qty ", "| count ").replace("qty * price", "count * price"),
    );
    assert.equal(
      renamed(at("| bar", 1, 2), "rail"),
      NOTE.replace("parts.bar.price", "parts.rail.price")
        .replace("= parts.bar", "= parts.rail")
        .replace("| bar ", "| rail "),
    );
    assert.equal(renamed(at("parts:"), "list"), NOTE.replaceAll("parts", "list"));
    assert.equal(renamed(at("| qty", 1, 2), "price"), "`price` is another column of `parts`.");
    assert.equal(
      renamed(at("boards ="), "qty"),
      NOTE.replace("    boards =", "    qty =").replace("= boards", "= qty"),
    );
    assert.match(renamed(at("| bar", 1, 2), "M4×8"), /is no name, and this row is named behind a dot/);
    assert.equal(renamed(at('"M3×8" |', 1, 2), "M4×8"), NOTE.replaceAll("M3×8", "M4×8"));
  });

  it("refuses a name that a formula of a table would take for its column", () => {
    const note = "    f = 2\n\n| t: | a | b = a * f |\n| -- | - | - |\n| x | 1 | |\n";
    const renaming = holding({ [PATH]: note }).rename(PATH, 4, "a");
    assert.equal(
      "refusal" in renaming && renaming.refusal,
      "`a` is a column of `t`, in whose formulas `f` stands: there it would stand for the column.",
    );
    assert.ok("edits" in holding({ [PATH]: note.replace("a * f", "a") }).rename(PATH, 4, "a"));
  });

  it("refuses to rename what stands in a file", () => {
    const { text, offset } = marked('    items LE¦D\n    use "p.csv" as p\n    a = sum(p.qty)\n');
    const files = holding({ [PATH]: text, "p.csv": "name,qty\nbar,3 LED\n" });
    const refusal = (at: number) => {
      const renaming = files.rename(PATH, at, "lamp");
      return "refusal" in renaming ? renaming.refusal : "";
    };
    assert.equal(refusal(offset), "`LED` stands in the file `p.csv`, which is read and not written: rename it there.");
    assert.equal(
      refusal(text.indexOf("qty")),
      "`qty` stands in the file `p.csv`, which is read and not written: rename it there.",
    );
    assert.equal(files.record(PATH).values[0].shown, "3 LED");
  });

  it("is aligned on request, and then left alone", () => {
    const ragged = "\n| t: | a | b \\|\\| c |\n|--|:-:|--:|\n| Ω | 12 V | 3 |\n| long name | 1 |\n";
    const fixes = (text: string) =>
      holding({ [PATH]: text })
        .fixes(PATH, { start: 3, end: 3 })
        .filter(({ fix }) => fix.title === "Align the table");
    const [{ fix }] = fixes(ragged);
    const text = applyEdits(ragged, fix.edits);
    assert.equal(
      text,
      `
| t:        |  a   | b \\|\\| c |
| --------- | :--: | -------: |
| Ω         | 12 V |        3 |
| long name |  1   |
`,
    );
    assert.deepEqual(fixes(text), []);
    assert.deepEqual(fixes("\n| t | a |\n| - | - |\n"), []);
  });

  it("can be made of a table of prose that has numbers in it", () => {
    const fixes = (text: string) =>
      holding({ [PATH]: text })
        .fixes(PATH, { start: 5, end: 5 })
        .map(({ fix }) => [fix.title, applyEdits(text, fix.edits)]);
    const rows = "| ---- | ---------- | --- |\n| bar  | 2.10 EUR   | 3 |\n";
    assert.deepEqual(fixes(`\n| Part | Unit price (EUR) | qty |\n${rows}`), [
      ["Compute with this table, as Part", `\n| Part: | Unit_price [EUR] | qty |\n${rows}`],
    ]);
    assert.deepEqual(fixes("\n| Who | When |\n| --- | ---- |\n| all | soon |\n"), []);
    assert.deepEqual(fixes(`\n| % | Unit price | qty |\n${rows}`), []);
    assert.deepEqual(fixes(`\n| Part | qty | qty |\n${rows}\n`), []);
    assert.deepEqual(fixes(`\n| Part | Unit price | qty |\n${rows}\n    Part = 3\n`), []);
  });

  it("is in the outline with its columns", () => {
    const [heading] = service().symbols(PATH);
    const table = heading.children.find(({ kind }) => kind === "table");
    assert.deepEqual(
      [table?.name, table?.detail, table?.children.map(({ name, detail }) => `${name} ${detail.split(",")[0]}`)],
      ["parts", "2 rows", ["qty ", "price ", "total total 19.25 EUR", "kind "]],
    );
    assert.equal(NOTE.slice(table!.span.start, table!.span.end).split("\n").length, 4);
  });

  it("tells over a counted unit what is counted, where, and what it comes to", () => {
    const { text, offset } = marked(`
    items LE¦D, board  # white
    use "more.csv" as more
    boards = 8 board
    on_boards = sum(lamps.all)
    spare = 5 % * 200 LED
    double = 2 * on_boards
    must double = 224 LED
    I = 20 mA/LED

| lamps: | per_board   | all = per_board * boards | loose |
| ------ | ----------: | -----------------------: | ----: |
| bar    | 12 LED/board |                         | 3 LED |
| rail   | 2 LED/board |                          | 2 board |
`);
    const files = { [PATH]: text, "more.csv": "name,qty\npanel,30 LED\nscrew,4\n" };
    assert.equal(
      holding(files).hover(PATH, offset)?.markdown,
      [
        "**`LED`** is counted: a unit of its own, which only `without LED` drops.",
        "white",
        "- `spare` 10 LED, from `5 % * 200 LED`\n- `double` 224 LED, from `2 * on_boards`\n- `lamps.loose` 3 LED, in `bar`\n- `more.qty` 30 LED, in `panel`",
        "Together 267 LED, if none of them is counted in another",
        "Counted in there: `on_boards`, `lamps.all`",
        "Also in `I`, `lamps.per_board`",
      ].join("\n\n"),
    );
  });

  it("keeps cells that are left empty in an assembly out of the record", () => {
    const note = `
| bom: | part | of   | qty | mass |
| ---- | ---- | ---- | --: | ---: |
| 1    | lamp |      |   1 |      |
| 2    | tube | lamp |   2 | 30 g |
`;
    const { values } = holding({ [PATH]: note }).record(PATH);
    assert.deepEqual(
      values.map(({ name }) => name),
      ['bom["1"].qty', 'bom["2"].qty', 'bom["2"].mass'],
    );
  });

  it("has its cells in the record, each by its name and on its line", () => {
    const cells = service()
      .record(PATH)
      .values.filter(({ name }) => name.startsWith("parts"));
    assert.deepEqual(
      cells.map(({ name, line, kind, value, unit, shown }) => [name, line, kind, value, unit, shown]),
      [
        ["parts.bar.qty", 13, "derived", 8, "board", "8 board"],
        ['parts["M3×8"].qty', 14, "given", 7, "1", "7"],
        ["parts.bar.price", 13, "given", 2.1, "EUR/board", "2.1 EUR/board"],
        ['parts["M3×8"].price', 14, "given", 0.35, "EUR", "0.35 EUR"],
        ["parts.bar.total", 13, "derived", 16.8, "EUR", "16.8 EUR"],
        ['parts["M3×8"].total', 14, "derived", 2.45, "EUR", "2.45 EUR"],
      ],
    );
  });
});

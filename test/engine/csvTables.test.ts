import assert from "node:assert/strict";
import { holding, loaded } from "../features/notes";

const PATH = "n.calcs.md";

async function using(csv: string, lines: readonly string[], file = "parts.csv") {
  const text = [`    use "${file}" as parts`, ...lines.map((line) => `    ${line}`), ""].join("\n");
  return loaded(PATH, text, { [file]: csv });
}

/** What stands beside the lines of a note that uses a file. */
async function beside(csv: string, ...lines: readonly string[]): Promise<readonly string[]> {
  const service = await using(csv, lines);
  assert.deepEqual(
    service.findings(PATH).map(({ code, message }) => `${code} ${message}`),
    [],
  );
  return service
    .results(PATH)
    .map(({ text }) => text)
    .slice(1);
}

/** The findings of a note that uses a file. */
async function told(csv: string, ...lines: readonly string[]): Promise<readonly string[]> {
  const service = await using(csv, lines);
  return service.findings(PATH).map(({ code, message }) => `${code}: ${message}`);
}

describe("a CSV file", () => {
  it("is a table, with units in its headers and text in quotes", async () => {
    const csv = '\ufeffpart,qty,current [mA],kind\r\nbar,8,40,"lamp, long"\r\n"M3×8",7,0,"so called ""screw"""\r\n';
    assert.deepEqual(
      await beside(
        csv,
        "all = sum(parts.qty)",
        "I = sum(parts.qty * parts.current)",
        "one = parts.bar.current",
        'two = parts["M3×8"].qty',
        'lamps = size(filter(parts.part, parts.kind = "lamp, long"))',
        "choose P = parts.bar",
        "of_part = P.current",
        'must parts.kind != "x"',
      ),
      ["15", "320 mA", "40 mA", "7", "1", "40 mA", "holds"],
    );
  });

  it("may be parted by semicolons and have decimal commas, and headers that are no names", async () => {
    const csv = "Part no.;Unit price (EUR);Length\n1;1.234,50;2,5 m\n2;0,35;3,5 .. 4,5 m\n";
    assert.deepEqual(await beside(csv, "all = sum(parts.Unit_price)", "long = sum(parts.Length)"), [
      "1234.85 EUR",
      "6 .. 6.5 .. 7 m",
    ]);
  });

  it("may be parted by tabs, and compute", async () => {
    assert.deepEqual(await beside("a\tb\tc = b * 2\nx\t3 V\t\n", "y = parts.x.c"), ["6 V"]);
  });

  it("tells what is wrong in it where it is used", async () => {
    assert.deepEqual(await told('part,qty\nbar,3\n"lens,4\nclip,5\n'), [
      "table.file: Line 3: A field opens here with a quotation mark that nothing closes: the rest of the file is read as part of it. Inside quotes a mark is written twice. One other thing is wrong in it.",
    ]);
    assert.deepEqual(await told("part,qty\nbar,3\nlens,4,5\n"), [
      "table.file: Line 3: `lens` has 3 cells under 2 headers: what is too much is not read. A field with a separator in it stands in quotes.",
    ]);
    assert.deepEqual(await told("part,qty\nbar,3 Vx,1\nlens,4\nclip,,\nknob\nfoot\n"), [
      "table.file: Line 2: `bar` has 3 cells under 2 headers: what is too much is not read. A field with a separator in it stands in quotes. Line 2, `qty`: `Vx` is no unit. If it is something that is counted, say so: `items Vx`. Line 4: `clip` has 3 cells under 2 headers: what is too much is not read. A field with a separator in it stands in quotes. 2 other things are wrong in it, on lines 5 and 6.",
    ]);
    assert.deepEqual(await told("part,qty\nbar,3 V\nlens,4 Vx\n", "x = sum(parts.qty)"), [
      "table.file: Line 3, `qty`: `Vx` is no unit. If it is something that is counted, say so: `items Vx`.",
    ]);
    assert.deepEqual(await told("", "x = parts.qty"), [
      "table.emptyFile: `parts.csv` is empty. A table begins with a line of headers, a row to each line after it.",
    ]);
    assert.deepEqual(await told("\n \n", "x = parts.qty"), await told("", "x = parts.qty"));
    assert.deepEqual(await told("part,qty\nbar,3\n", "x = parts.mass"), [
      "table.unknown: The table `parts` has no column `mass`. It has `part`, `qty`.",
    ]);
  });

  it("is shown in hover as a table", async () => {
    const service = await using("part,qty\nbar,3\nle|ns,4\n", ["x = sum(parts.qty)"]);
    assert.equal(
      service.hover(PATH, 9)?.markdown,
      "The table `parts.csv`, 2 rows\n\n| part | qty |\n| --- | --- |\n| bar | 3 |\n| le\\|ns | 4 |",
    );
    assert.match(
      service.hover(PATH, service.snapshot(PATH)!.text.indexOf("qty"))?.markdown ?? "",
      /^\*\*`parts\.qty`\*\* total 7/,
    );
  });

  it("may be an assembly", async () => {
    const csv = "part,of,qty,mass\nlamp,,1,\nboard,lamp,8,12 g\nscrew,lamp,4,1 g\nscrew,board,2,1 g\n";
    assert.deepEqual(await beside(csv, "mass = rollup(parts.mass)"), ["116 g"]);
  });

  it("of fifty thousand lines does not hang", async () => {
    const lines = Array.from({ length: 50_000 }, (_, i) => `p${i},${i % 100},0.${i % 10} EUR`);
    const csv = ["part,qty,price", ...lines].join("\n");
    assert.deepEqual(await beside(csv, "n = size(parts.qty)", "all = sum(parts.qty)"), ["50000", "2475000"]);
  });

  it("counts what the notes count that use it, whichever comes or goes first", () => {
    const service = holding({});
    const shown = () => service.record(PATH).values.at(-1)?.shown;
    const note = '    items LED\n    use "parts.csv" as parts\n    n = sum(parts.qty)\n';
    service.open(PATH, note);
    service.open("parts.csv", "part,qty\nbar,3 LED\nrail,4 LED\n");
    assert.equal(shown(), "7 LED");
    for (const gone of ["    items LED\n", '    use "parts.csv" as parts\n', note]) {
      service.open(PATH, note.replace(gone, ""));
      assert.equal(shown() ?? "", "");
      service.open(PATH, note);
      assert.equal(shown(), "7 LED");
    }
    service.close("parts.csv");
    assert.equal(shown(), "");
    service.open("parts.csv", "part,qty\nbar,3 LED\nrail,5 LED\n");
    assert.equal(shown(), "8 LED");
  });
});

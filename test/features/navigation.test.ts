import assert from "node:assert/strict";
import type { Service } from "../../src/service";
import { applyEdits } from "../../src/text/edit";
import { holding, marked, note } from "./notes";

const FIRST = `# Adapter with \`supply\`, \`supply * 2\` and supply

${note(`items LED
given supply = 24 V ± 5 %   # supply
assume I = 20 mA
share(x, of = 2) = supply * x / of
half = share(0.5, of = 1)
measured supply = 24.1 V at I = 10 mA
count = 3 LED * 2 LED/(1 LED)
bare = count * supply without LED
all = sum(k * supply for k = 1 .. 3)
must supply <= 30 V`)}

- [ ] look at \`supply\`
`;
const SECOND = note(`items LED
use "first.calcs.md" as first
supply = 3 V
x = first.supply + supply
y = first.share(2, of = 3)
z = first.count / (1 LED)`);

function both(): Service {
  return holding({ "d/first.calcs.md": FIRST, "d/second.calcs.md": SECOND });
}

/** The lines, from 1, on which a name of one of the two notes stands, by note. */
function linesOf(path: string, before: string): Record<string, number[]> {
  const service = both();
  const offset = service.snapshot(path)!.text.indexOf(before);
  const lines: Record<string, number[]> = {};
  for (const { path: where, span } of service.references(path, offset)) {
    const { lines: index } = service.snapshot(where)!;
    (lines[where.slice(2, -9)] ??= []).push(index.lineAt(span.start) + 1);
  }
  return lines;
}

describe("references", () => {
  it("are all places of a quantity, in both notes and in prose", () => {
    const expected = { first: [1, 4, 6, 8, 10, 11, 12, 14], second: [4] };
    assert.deepEqual(linesOf("d/first.calcs.md", "supply = 24"), expected);
    assert.deepEqual(linesOf("d/first.calcs.md", "supply`, "), expected);
    assert.deepEqual(linesOf("d/second.calcs.md", "supply + supply"), expected);
  });
  it("keep apart what has the same name in another note", () =>
    assert.deepEqual(linesOf("d/second.calcs.md", "supply = 3"), { second: [3, 4] }));
  it("of a parameter are those in its function and the arguments that name it", () => {
    assert.deepEqual(linesOf("d/first.calcs.md", "of = 2"), { first: [6, 6, 7], second: [5] });
    assert.deepEqual(linesOf("d/second.calcs.md", "of = 3"), { first: [6, 6, 7], second: [5] });
    assert.deepEqual(linesOf("d/first.calcs.md", "k * supply"), { first: [11, 11] });
  });
  it("of a counted unit are its units and `without`, in notes that share quantities", () =>
    assert.deepEqual(linesOf("d/first.calcs.md", "LED/("), { first: [3, 9, 9, 9, 10], second: [1, 6] }));
  it("of an alias are where it stands", () =>
    assert.deepEqual(linesOf("d/second.calcs.md", "first\n"), { second: [2, 4, 5, 6] }));
  it("are none of what no note defines", () => {
    for (const place of ["V ± 5", "24 V", "# supply", "Adapter", "must"])
      assert.deepEqual(linesOf("d/first.calcs.md", place), {});
  });
});

describe("definition", () => {
  function definitionOf(path: string, before: string): string | undefined {
    const service = both();
    const found = service.definition(path, service.snapshot(path)!.text.indexOf(before));
    if (!found) return undefined;
    const { text, lines } = service.snapshot(found.path)!;
    return `${found.path.slice(2, -9)} ${lines.lineAt(found.span.start) + 1} ${text.slice(found.span.start, found.span.end)}`;
  }
  it("is found from uses, members, live references, units, arguments and paths", () => {
    assert.equal(definitionOf("d/first.calcs.md", "supply * x"), "first 4 supply");
    assert.equal(definitionOf("d/second.calcs.md", "supply + "), "first 4 supply");
    assert.equal(definitionOf("d/second.calcs.md", "first.supply"), "second 2 first");
    assert.equal(definitionOf("d/first.calcs.md", "supply`\n"), "first 4 supply");
    assert.equal(definitionOf("d/first.calcs.md", "LED * 2"), "first 3 LED");
    assert.equal(definitionOf("d/first.calcs.md", "of = 1"), "first 6 of");
    assert.equal(definitionOf("d/second.calcs.md", "share"), "first 6 share");
    assert.equal(definitionOf("d/second.calcs.md", "first.calcs"), "first 1 ");
    assert.equal(definitionOf("d/first.calcs.md", "mA"), undefined);
  });
});

describe("renaming", () => {
  /** What the notes are after the word at the mark of the first has another name; or why it has not. */
  function renamed(markedText: string, newName: string, others: Record<string, string> = {}): string[] | string {
    const { text, offset } = marked(markedText);
    const texts: Record<string, string> = { "a.calcs.md": text, ...others };
    const result = holding(texts).rename("a.calcs.md", offset, newName);
    if ("refusal" in result) return result.refusal;
    for (const { path, edits } of result.edits) texts[path] = applyEdits(texts[path], edits);
    return Object.values(texts);
  }

  it("follows a name across notes and prose", () =>
    assert.deepEqual(
      renamed("See `Vf`, `Vf + 1`.\n\n    assume ¦Vf = 3 V\n    x = Vf + f(Vf = 2)\n    f(Vf) = Vf\n", "V_f", {
        "b.calcs.md": note('use "a.calcs.md" as a\ny = a.Vf\nVf = 2'),
      }),
      [
        "See `V_f`, `Vf + 1`.\n\n    assume V_f = 3 V\n    x = V_f + f(Vf = 2)\n    f(Vf) = Vf\n",
        note('use "a.calcs.md" as a\ny = a.V_f\nVf = 2'),
      ],
    ));
  it("follows counted units, parameters and lines that cannot be read", () => {
    assert.deepEqual(renamed(note("items ¦LED\nx = 3 LED^2/LED\ny = x without LED"), "lamp"), [
      note("items lamp\nx = 3 lamp^2/lamp\ny = x without lamp"),
    ]);
    assert.deepEqual(renamed(note("f(¦a) = a * b\nx = f(a = 2)\na = 3\nb = a"), "length"), [
      note("f(length) = length * b\nx = f(length = 2)\na = 3\nb = a"),
    ]);
    assert.deepEqual(renamed(note("¦a = 3\nb = a + (2 * a\nmust a <"), "size"), [
      note("size = 3\nb = size + (2 * size\nmust size <"),
    ]);
  });
  it("takes names of any script, and CRLF", () =>
    assert.deepEqual(renamed("    ¦θ = 3\r\n    b = 2 * θ\r\n", "窓"), ["    窓 = 3\r\n    b = 2 * 窓\r\n"]));

  const refusals: readonly [text: string, newName: string, refusal: string][] = [
    ["¦a = 3\nb = a", "b", "`b` is taken: it is defined on line 2."],
    ["¦a = 3\nV_f = a", "V_f", "`V_f` is taken: it is defined on line 2."],
    ["¦a = 3\nρ = a", "p", "`p` looks like `ρ` on line 2; nobody could tell them apart."],
    ["¦a = 3", "2x", "`2x` is no name: a name begins with a letter and goes on with letters, digits and `_`."],
    ["¦a = 3", "x y", "`x y` is no name: a name begins with a letter and goes on with letters, digits and `_`."],
    ["¦a = 3", "", "`` is no name: a name begins with a letter and goes on with letters, digits and `_`."],
    ["¦a = 3", "from", "`from` is a word of the language and cannot be a name."],
    ["¦a = 3", "given", "`given` is a word of the language and cannot be a name."],
    ["items ¦LED", "mA", "`mA` is a unit already, so nothing that is counted can have that name."],
    ["¦f(x) = x", "sqrt", "`sqrt` is a function that is built in; a function of the note cannot have its name."],
    ["¦a = 3", "π", "`π` is a constant that is built in."],
    [
      "¦a = 3\nf(x) = a * x",
      "x",
      "`x` is bound on line 2, where `a` is used: there it would stand for something else.",
    ],
    ["a = 3\nf(¦x) = a * x", "a", "`a` is used in the same statement for something else."],
    ["a = 3 ¦V", "W", "No name stands here that a note defines, so there is nothing to rename."],
    ["a = ¦nowhere", "W", "No name stands here that a note defines, so there is nothing to rename."],
    ["a = 3 # ¦a", "W", "No name stands here that a note defines, so there is nothing to rename."],
  ];
  for (const [text, newName, refusal] of refusals)
    it(`refuses ${text.split("\n")[0]} → ${newName}`, () => assert.equal(renamed(note(text), newName), refusal));

  it("refuses what would make another of a table: columns are known by their names in assemblies and networks", () => {
    const tree = "| set: | ¦part | of | qty |\n| --- | --- | --- | --- |\n| 1 | lamp | | 1 |\n";
    const refusal = (from: string, to: string) =>
      `By the names of its columns \`set\` is an assembly or a network, or would become one: \`${from}\` cannot become \`${to}\`.`;
    assert.equal(renamed(tree, "piece"), refusal("part", "piece"));
    const net =
      "| set: | from | to | R | ¦I |\n| --- | --- | --- | --- | --- |\n| a | 0V | N | 1 Ω | |\n| b | N | 0V | | 1 A |\n";
    assert.equal(renamed(net, "current_taken"), refusal("I", "current_taken"));
    assert.notEqual(renamed(net, "load"), refusal("I", "load"));
    const plain = "| set: | from | to | R | ¦draw |\n| --- | --- | --- | --- | --- |\n| a | 0V | N | 1 Ω | |\n";
    assert.equal(renamed(plain, "load"), refusal("draw", "load"));
    assert.notEqual(renamed(plain, "takes"), refusal("draw", "takes"));
  });

  it("shows what it would rename", () => {
    const { text, offset } = marked(note("abc = 3\nx = ab¦c"));
    const span = holding({ n: text }).renameSpan("n", offset)!;
    assert.equal(text.slice(span.start, span.end), "abc");
    assert.equal(holding({ n: text }).renameSpan("n", text.indexOf("3")), undefined);
  });
});

describe("a note that moves", () => {
  const TEXTS = {
    "/w/a.calcs.md": note('use "sub/b.calcs.md" as b\nuse "./c.calcs.md" as c'),
    "/w/sub/b.calcs.md": note('use "../c.calcs.md" as c\nuse "d.calcs.md" as d\nuse "nowhere'),
    "/w/c.calcs.md": "",
    "/w/sub/d.calcs.md": "",
  };
  function moved(...moves: readonly [from: string, to: string][]): Record<string, string> {
    const after: Record<string, string> = {};
    for (const { path, edits } of holding(TEXTS).movedFiles(moves.map(([from, to]) => ({ from, to }))))
      after[path] = applyEdits(TEXTS[path as keyof typeof TEXTS], edits);
    return after;
  }
  it("is named anew in the notes that use it", () =>
    assert.deepEqual(moved(["/w/c.calcs.md", "/w/parts/e.calcs.md"]), {
      "/w/a.calcs.md": note('use "sub/b.calcs.md" as b\nuse "parts/e.calcs.md" as c'),
      "/w/sub/b.calcs.md": note('use "../parts/e.calcs.md" as c\nuse "d.calcs.md" as d\nuse "nowhere'),
    }));
  it("names anew what it uses", () =>
    assert.deepEqual(moved(["/w/sub/b.calcs.md", "/w/b.calcs.md"]), {
      "/w/a.calcs.md": note('use "b.calcs.md" as b\nuse "./c.calcs.md" as c'),
      "/w/sub/b.calcs.md": note('use "c.calcs.md" as c\nuse "sub/d.calcs.md" as d\nuse "nowhere'),
    }));
  it("may move with its folder", () =>
    assert.deepEqual(moved(["/w/sub", "/w/deep/er"]), {
      "/w/a.calcs.md": note('use "deep/er/b.calcs.md" as b\nuse "./c.calcs.md" as c'),
      "/w/sub/b.calcs.md": note('use "../../c.calcs.md" as c\nuse "d.calcs.md" as d\nuse "nowhere'),
    }));
  it("may move together with what it uses, under new names", () =>
    assert.deepEqual(moved(["/w/sub/b.calcs.md", "/w/e/f.calcs.md"], ["/w/c.calcs.md", "/w/e/g.calcs.md"]), {
      "/w/a.calcs.md": note('use "e/f.calcs.md" as b\nuse "e/g.calcs.md" as c'),
      "/w/sub/b.calcs.md": note('use "g.calcs.md" as c\nuse "../sub/d.calcs.md" as d\nuse "nowhere'),
    }));
  it("changes nothing where nobody uses it", () =>
    assert.deepEqual(holding(TEXTS).movedFiles([{ from: "/w/x.calcs.md", to: "/w/y.calcs.md" }]), []));
});

/* eslint no-control-regex: off -- Control characters are what is looked for. */
import assert from "node:assert/strict";
import { parsed, Workspace } from "./workspace";
import { assertFollowsSchema } from "./schema";

const GOOD = `    given I = 20 mA
    R = 3 V / I
    must R <= 200 Ω
`;
const FAILING = `# Heat

    given  θ = 20 .. 25 .. 30 K/W from "sheet"
    assume P = 1 W # guess
    over   T_a = 0 .. 40 °C
    T = T_a + θ * P
    must   T <= 60 °C    # the glue creeps
    should T >= 0 °C
    must   P <= 2 W

- [ ] must: a thermocouple on the lid
- [x] should: done long ago
- [ ] paint it
`;

describe("copperbook check", () => {
  let workspace: Workspace;
  beforeEach(() => (workspace = new Workspace()));
  afterEach(() => workspace.remove());

  it("ends with 0 where every must holds, and says so", async () => {
    workspace.write("a.calcs.md", GOOD);
    const { code, output, errors } = await workspace.run(["check"]);
    assert.deepEqual({ code, errors }, { code: 0, errors: "" });
    assert.match(output, /^├─ a\.calcs\.md ─+ 1 hold ─┤\n/);
    assert.match(output, /\n1 note: 1 hold\nEvery must holds, and no note has an error\.\n$/);
  });

  it("names a line once in the last sentence, however much is wrong in it", async () => {
    workspace.write("a.calcs.md", "# A\n\n    x = nowhere + neither\n    y = never\n");
    const { output } = await workspace.run(["check"]);
    assert.match(output, /\n3 errors: a\.calcs\.md:3, a\.calcs\.md:4\.\n$/);
  });

  it("ends with 1 where a must fails, and says which, by how much, why and where", async () => {
    workspace.write("b/heat.calcs.md", FAILING).write("a.calcs.md", GOOD);
    const { code, output, errors } = await workspace.run(["check"]);
    assert.deepEqual({ code, errors }, { code: 1, errors: "" });
    assert.match(output, /\nb\/heat\.calcs\.md:7:12 {2}error {2}rule\.failsAtLimits\n/);
    assert.match(output, /\n {4}must T <= 60 °C\n {4}.*fails at the limits, every build tried, 10 K short/);
    assert.equal(output.split("10 K short").length, 2, "It is said once.");
    assert.match(output, /\n {4}# the glue creeps\n/);
    assert.match(output, /\n {4}├─+┴─+╂─+┤\n {4}20 +45 +60 +70 °C\n/);
    assert.match(
      output,
      /\n {2}settle first {2}P 1 W, without limits, a tenth of it can take 17 % of what `must T <= 60 °C` has to\n {16}spare \(line 4\)\n/,
    );
    assert.match(
      output,
      /\n {2}open items +must: a thermocouple on the lid {2}\(line 11\)\n +paint it {2}\(line 13\)\n/,
    );
    assert.doesNotMatch(output, /done long ago/);
    assert.match(
      output,
      /\n2 notes: 1 fail · 3 hold · 1 guess · 2 open items\n1 must does not hold: b\/heat\.calcs\.md:7\.\n$/,
    );
  });

  it("names of the rules that hold the one with the least to spare", async () => {
    workspace.write(
      "a.calcs.md",
      "    given I = 9 A\n    must I <= 10 A\n    must I <= 9.5 A\n    must I <= 20 A\n    must I <= 1 A\n",
    );
    const { output } = await workspace.run(["check"]);
    assert.match(output, /\n {2}closest rule +must I <= 9\.5 A, 5\.3 % to spare {2}\(line 3\)\n/);
  });

  it("says how a band is written where one is asked for by =", async () => {
    workspace.write("a.calcs.md", "    given a = 3 V ± 1 %\n    must a = 3 V ± 10 %\n    must a = 3 V\n");
    const { output } = await workspace.run(["check"]);
    const asked = /`=` asks for every value between the limits at once\. For a band write\s+`a inside 3 V ± 10 %`\.\n/;
    assert.match(output, asked);
    assert.equal(output.match(/For a band/g)?.length, 1, "Only of limits is a band made.");
  });

  it("names a handful of the inputs at the worst point, says how many more there are, and tears none from its value", async () => {
    const rows = Array.from({ length: 300 }, (_, i) => `| r${i} | 10 V ± 5 % |\n`).join("");
    workspace.write("a.calcs.md", `| t: | a |\n| - | - |\n${rows}\n    must sum(t.a) <= 3000 V\n`);
    const { output } = await workspace.run(["check"]);
    const [entry] = /fails at the limits[^╷]*/.exec(output) ?? [""];
    assert.match(entry, /^fails at the limits, .* 5 % short at\n? *t\.r0\.a 10\.5 V, t\.r1\.a 10\.5 V,/);
    assert.equal(entry.match(/t\.r\d+\.a 10\.5 V/g)?.length, 6, entry);
    assert.match(entry, / and 294\s+more\n/);
    assert.doesNotMatch(entry, /\.a\n/);
  });

  it("lists the rules that hold where that is asked for, with what is to spare", async () => {
    workspace.write(
      "a.calcs.md",
      "    given I = 0 .. 9 A\n    must I <= 10 A\n    must I <= 8 A in 50 % of builds\n    must I >= 0 A # no back feed\n",
    );
    const { output } = await workspace.run(["check", "--all-rules"]);
    assert.match(
      output,
      /\n {2}hold {10}must I <= 10 A, 10 % to spare {2}\(line 2\)\n {16}must I <= 8 A in 50 % of builds, 8\d(\.\d)? % of builds keep it, 50 % asked for {2}\(line 3\)\n {16}must I >= 0 A, nothing to spare {2}\(line 4\)\n/,
    );
    assert.doesNotMatch(output, /closest rule/);
  });

  it("shows what is short with as many digits as it takes", async () => {
    workspace.write(
      "a.calcs.md",
      "    given a = 5.0000001 V\n    given b = 5 V\n    must a <= b\n    given T = 20 .. 85.00001 °C\n    must T <= 85 °C\n    must a = b\n",
    );
    const { output } = await workspace.run(["check"]);
    assert.match(output, /\n {4}must a <= b\n {4}fails, 2e-6 % short\n {4}a is 5\.0000001 V, and b is 5 V\n/);
    assert.match(output, /10 µK short at T 85\.00001 °C\n/);
    assert.match(output, /\n {4}20 +52\.5 +85\.00001 °C\n/);
    assert.match(output, /\n {4}must a = b\n {4}fails\n {4}a is 5\.0000001 V, and b is 5 V\n/);
  });

  it("quotes a rule with the share of builds that it asks for", async () => {
    workspace.write("a.calcs.md", "    given x = 0 .. 1 V\n    must x <= 0.9 V in 95 % of builds # the ADC\n");
    const run = await workspace.run(["check"]);
    assert.match(run.output, /\n {4}must x <= 0\.9 V in 95 % of builds\n {4}.*fails at the limits/);
    const json = parsed(await workspace.run(["check", "--format", "json"]));
    assert.equal(json.notes[0].rules[0].condition, "x <= 0.9 V in 95 % of builds");
    assert.match(json.notes[0].findings[0].message, /^`x <= 0\.9 V in 95 % of builds` fails at the limits, /);
  });

  it("says so where a must fails in a note that is used and was not asked for", async () => {
    workspace
      .write("sub/part.calcs.md", "    given I = 2 A\n    must I <= 1 A\n    x = y\n")
      .write("a.calcs.md", '    use "sub/part.calcs.md" as part\n    must part.I <= 3 A\n');
    const used = await workspace.run(["check", "a.calcs.md"]);
    assert.equal(used.code, 0, "It is judged by its own rules.");
    assert.match(
      used.output,
      /\nEvery must that is written here holds, and no note has an error\. In what it uses: 1 must does not\nhold: sub\/part\.calcs\.md:2\. 1 error: sub\/part\.calcs\.md:3\.\n$/,
    );
    const all = await workspace.run(["check"]);
    assert.match(all.output, /\n1 must does not hold: sub\/part\.calcs\.md:2\. 1 error: sub\/part\.calcs\.md:3\.\n$/);
    const within = await workspace.run(["check", "../a.calcs.md"], {}, "sub");
    assert.match(within.output, /In what it uses: 1 must does not\s+hold: part\.calcs\.md:2\./);
  });

  it("ends with 0 where only a should fails, and shows it", async () => {
    workspace.write("a.calcs.md", "    given I = 2 A\n    should I <= 1 A\n");
    const { code, output } = await workspace.run(["check"]);
    assert.equal(code, 0);
    assert.match(output, /should I <= 1 A\n {4}.*fails, 100 % short/);
    assert.match(output, /1 note: 1 fail\nThere is no must, and no note has an error\.\n$/);
  });

  it("does not say that all is well while a must is open", async () => {
    workspace.write("a.calcs.md", `${GOOD}\n- [ ] must: weigh it\n- [ ] should: paint it\n`);
    const { code, output } = await workspace.run(["check"]);
    assert.equal(code, 0);
    assert.match(
      output,
      /\nEvery must that computes holds, and no note has an error\. 1 must is still open: a\.calcs\.md:\d+\.\n$/,
    );
  });

  it("tells a must that cannot be read once, with the reason", async () => {
    workspace.write("a.calcs.md", "    given I = 2 A\n    must I between 1 A and 3 A\n");
    const { code, output } = await workspace.run(["check"]);
    assert.equal(code, 1);
    assert.deepEqual(output.split("\n").slice(2), [
      "a.calcs.md:2:12  error  syntax.unexpected",
      "    must I",
      "    undecided, it cannot be read",
      "    `between` cannot follow here: the statement is complete before it. A band is written",
      "    `inside 1 A .. 3 A`.",
      "",
      "1 note: 1 undecided",
      "1 must does not hold: a.calcs.md:2.",
      "",
    ]);
  });

  it("tells a must that goes on over lines once, wherever in it the reason stands", async () => {
    workspace.write("a.calcs.md", "    given I = 2 A\n    must I <=\n      2 W\n    x = 1 A + 1 s\n");
    const { output } = await workspace.run(["check"]);
    assert.match(output, /\n1 must does not hold: a\.calcs\.md:2\. 1 error: a\.calcs\.md:4\.\n$/);
    const run = await workspace.run(["check", "--format", "json"]);
    assertFollowsSchema(run.output);
    const [{ line, lastLine, condition }] = parsed(run).notes[0].rules;
    assert.deepEqual([line, lastLine, condition], [2, 3, "I <= 2 W"]);
  });

  it("says of a must that is no condition what it lacks", async () => {
    workspace.write("a.calcs.md", "    given I = 2 A\n    must I\n");
    const { output } = await workspace.run(["check"]);
    assert.match(output, /undecided, it cannot be read\n {4}A rule states a condition, such as `a <= b`, and this is/);
  });

  it("is as wide in a pipe as COLUMNS asks for", async () => {
    workspace.write("a.calcs.md", GOOD);
    const widthOf = async (COLUMNS?: string) => {
      const { output } = await workspace.run(["check"], { environment: COLUMNS === undefined ? {} : { COLUMNS } });
      return [...output.split("\n")[0]].length;
    };
    assert.deepEqual([await widthOf("60"), await widthOf(), await widthOf("wide")], [60, 100, 100]);
  });

  it("draws both limits of a band", async () => {
    workspace.write("a.calcs.md", "    V = 3 .. 5 V\n    must V inside 2 .. 4.5 V\n");
    const { output } = await workspace.run(["check"]);
    assert.match(output, /\n {4}2 +3 +4 +4\.5 +5 V\n/);
  });

  it("ends with 1 where a must is undecided", async () => {
    workspace.write("a.calcs.md", "    given I = 2 A\n    x = I + y\n    must x <= 1 A\n");
    const { code, output } = await workspace.run(["check"]);
    assert.equal(code, 1);
    assert.match(output, /must x <= 1 A\n {4}.*undecided/);
    assert.match(output, /\n1 note: 1 undecided\n1 must does not hold: a\.calcs\.md:3\. 1 error: a\.calcs\.md:2\.\n$/);
  });

  it("ends with 1 where a note has an error and no rule", async () => {
    workspace.write("a.calcs.md", "    x = 2 m + 1 s\n");
    const { code, output } = await workspace.run(["check"]);
    assert.equal(code, 1);
    assert.match(output, /\na\.calcs\.md:1:\d+ {2}error {2}unit\.mismatch\n {4}\S/);
    assert.match(output, /\n1 note: no rules\n1 error: a\.calcs\.md:1\.\n$/);
  });

  it("reads the notes that others use, and judges only those that are named", async () => {
    workspace.write("a.calcs.md", '    use "b/c.calcs.md" as c\n    must c.I <= 1 A\n');
    workspace.write("b/c.calcs.md", "    given I = 0.5 A\n    must I <= 0.1 A\n");
    const run = await workspace.run(["check", "a.calcs.md", "--format", "json"]);
    assert.equal(run.code, 0);
    assert.deepEqual(
      parsed(run).notes.map(({ path, rules }) => [path, rules[0].state]),
      [["a.calcs.md", "holds"]],
    );
  });

  it("names paths from the current folder", async () => {
    workspace.write("here/x.calcs.md", GOOD).write("there/a.calcs.md", GOOD);
    const run = await workspace.run(["check", "../there", ".", "--format", "json"], {}, "here");
    assert.deepEqual(
      parsed(run).notes.map(({ path }) => path),
      ["x.calcs.md", "../there/a.calcs.md"],
    );
  });

  it("ends with 2 where something named is not there, whatever the rest", async () => {
    workspace.write("a.calcs.md", GOOD);
    const run = await workspace.run(["check", "a.calcs.md", "gone.calcs.md"]);
    const errors = "copperbook: gone.calcs.md cannot be read: there is no such file or folder.\n";
    assert.deepEqual(run, { code: 2, output: "", errors });
  });

  it("checks the rest where a folder that is named holds no note, and ends with 2", async () => {
    workspace.write("a/heat.calcs.md", "    must 1 V < 2 V\n").write("empty/readme.txt", "");
    const { code, output, errors } = await workspace.run(["check", "empty", "a"]);
    assert.equal(code, 2);
    assert.match(output, /1 note: 1 hold\nNot everything could be read\.\n$/);
    assert.equal(
      errors,
      "copperbook: There is no note in empty: a note is a Markdown file with a name that ends in .calcs.md.\n",
    );
  });

  it("says of a note without a calculation why nothing computes, once", async () => {
    workspace
      .write("prose.calcs.md", "# Lamp\n\nWords only.\n")
      .write("margin.calcs.md", "must 1 V < 2 V\n")
      .write("good.calcs.md", GOOD);
    const said = /Nothing in this note computes/;
    const prose = await workspace.run(["check", "prose.calcs.md"]);
    assert.match(prose.output, said);
    assert.equal(prose.code, 0);
    assert.match((await workspace.run(["values", "prose.calcs.md"])).output, said);
    const margin = await workspace.run(["check", "margin.calcs.md"]);
    assert.match(margin.output, /note\.atMargin/);
    assert.doesNotMatch(margin.output, said);
    assert.doesNotMatch((await workspace.run(["check", "good.calcs.md"])).output, said);
  });

  it("ends with 2 where there is no note", async () => {
    const run = await workspace.run(["check"]);
    assert.deepEqual(run, {
      code: 2,
      output: "",
      errors:
        "copperbook: There is no note in this folder: a note is a Markdown file with a name that ends in .calcs.md.\n",
    });
  });

  it("prints one JSON shape for everything, as its schema says", async () => {
    workspace.write("heat.calcs.md", FAILING);
    const run = await workspace.run(["check", "--format", "json"]);
    assert.equal(run.code, 1);
    assertFollowsSchema(run.output);
    const [note] = parsed(run).notes;
    assert.deepEqual(note.values[0], {
      name: "θ",
      line: 3,
      kind: "given",
      value: 25,
      min: 20,
      max: 30,
      unit: "K/W",
      shown: "20 .. 25 .. 30 K/W",
      attained: true,
      inputsAt: { min: { θ: "20 K/W" }, max: { θ: "30 K/W" } },
      standardUncertainty: 2.88675134595,
      contributions: [{ name: "θ", share: 1, varianceShare: 1 }],
    });
    const T = note.values.find(({ name }) => name === "T")!;
    assert.deepEqual([T.value, T.min, T.max, T.unit], [318.15, 293.15, 343.15, "K"]);
    assert.deepEqual(note.rules[0], {
      line: 7,
      word: "must",
      condition: "T <= 60 °C",
      state: "failsAtLimits",
      inputsAt: { worst: { T_a: "40 °C", θ: "30 K/W" } },
      share: 0,
    });
    assert.deepEqual(note.rules[2], {
      line: 9,
      word: "must",
      condition: "P <= 2 W",
      state: "holds",
      spare: 0.5,
      share: 1,
    });
    assert.deepEqual(note.openItems, [
      { line: 11, word: "must", text: "a thermocouple on the lid" },
      { line: 13, text: "paint it" },
    ]);
  });

  describe("on a screen", () => {
    const screen = (columns: number) => ({ isScreen: true, columns, write: () => {} });
    beforeEach(() => workspace.write("heat.calcs.md", FAILING));

    it("sets in bold what fails, and in nothing else than weight", async () => {
      const { output } = await workspace.run(["check"], { output: screen(80) });
      assert.match(output, /\u{1B}\[1m {4}[^\u{1B}]*fails at the limits[^\u{1B}]*\u{1B}\[22m/u);
      assert.deepEqual([...new Set(output.match(/\u001B\[\d+m/g))], ["\u001B[1m", "\u001B[22m"]);
    });

    const plain = [{ NO_COLOR: "1" }, { TERM: "dumb" }];
    for (const environment of plain) {
      it(`is plain with ${JSON.stringify(environment)}, and says the same`, async () => {
        const { output } = await workspace.run(["check"], { output: screen(80), environment });
        assert.doesNotMatch(output, /\u001B/);
        const styled = await workspace.run(["check"], { output: screen(80) });
        assert.equal(styled.output.replace(/\u001B\[\d+m/g, ""), output);
      });
    }

    for (const columns of [40, 60, 80, 120]) {
      it(`keeps to ${columns} columns`, async () => {
        const { output } = await workspace.run(["check"], { output: screen(columns), environment: { NO_COLOR: "1" } });
        for (const line of output.split("\n")) assert.ok([...line].length <= columns, `${line.length}: ${line}`);
      });
    }
  });

  it("lets no note command the terminal", async () => {
    workspace.write(
      "a\u001B[2J.calcs.md",
      "    assume x = 1 V # \u001B[31mred\n    must x <= 0.5 V # \u202Eesrever\n\n- [ ] \u001B]0;title\u0007\n",
    );
    const { output } = await workspace.run(["check"]);
    assert.doesNotMatch(output, /[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u202E]/);
  });
});

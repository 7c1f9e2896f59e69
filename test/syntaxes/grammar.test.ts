import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { IGrammar } from "vscode-textmate";
import { NATIVES } from "../../src/engine/natives";
import { colour, noteGrammar, type ColouredToken } from "./colouring";

describe("colouring of notes", () => {
  let grammar: IGrammar;
  before(async () => {
    grammar = await noteGrammar();
  });

  /** The tokens of one calculation line, each as `text scope`, with the innermost scope and without the language's suffix. */
  const tokensOf = (statement: string): string[] =>
    visible(colour(grammar, `    ${statement}`)[0]).map(({ text, scopes }) => {
      const innermost = scopes[scopes.length - 1] ?? "";
      return `${text} ${innermost.replace(/\.copperbook$/, "")}`;
    });

  const assertTokens = (statement: string, expected: string[]): void => assert.deepEqual(tokensOf(statement), expected);

  const assertHas = (statement: string, ...expected: string[]): void => {
    const tokens = tokensOf(statement);
    for (const token of expected) assert.ok(tokens.includes(token), `${token} is not among ${tokens.join(" | ")}`);
  };

  describe("statements", () => {
    it("tells the opening word, the name it defines, numbers, units and the source", () => {
      assertTokens(`given supply = 24 V ± 5 % from "sheet"  # in`, [
        "given keyword.control.statement",
        "supply entity.name.variable",
        "= keyword.operator.assignment",
        "24 constant.numeric",
        "V keyword.other.unit",
        "± keyword.operator.tolerance",
        "5 constant.numeric",
        "% keyword.other.unit",
        "from keyword.other.clause",
        `" punctuation.definition.string.begin`,
        "sheet string.quoted.double",
        `" punctuation.definition.string.end`,
        "# punctuation.definition.comment",
        "in comment.line.number-sign",
      ]);
    });

    it("tells what a function holds for, also on a line of its own", () => {
      assertTokens("f(x) = 2 where x < 3", [
        "f entity.name.function",
        "( punctuation.section.parameters.begin",
        "x variable.parameter",
        ") punctuation.section.parameters.end",
        "= keyword.operator.assignment",
        "2 constant.numeric",
        "where keyword.other.clause",
        "x variable.other.readwrite",
        "< keyword.operator.comparison",
        "3 constant.numeric",
      ]);
      assertHas("  where x < 3", "where keyword.other.clause");
    });

    it("tells a choice and its series", () => {
      assertTokens("R_1 = burden / I choose at least 4k7J from E24", [
        "R_1 entity.name.variable",
        "= keyword.operator.assignment",
        "burden variable.other.readwrite",
        "/ keyword.operator.arithmetic",
        "I variable.other.readwrite",
        "choose keyword.control.choose",
        "at keyword.control.choose",
        "least keyword.control.choose",
        "4k7J constant.numeric",
        "from keyword.other.clause",
        "E24 support.constant.series",
      ]);
    });

    it("keeps E24 free to be a name", () => assertHas("x = E24 * 2", "E24 variable.other.readwrite"));

    it("shows the unit asked for after a defined name", () =>
      assertHas("I_total [mA] = a", "I_total entity.name.variable", "mA keyword.other.unit"));

    it("tells the units of a function's parameters, and of what it gives", () => {
      assertHas(
        "fill(C [F], k [W/(m·K)] = (1 + 2) * 1 W/(m·K)) [µs] = C",
        "fill entity.name.function",
        "C variable.parameter",
        "F keyword.other.unit",
        "k variable.parameter",
        "W/(m·K) keyword.other.unit",
        "µs keyword.other.unit",
      );
    });

    it("tells a function, its parameters and its calls", () => {
      assertTokens("fill(C, R = 2 Ω) = ln(2) * R", [
        "fill entity.name.function",
        "( punctuation.section.parameters.begin",
        "C variable.parameter",
        ", punctuation.separator",
        "R variable.parameter",
        "= keyword.operator.assignment",
        "2 constant.numeric",
        "Ω keyword.other.unit",
        ") punctuation.section.parameters.end",
        "= keyword.operator.assignment",
        "ln support.function",
        "( punctuation.section.parens",
        "2 constant.numeric",
        ") punctuation.section.parens",
        "* keyword.operator.arithmetic",
        "R variable.other.readwrite",
      ]);
      assertHas("w = copper.width(I, rise = 10 K)", "copper entity.name.namespace", "width entity.name.function");
      assertHas("w = copper.width(I, rise = 10 K)", "rise variable.parameter");
    });

    it("tells a measurement from a definition, with its clauses", () =>
      assertHas(
        `measured V_f = 3.1 V of 40 at ambient = 20 °C on 2026-02-11 from "bench" instead`,
        "measured keyword.control.statement",
        "V_f variable.other.readwrite",
        "of keyword.other.clause",
        "at keyword.other.clause",
        "ambient variable.parameter",
        "°C keyword.other.unit",
        "on keyword.other.clause",
        "2026-02-11 constant.numeric.date",
        "instead keyword.other.clause",
      ));

    it("tells rules and their conditions", () => {
      assertHas("must a <= b and not c inside 1 .. 2 V", "must keyword.control.rule", "<= keyword.operator.comparison");
      assertHas("must a <= b and not c inside 1 .. 2 V", "and keyword.operator.logical", ".. keyword.operator.range");
      assertHas(
        "must a <= 3 in 99 % of builds",
        "3 constant.numeric",
        "in keyword.other.clause",
        "99 constant.numeric",
      );
      assertHas("x = if a then b else c", "if keyword.control.conditional", "else keyword.control.conditional");
    });

    it("tells items, other notes and accepted findings", () => {
      assertHas("items LED, board", "items keyword.control.statement", "board entity.name.type.item");
      assertHas(`use "supply.calcs.md" as supply`, "as keyword.other.clause", "supply entity.name.namespace");
      assertHas("x = supply.voltage", "supply variable.other.object", "voltage variable.other.property");
      assertHas(
        `accept rule.fails because "known"`,
        "rule.fails constant.other.finding",
        "because keyword.other.clause",
      );
    });

    it("takes WORD = for a definition, whatever the word", () => {
      for (const word of ["given", "must", "order", "choose"])
        assertHas(`${word} = 3`, `${word} entity.name.variable`, "= keyword.operator.assignment");
    });

    it("does not take a longer name for an opening word", () => {
      assertHas("mustard + 1", "mustard variable.other.readwrite");
      assertHas("x = fromage + if_low", "fromage variable.other.readwrite", "if_low variable.other.readwrite");
    });
  });

  describe("numbers and units", () => {
    const literals: [literal: string, number: string, unit: string][] = [
      ["0.4 W/(m·K)", "0.4", "W/(m·K)"],
      ["4.5 nV/√Hz", "4.5", "nV/√Hz"],
      ["9.81 m/s^2", "9.81", "m/s^2"],
      ["20 m²", "20", "m²"],
      ["10 mA/LED", "10", "mA/LED"],
      ["1/16 in", "1/16", "in"],
      ["1e-6 F", "1e-6", "F"],
      ["100.02147(35) g", "100.02147(35)", "g"],
      ["5\u00a0µA", "5", "µA"],
      ["30 °", "30", "°"],
    ];
    for (const [literal, number, unit] of literals)
      it(`reads ${literal}`, () => {
        const expected = [`${number} constant.numeric`, `${unit} keyword.other.unit`];
        assert.deepEqual(tokensOf(`x = ${literal}`).slice(2), expected);
      });

    for (const number of ["0x1F", "0b1010", "1_000", "2R2", "4n7", "10k", "0R47"])
      it(`reads ${number}`, () => assert.deepEqual(tokensOf(`x = ${number}`).slice(2), [`${number} constant.numeric`]));

    it("leaves a name after an operator a name", () =>
      assertHas("x = 12 V / R", "V keyword.other.unit", "/ keyword.operator.arithmetic", "R variable.other.readwrite"));

    it("does not take a clause word for a unit", () => {
      assertHas("x = 3 without LED", "without keyword.operator.word");
      assertHas("x = 3 choose 4 from E6", "choose keyword.control.choose");
    });
  });

  it("knows every native function", () => {
    for (const name of NATIVES.keys()) assertHas(`x = ${name}(1)`, `${name} support.function`);
  });

  describe("a data table", () => {
    /** The tokens of the lines of a table but those of its pipes. */
    const tableTokens = (...lines: readonly string[]): string[][] =>
      colour(grammar, lines.join("\n")).map((line) =>
        visible(line)
          .filter(({ text }) => text !== "|")
          .map(({ text, scopes }) => `${text} ${scopes.at(-1)!.replace(/\.copperbook$/, "")}`),
      );
    const HEAD = ["| parts: | qty | current [mA] |", "| :--- | --: | - |"];

    it("tells its name, its columns with their units, and the formula of a computed one", () => {
      assert.deepEqual(
        tableTokens("| parts: | qty | current [mA] | total [EUR] = qty * price | R = R1 \\|\\| 2 Ω |")[0],
        [
          "parts entity.name.variable",
          ": punctuation.definition.table",
          "qty entity.name.variable",
          "current entity.name.variable",
          "[ punctuation.section.brackets.begin",
          "mA keyword.other.unit",
          "] punctuation.section.brackets.end",
          "total entity.name.variable",
          "[ punctuation.section.brackets.begin",
          "EUR keyword.other.unit",
          "] punctuation.section.brackets.end",
          "= keyword.operator.assignment",
          "qty variable.other.readwrite",
          "* keyword.operator.arithmetic",
          "price variable.other.readwrite",
          "R entity.name.variable",
          "= keyword.operator.assignment",
          "R1 variable.other.readwrite",
          "\\|\\| keyword.operator.arithmetic",
          "2 constant.numeric",
          "Ω keyword.other.unit",
        ],
      );
    });

    it("tells the names of rows, values, expressions, text and nothing", () => {
      const [, rule, bar, screw, code] = tableTokens(
        ...HEAD,
        "| bar | = 2 * boards | 40 ± 2 |",
        '| "M3×8" | .. 3 V | "black" |',
        "| 24 | 0603 | — |",
      );
      assert.deepEqual(rule, ["| :--- | --: | - | punctuation.separator.table.header"]);
      assert.deepEqual(bar, [
        "bar variable.other.property",
        "= keyword.operator.assignment",
        "2 constant.numeric",
        "* keyword.operator.arithmetic",
        "boards variable.other.readwrite",
        "40 constant.numeric",
        "± keyword.operator.tolerance",
        "2 constant.numeric",
      ]);
      assert.deepEqual(screw, [
        '"M3×8" string.quoted.double',
        ".. keyword.operator.range",
        "3 constant.numeric",
        "V keyword.other.unit",
        '"black" string.quoted.double',
      ]);
      assert.deepEqual(code, ["24 variable.other.property", "0603 string.unquoted", "— comment"]);
    });

    it("needs no pipes at its edges, and lets an unclosed quote cost one cell", () => {
      const [head, , row] = tableTokens("parts: | kind | qty", "--- | --- | ---", 'bar | "lamp | 3');
      assert.deepEqual(head, [
        "parts entity.name.variable",
        ": punctuation.definition.table",
        "kind entity.name.variable",
        "qty entity.name.variable",
      ]);
      assert.deepEqual(row, ["bar variable.other.property", '"lamp string.unquoted', "3 constant.numeric"]);
    });

    it("ends where Markdown ends it", () => {
      for (const next of ["", "# Heading", "- a | b", "    a = 3 | V", "> a | b"]) {
        const lines = colour(grammar, [...HEAD, "| bar | 3 | 4 |", next, "a | b"].join("\n"));
        const inTable = lines.map((line) => line.some(({ scopes }) => scopes.includes("markup.table.data.copperbook")));
        assert.deepEqual(inTable, [true, true, true, false, false], next);
      }
    });
  });

  describe("what is left to Markdown", () => {
    const untouched: [what: string, text: string][] = [
      ["prose", "The supply = 24 V is fixed."],
      ["a heading", "# given = 3"],
      ["a line that lazily continues a paragraph", "Some prose\n    given a = 3 V"],
      ["a line that belongs to the list above", "- an item\n\n    given a = 3 V"],
      ["a task list", "- [ ] must: measure it\n- [x] should: tidy"],
      ["fenced code", "```\n    given a = 3 V\n```"],
      ["a comment", "<!--\n    given a = 3 V\n-->"],
      ["a quote", ">     given a = 3 V"],
      ["front matter", "---\n    given a = 3 V\n---"],
      ["a table of prose", "| part | qty |\n| ---- | --: |\n| bar  | = 3 |"],
      ["a data table in a list", "- parts\n\n  | parts: | qty |\n  | ------ | --: |\n  | bar    | = 3 |"],
      ["three columns", "   given a = 3 V"],
    ];
    for (const [what, text] of untouched)
      it(`does not colour ${what}`, () => {
        const coloured = colour(grammar, text).flat().filter(isOurs);
        assert.deepEqual(coloured, []);
      });

    it("colours again after a list that a heading ends", () => {
      const lines = colour(grammar, "- an item\n\n## Next\n    given a = 3 V");
      assert.ok(visible(lines[3]).every(isOurs));
    });

    it("colours a calculation after a blank line, after another, and with a tab", () => {
      const lines = colour(grammar, "Prose.\n\n    a = 3 V\n    b = 4 V\n\n\tc = 5 V\n  \td = 6 V\nProse.");
      const coloured = lines.map((line) => line.length > 0 && visible(line).some(isOurs));
      assert.deepEqual(coloured, [false, false, true, true, false, true, true, false]);
    });

    it("lets an unclosed bracket or quote cost one line", () => {
      const lines = colour(grammar, `    a = (3 V + \n    use "broken\n    must a < 4 V\nProse.`);
      const opening = visible(lines[2])[0];
      assert.ok(opening.scopes.includes("keyword.control.rule.copperbook"));
      assert.equal(lines[3].some(isOurs), false);
    });
  });

  it("leaves no character of a sample's calculations without a scope of its own", () => {
    const paths = samplePaths();
    assert.ok(paths.length >= 4);
    let seen = 0;
    for (const path of paths)
      for (const token of colour(grammar, readFileSync(path, "utf8")).flatMap(visible).filter(isOurs)) {
        seen++;
        assert.ok(token.scopes.length > 1, `${path}: nothing is said about ${JSON.stringify(token.text)}`);
      }
    assert.ok(seen > 500);
  });
});

/** Scopes that end in the language's name are ours; the root, which ends so too, is left out by `colour`. */
function isOurs(token: ColouredToken): boolean {
  return token.scopes.some((scope) => scope.endsWith(".copperbook"));
}

function visible(line: readonly ColouredToken[]): ColouredToken[] {
  return line.filter(({ text }) => text.trim() !== "").map((token) => ({ ...token, text: token.text.trim() }));
}

function samplePaths(): string[] {
  const samples = join(__dirname, "../../samples");
  return readdirSync(samples, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".calcs.md"))
    .map((path) => join(samples, path));
}

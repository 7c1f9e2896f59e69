import assert from "node:assert/strict";
import { inputTexts } from "../../src/phrases/inputTexts";
import { extentText, inputsAtEnd } from "../../src/phrases/value";
import { rulePhrase } from "../../src/phrases/rule";
import { openNotes } from "../notation";

/** Ranges that enclosing line by line would make too wide: one input comes in by several ways. */
describe("a quantity that an input reaches by several ways", () => {
  const INPUTS = `
    V = 48 V ± 3 %
    W = 12 V ± 10 %
    R = 100 Ω ± 1 %
    V_in = 9 .. 12 .. 15 V
`;
  const rows = (lines: string) => openNotes(INPUTS + lines).program.snapshot("note.calcs.md")!.rows;
  const last = (lines: string) => rows(lines).at(-1)!.outcome;

  for (const [lines, shown] of [
    ["    out = V - W\n    x = V - out\n", "10.8 .. 12 .. 13.2 V"],
    ["    same = V\n    x = same - V\n", "0 V"],
    ["    x = (V + 1 V) - V\n", "1 V"],
    ["    x = R / R\n", "1"],
    ["    I = V_in / R\n    x = I^2 * R\n", "0.802 .. 1.44 .. 2.27 W"],
    ["    x = R / (R + W / (1 A))\n", "0.882 .. 0.893 .. 0.903"],
    ["    x = if W > 12 V then W else 20 V\n", "12 .. 20 .. 20 V"],
    ["    x = sqrt(1 - (W / (20 V))^2)\n", "0.751 .. 0.8 .. 0.842"],
  ] as const) {
    it(`${lines.trim().split("\n").at(-1)!.trim()} is ${shown}`, () => {
      const outcome = last(lines);
      assert.ok(outcome.kind === "quantity");
      assert.equal(extentText(outcome.values[0], outcome), shown);
      assert.deepEqual(outcome.problems, []);
    });
  }

  it("names the inputs at its ends", () => {
    const outcome = last("    I = V_in / R\n    x = I^2 * R\n");
    assert.ok(outcome.kind === "quantity");
    assert.deepEqual(inputTexts(inputsAtEnd(outcome.values[0], "high")), ["V_in 15 V", "R 99 Ω"]);
    assert.deepEqual(inputTexts(inputsAtEnd(outcome.values[0], "low")), ["V_in 9 V", "R 101 Ω"]);
  });

  it("has its rules decided", () => {
    const power = "    I = V_in / R\n    P = I^2 * R\n";
    const phrase = (rule: string) => {
      const outcome = last(`${power}    ${rule}\n`);
      assert.ok(outcome.kind === "rule");
      return rulePhrase(outcome);
    };
    assert.equal(phrase("must P <= 2.5 W"), "holds, 9.1 % to spare");
    assert.equal(phrase("must P <= 2 W"), "fails at the limits, 14 builds in 100, 14 % short at V_in 15 V, R 99 Ω");
    assert.equal(phrase("must P <= 1 W"), "fails, 127 % short");
  });

  it("has no search where all is proved line by line", () => {
    const outcome = last("    x = V - W\n");
    assert.ok(outcome.kind === "quantity");
    assert.equal(outcome.values[0].found, undefined);
  });

  it("is looked at again where only what lies behind its arguments changed", () => {
    const { program } = openNotes("    a = 1 .. 3\n    b = a - 2\n    c = b * b + a * 0\n    d = c * a\n");
    const x = () => {
      const outcome = program.snapshot("note.calcs.md")!.rows.at(-1)!.outcome;
      assert.ok(outcome.kind === "quantity");
      return outcome.values[0];
    };
    const before = x();
    const text = program.snapshot("note.calcs.md")!.text;
    const at = text.indexOf("a - 2");
    program.edit("note.calcs.md", { span: { start: at, end: at + 5 }, text: "2 - a" });
    program.settle();
    const fresh = openNotes(text.replace("a - 2", "2 - a")).program.snapshot("note.calcs.md")!.rows.at(-1)!.outcome;
    assert.ok(fresh.kind === "quantity");
    assert.deepEqual({ ...x(), found: undefined }, { ...fresh.values[0], found: undefined });
    assert.ok(Math.abs(before.high - 3) < 3e-3);
  });
});

describe("what is searched, and what is left", () => {
  const last = (text: string) => openNotes(text).program.snapshot("note.calcs.md")!.rows.at(-1)!.outcome;

  it("counts an operation once, by however many ways it is reached", () => {
    const lines = Array.from({ length: 40 }, (_, i) => `    x${i + 2} = x${i + 1} + (x${i} - x${i + 1})^2 / 8`);
    // There are some 10⁸ ways from the last line to the first, and 160 operations.
    const outcome = last(["", "    x0 = 2 ± 1 %", "    x1 = 3 ± 1 %", ...lines].join("\n"));
    assert.ok(outcome.kind === "quantity");
    assert.equal(outcome.values[0].standing, "attained");
    assert.ok(outcome.values[0].found);
  });

  it("leaves what rests on thousands of operations enclosed", () => {
    // Each line adds some fifty operations.
    const bent = (x: string) => `(${x} * (1 - ${x} / 1000) + ${x} / 7)`;
    const lines = Array.from(
      { length: 60 },
      (_, i) => `    x${i + 1} = ${Array.from({ length: 8 }, (_x, k) => bent(`(x${i} + ${k})`)).join(" - ")}`,
    );
    const outcome = last(["", "    x0 = 1 ± 1 %", ...lines].join("\n"));
    assert.ok(outcome.kind === "quantity");
    assert.equal(outcome.values[0].found, undefined);
    assert.equal(outcome.values[0].isPending, undefined);
  });

  const table = (rows: number, rule: string) => {
    const cells = Array.from({ length: rows }, (_, i) => `| r${i} | ${i + 1} ± 10 % | |`);
    return (
      `| load: | x | share = x / (x + load.x) |\n| --- | --- | --- |\n`.replace("load.x", "2") +
      `${cells.join("\n")}\n\n    ${rule}\n`
    );
  };

  it("decides a rule over a column as it decides each of its rows", () => {
    const rule = (text: string) => {
      const outcome = last(table(200, text));
      assert.ok(outcome.kind === "rule");
      return outcome;
    };
    // A share times what is left is a quarter at most, where the share is a half: where x is 2.
    const keeps = rule("must load.share * (1 - load.share) <= 0.2500001");
    assert.equal(keeps.state, "holds");
    assert.equal(keeps.clauses.length, 200);
    // So it is in the second row alone.
    const fails = rule("must load.share * (1 - load.share) <= 0.2499");
    assert.equal(fails.state, "fails");
    assert.deepEqual(
      fails.clauses.flatMap(({ state, rowName }) => (state === "holds" ? [] : [rowName])),
      ["r1"],
    );
  });

  it("finds the ranges of a computed column, however long", () => {
    const { program } = openNotes(table(30, "must load.x > 0"));
    const column = program
      .snapshot("note.calcs.md")!
      .rows.map(({ outcome }) => outcome)
      .find((outcome) => outcome.kind === "column" && outcome.isComputed);
    assert.ok(column?.kind === "column");
    column.values.forEach(({ standing, high }, i) => {
      assert.equal(standing, "attained");
      const most = (1.1 * (i + 1)) / (1.1 * (i + 1) + 2);
      assert.ok(Math.abs(high - most) < 1e-12, `row ${i}: ${high}, not ${most}`);
    });
  });
});

import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { divide, multiply, power, RATIO, type Dimension } from "../../src/quantity/dimension";
import { unit } from "../quantity/reading";

/**
 * The functional tests and the essence table of UCUM (Eclipse Public License and UCUM's own terms) are read from the
 * folder of published values beside the project, where there is one, and are not part of the project.
 */
const FOLDER = "../shared/published";

/** UCUM's case-sensitive codes, in our spelling. Codes that are not here are no units of the note language. */
const CODES: Readonly<Record<string, string>> = {
  "[in_i]": "in",
  "[ft_i]": "ft",
  "[mil_i]": "mil",
  "[lb_av]": "lb",
  "[oz_av]": "oz",
  "[lbf_av]": "lbf",
  "[psi]": "psi",
  Ohm: "Ω",
  deg: "°",
  "'": "′",
  "''": "″",
  "[ppm]": "ppm",
  a_j: "year",
  By: "byte",
};
const SAME =
  "m s g K C A cd mol sr Hz N Pa J W V F S Wb T H lm lx Bq Gy Sv rad min h d l L t bar eV kat bit % kg mg ms mm cm".split(
    " ",
  );

describe("published figures: UCUM", () => {
  if (!existsSync(`${FOLDER}/ucum_functional.json`)) {
    it("is not here", function () {
      console.log(`    NOT RUN: UCUM's functional tests and essence table, for there is no folder ${FOLDER}`);
      this.skip();
    });
    return;
  }

  const { cases } = JSON.parse(readFileSync(`${FOLDER}/ucum_functional.json`, "utf8")) as { cases: Case[] };
  const conversions = cases.filter(({ inputs }) => "from" in inputs);
  const operations = cases.filter(({ inputs }) => "v1" in inputs);

  it("conversions between units that the note language has", () => {
    let run = 0;
    for (const { id, inputs, expected } of conversions) {
      const [from, to] = [read(inputs.from), read(inputs.to)];
      if (from === undefined || to === undefined) continue;
      assert.equal(from.dimension, to.dimension, id);
      assertRounds((Number(inputs.value) * from.factor) / to.factor, Number(expected), inputs.value, id);
      run++;
    }
    assert.ok(run >= 15, `only ${run} of ${conversions.length} were run`);
  });

  it("products and quotients", () => {
    let run = 0;
    for (const { id, inputs, expected } of operations) {
      const [left, right] = [read(inputs.u1), read(inputs.u2)];
      const { value, unit: unitText } = expected as { value: string; unit: string };
      const result = unitText === "" ? { factor: 1, dimension: RATIO } : read(unitText);
      if (left === undefined || right === undefined || result === undefined) continue;
      const isProduct = id.includes("multiplication");
      const [a, b] = [Number(inputs.v1) * left.factor, Number(inputs.v2) * right.factor];
      assert.equal((isProduct ? multiply : divide)(left.dimension, right.dimension), result.dimension, id);
      assertRounds((isProduct ? a * b : a / b) / result.factor, Number(value), value, id);
      run++;
    }
    assert.equal(run, operations.length);
  });

  it("the definitions of the essence table, unit by unit", () => {
    const lines = readFileSync(`${FOLDER}/ucum_essence_units.tsv`, "utf8").trim().split("\n").slice(1);
    const checked: string[] = [];
    for (const line of lines) {
      const [kind, code, , , , isSpecial, value, of] = line.split("\t");
      const [ours, theirs] = [translate(code), read(of ?? "")];
      if (kind !== "unit" || isSpecial === "yes" || ours === undefined || theirs === undefined) continue;
      // There a mole is a number of things, and steradian and bit are one; with us all of them are kept.
      if (code === "mol" || code === "sr") continue;
      const defined = Number(value) * theirs.factor;
      assert.ok(Math.abs(unit(ours).factor / defined - 1) <= 1e-12, `${code}: ${unit(ours).factor} and ${defined}`);
      if (!["lm", "lx", "bit", "By"].includes(code)) assert.equal(unit(ours).dimension, theirs.dimension, code);
      checked.push(code);
    }
    assert.ok(checked.length >= 35, `only ${checked.join(" ")}`);
  });
});

interface Case {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: unknown;
}

interface Read {
  readonly factor: number;
  readonly dimension: Dimension;
}

/** A UCUM term, read from left to right; undefined where a code of it is no unit of ours. */
function read(term: string): Read | undefined {
  let result: Read = { factor: 1, dimension: RATIO };
  for (const [, operator, word] of term.matchAll(/(^|[./])([^./]+)/g)) {
    const [, code, exponent = "1"] = /^(10\*|[^\d+-]+|\d+)([+-]?\d+)?$/.exec(word) ?? [];
    if (code === undefined) return undefined;
    const n = Number(exponent) * (operator === "/" ? -1 : 1);
    const name = translate(code);
    if (code === "10*") result = { ...result, factor: result.factor * Number(`1e${n}`) };
    else if (/^\d+$/.test(word))
      result = { ...result, factor: result.factor * Number(word) ** (operator === "/" ? -1 : 1) };
    else if (name === undefined) return undefined;
    else {
      const { factor, dimension } = unit(name);
      result = { factor: result.factor * factor ** n, dimension: multiply(result.dimension, power(dimension, n)!) };
    }
  }
  return result;
}

function translate(code: string): string | undefined {
  return Object.hasOwn(CODES, code) ? CODES[code] : SAME.includes(code) ? code : undefined;
}

/** The outcome is rounded to the digits of the text: half a unit of its last digit, and a little for the binary fraction. */
function assertRounds(actual: number, expected: number, text: string, id: string): void {
  const digits = text.replace(/^[-0.]*|e.*$/gi, "").replace(".", "").length;
  const half = 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(expected))) - Math.max(digits, 1) + 1);
  assert.ok(Math.abs(actual - expected) <= half * 1.001, `${id}: ${actual} and ${expected}`);
}

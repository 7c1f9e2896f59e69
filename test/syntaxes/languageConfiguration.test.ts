import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";

interface Pattern {
  readonly pattern: string;
  readonly flags: string;
}

const configuration = JSON.parse(
  readFileSync(join(__dirname, "../../syntaxes/language-configuration.json"), "utf8"),
) as {
  readonly wordPattern: Pattern;
  readonly onEnterRules: readonly { readonly beforeText: Pattern; readonly action: { readonly indent: string } }[];
};

describe("language configuration", () => {
  /** The editor adds `g` itself. */
  const words = (line: string): string[] =>
    line.match(new RegExp(configuration.wordPattern.pattern, `${configuration.wordPattern.flags}g`)) ?? [];

  it("takes a name whole, in any script", () => {
    assert.deepEqual(words("V_f - θ_ja*R12/(T₁+ñ_2)"), ["V_f", "θ_ja", "R12", "T₁", "ñ_2"]);
    assert.deepEqual(words("supply.I_max"), ["supply", "I_max"]);
  });

  it("takes a number whole, and leaves its unit apart", () =>
    assert.deepEqual(words("4k7 + 2.8 .. 3.2 V"), ["4k7", "2.8", "3.2", "V"]));

  describe("Enter", () => {
    /** What the first rule that applies does, as the editor reads the rules; without one the indentation is kept. */
    const onEnter = (before: string): string =>
      configuration.onEnterRules.find(({ beforeText }) => new RegExp(beforeText.pattern, beforeText.flags).test(before))
        ?.action.indent ?? "keep";

    for (const open of [
      "    a = b +",
      "    a =",
      "    a = f(x, ",
      "\ta = b -",
      "    a = b choose",
      "    a = if b then",
    ])
      it(`goes in after ${JSON.stringify(open)}, which cannot end a statement`, () =>
        assert.equal(onEnter(open), "indent"));

    for (const closed of [
      "    a = b + c",
      "    a = 3 V  # why +",
      "    must a <= b",
      "Prose, and",
      "- a list +",
      "    a = then_",
      `    given a = 3 from "x +`,
    ])
      it(`keeps the indentation after ${JSON.stringify(closed)}`, () => assert.equal(onEnter(closed), "keep"));
  });
});

import assert from "node:assert/strict";
import { holding, note } from "./notes";

const record = (text: string) => holding({ "n.calcs.md": note(text) }).record("n.calcs.md");

const EXACT = { attained: true };

/** What is known of an input with limits, which is all that its value rests on. */
const ofItself = (name: string, min: string, max: string) => ({
  attained: true,
  inputsAt: { min: { [name]: min }, max: { [name]: max } },
  contributions: [{ name, share: 1, varianceShare: 1 }],
});

describe("the record of a note", () => {
  it("has the values in coherent SI units, in the order of the text", () =>
    assert.deepEqual(
      record(`items LED
given a = 20 mA ± 10 %
T = 25 °C
share = 5 %
n = 3 LED
x [mV] = 2 * 3 mV choose 6.2 mV ± 0.1 mV from E24
assume g = 1 .. 3 kΩ
over o = 1 .. 2 V
order boards = 5
measured x = 6 mV`).values,
      [
        {
          name: "a",
          line: 2,
          kind: "given",
          value: 0.02,
          min: 0.018,
          max: 0.022,
          unit: "A",
          shown: "18 .. 20 .. 22 mA",
          ...ofItself("a", "18 mA", "22 mA"),
          standardUncertainty: 0.00115470053838,
        },
        {
          name: "T",
          line: 3,
          kind: "derived",
          value: 298.15,
          min: 298.15,
          max: 298.15,
          unit: "K",
          shown: "25 °C",
          ...EXACT,
        },
        {
          name: "share",
          line: 4,
          kind: "derived",
          value: 0.05,
          min: 0.05,
          max: 0.05,
          unit: "1",
          shown: "5 %",
          ...EXACT,
        },
        { name: "n", line: 5, kind: "derived", value: 3, min: 3, max: 3, unit: "LED", shown: "3 LED", ...EXACT },
        {
          name: "x",
          line: 6,
          kind: "chosen",
          value: 0.0062,
          min: 0.0061,
          max: 0.0063,
          unit: "V",
          shown: "6.1 .. 6.2 .. 6.3 mV",
          ...ofItself("x", "6.1 mV", "6.3 mV"),
          standardUncertainty: 5.7735026919e-5,
        },
        {
          name: "g",
          line: 7,
          kind: "assumed",
          value: 2000,
          min: 1000,
          max: 3000,
          unit: "Ω",
          shown: "1 .. 2 .. 3 kΩ",
          ...ofItself("g", "1 kΩ", "3 kΩ"),
          standardUncertainty: 577.35026919,
        },
        {
          name: "o",
          line: 8,
          kind: "over",
          value: 1.5,
          min: 1,
          max: 2,
          unit: "V",
          shown: "1 .. 1.5 .. 2 V",
          ...ofItself("o", "1 V", "2 V"),
          standardUncertainty: 0,
          contributions: [{ name: "o", share: 1 }],
        },
        { name: "boards", line: 9, kind: "order", value: 5, min: 5, max: 5, unit: "1", shown: "5", ...EXACT },
        {
          name: "x",
          line: 10,
          kind: "measured",
          value: 0.006,
          min: 0.006,
          max: 0.006,
          unit: "V",
          shown: "6 mV",
          ...EXACT,
        },
      ],
    ));
  it("has a record for each member of a list, and no number where there is none", () => {
    assert.deepEqual(
      record("x = [1, 2] * 1 V").values.map(({ name, value }) => [name, value]),
      [
        ["x[1]", 1],
        ["x[2]", 2],
      ],
    );
    assert.deepEqual(record("x = 1 / (0 V)").values, [{ name: "x", line: 1, kind: "derived", unit: "1/V", shown: "" }]);
  });
  it("rounds to the digits that count", () => assert.equal(record("x = 0.1 + 0.2").values[0].value, 0.3));
  it("has the rules with what is to spare, and the inputs where that is least", () => {
    const worstAt = (a: string) => ({ inputsAt: { worst: { a } } });
    assert.deepEqual(
      record(
        "given a = 1 .. 3 V\nmust a <= 4 V # why\nshould a >= 2 V and   # because\n    a < 5 V\nmust a = 2 V\nmust b > 1",
      ).rules.map(({ share, ...rule }) => ({
        ...rule,
        ...(share === undefined ? {} : { share: Math.round(share * 100) / 100 }),
      })),
      [
        { line: 2, word: "must", condition: "a <= 4 V", state: "holds", spare: 0.25, ...worstAt("3 V"), share: 1 },
        {
          line: 3,
          lastLine: 4,
          word: "should",
          condition: "a >= 2 V and a < 5 V",
          state: "failsAtLimits",
          ...worstAt("1 V"),
          share: 0.5,
        },
        { line: 5, word: "must", condition: "a = 2 V", state: "failsAtLimits", ...worstAt("1 V"), share: 0 },
        { line: 6, word: "must", condition: "b > 1", state: "undecided", reason: "it cannot be read" },
      ],
    );
  });

  it("has the nearest other value of a choice with which a rule that fails holds", () => {
    const { rules } = record(
      "R = 12 Ω choose 12 Ω from E24\nI = 5 V / R\nmust I <= 400 mA\nmust I <= 250 mA\nmust I >= 99 A",
    );
    assert.deepEqual(
      rules.map(({ holdsWith }) => holdsWith),
      [{ name: "R", value: "13 Ω", allRules: false }, { name: "R", value: "20 Ω", allRules: false }, undefined],
    );
  });

  describe("of what is uncertain", () => {
    const valueOf = (name: string, text: string) => record(text).values.find((value) => value.name === name)!;

    it("has what each input contributes, by hand: limits add, variances add", () => {
      // ± 1.4 V from 7 V_f and ± 1.2 V from the supply: 2.8 V and 2.4 V of 5.2 V; 1.96 and 1.44 of 3.4, by thirds.
      const burden = valueOf("burden", "supply = 24 V ± 5 %\nV_f = 2.8 .. 3.2 V\nburden = supply - 7 * V_f");
      assert.deepEqual(burden.contributions, [
        { name: "V_f", share: 0.5385, varianceShare: 0.5765 },
        { name: "supply", share: 0.4615, varianceShare: 0.4235 },
      ]);
      assert.equal(burden.standardUncertainty, Number(Math.sqrt(3.4 / 3).toPrecision(12)));
      assert.deepEqual(burden.inputsAt, {
        min: { V_f: "3.2 V", supply: "22.8 V" },
        max: { V_f: "2.8 V", supply: "25.2 V" },
      });
      assert.equal("interactions" in burden || "degreesOfFreedom" in burden, false);
    });

    it("has what is left to interactions, so that the shares add up to 1", () => {
      // a * b from 0.25 to 2.25: each spans 1 of 2 at the slope of nominal. Of the variance 1/12 each, and 1/144 of both.
      const product = valueOf("y", "a = 1 ± 0.5\nb = 1 ± 0.5\ny = a * b");
      assert.deepEqual(product.contributions, [
        { name: "a", share: 0.5, varianceShare: 0.48 },
        { name: "b", share: 0.5, varianceShare: 0.48 },
      ]);
      assert.deepEqual(product.interactions, { share: 0, varianceShare: 0.04 });
      const square = valueOf("y", "a = 1 ± 0.5\nb = 0 ± 1\ny = a + b^2");
      assert.deepEqual(square.interactions!.share, 0.5);
    });

    it("has no standard uncertainty where the formula has no slope, and says so", () => {
      const square = valueOf("y", "x = 0 ± 1\ny = x^2");
      assert.equal("standardUncertainty" in square, false);
      assert.equal(square.variesWithoutSlope, true);
      assert.equal("variesWithoutSlope" in valueOf("y", "x = 1 ± 0.5\ny = x^2"), false);
    });

    it("says so of steps between ends that happen to equal the nominal value", () => {
      const steps = valueOf("y", "x = 4.42 ± 2.52\ny = ceil(mod(x, 0.822) * 2)");
      assert.deepEqual([steps.min, steps.value, steps.max], [0, 1, 2]);
      assert.equal(steps.variesWithoutSlope, true);
      assert.equal("standardUncertainty" in steps, false);
    });

    it("leaves operating conditions out of what builds vary by, not out of the range", () => {
      const drift = valueOf("y", "over T = 0 .. 50\nk = 2 ± 0.1\ny = k * T");
      assert.equal(drift.standardUncertainty, Number(((25 * 0.1) / Math.sqrt(3)).toPrecision(12)));
      assert.deepEqual(
        drift.contributions!.map(({ name, varianceShare }) => [name, varianceShare]),
        [
          ["T", undefined],
          ["k", 1],
        ],
      );
      assert.deepEqual(drift.inputsAt!.max, { T: "50", k: "2.1" });
    });

    it("has the degrees of freedom only where they are finite, and no uncertainty where a limit is not known", () => {
      const open = valueOf("y", "a = .. 3 .. 4 V\nb = 1 V ± 0.1 V\ny = a + b");
      assert.equal("standardUncertainty" in open || "min" in open, false);
      assert.equal(open.max, 5.1);
    });

    it("tells bounds that are guaranteed from values that occur", () => {
      // The least is where every cosine is −1: nearly so for k = 3.
      const wave = [1, 2, 3, 5, 7, 11, 13].map((k) => `cos(${k} * x + ${k} * y) * sin(${k} * z * x)`).join(" + ");
      const value = valueOf("w", `x = -30 .. 31\ny = -30 .. 32\nz = -30 .. 33\nw = ${wave}`);
      assert.equal(value.attained, false);
      assert.ok(
        value.min! < value.found!.min! && value.found!.min! < value.found!.max! && value.found!.max! < value.max!,
      );
      assert.deepEqual(Object.keys(value.inputsAt!.max), ["x", "y", "z"]);
    });

    it("has the inputs at the ends however many they are", () => {
      const names = Array.from({ length: 20 }, (_, i) => `x${i}`);
      const { inputsAt } = valueOf(
        "y",
        `${names.map((x) => `${x} = 1 V ± 0.1 V`).join("\n")}\ny = ${names.join(" + ")}`,
      );
      assert.deepEqual([Object.keys(inputsAt!.max).length, inputsAt!.min.x7], [20, "0.9 V"]);
    });

    it("has the same of the cells of tables", () => {
      const text = "| t: | a | y = 2 * a |\n| --- | --- | --- |\n| one | 1 V ± 0.1 V | |\n| two | 3 V | |\n";
      const { values } = holding({ n: text }).record("n");
      const cell = (name: string) => values.find((value) => value.name === name)!;
      const y = cell("t.one.y");
      assert.deepEqual([y.attained, y.contributions!.length, y.standardUncertainty], [true, 1, 0.115470053838]);
      assert.equal("standardUncertainty" in cell("t.two.y"), false);
    });

    it("tells inputs that are written alike apart", () => {
      const { inputsAt, contributions } = valueOf("y", "y = (1 ± 2 %) * (1 ± 2 %) * 3 V");
      assert.deepEqual(inputsAt!.max, { "1 ± 2 %": "1.02", "1 ± 2 % (2)": "1.02" });
      assert.equal(contributions!.length, 2);
    });
  });
  it("has the findings, lines and columns from 1", () => {
    const { findings } = record("a = 2 m\nb = a + 1 s");
    const [{ code, severity, line, column, message }] = findings;
    assert.deepEqual(
      { code, severity, line, column },
      { code: "unit.mismatch", severity: "error", line: 2, column: 13 },
    );
    assert.notEqual(message, "");
  });
  it("is plain JSON", () => {
    const plain = record("x = 1 / 0\ny = ln(0 - 1)\nz = 10^400\nmust x > 1");
    assert.deepEqual(JSON.parse(JSON.stringify(plain)), plain);
  });
  it("is empty of a note that is not held", () =>
    assert.deepEqual(holding({}).record("n"), {
      path: "n",
      values: [],
      rules: [],
      findings: [],
      openItems: [],
      settleFirst: [],
    }));
});

describe("the summary of a note", () => {
  const summary = (text: string) => holding({ n: text }).summary("n");
  it("counts rules, guesses, findings and open items", () => {
    const found = summary(
      note(`assume a = 1 .. 3 V
assume b = 2 V from "sheet"
assume c = 4 V
measured c = 4 V instead
must a + b + c <= 20 V
must a <= 2.5 V
must a <= 0.5 V
should nothing > 1
`) + "\n- [ ] one\n- [x] two\n",
    );
    assert.deepEqual([found.hold, found.failAtLimits, found.fail, found.undecided], [1, 1, 1, 1]);
    assert.deepEqual([found.guesses, found.openItems, found.isGood], [1, 1, false]);
    assert.ok(found.errors >= 2);
    assert.equal(found.text, "2 fail · 1 undecided · 1 hold · 1 guess");
  });
  it("is good where every `must` holds and there is no error", () => {
    assert.equal(summary(note("assume a = 1 V\nmust a < 2 V\nshould a < 0.5 V")).isGood, true);
    assert.equal(summary(note("a = 1 V\nmust a < 2 V\nb = c")).isGood, false);
    assert.equal(summary(note("a = 1 V\nmust a < 1 V")).isGood, false);
    const later = summary(note('fab board = "fab/"\nmust board.thickness < 2 mm'));
    assert.deepEqual([later.errors, later.undecided, later.isGood], [0, 1, false]);
  });
  it("is all zero for a note that is not held, and says nothing of an empty one", () => {
    assert.equal(summary("").text, "");
    assert.equal(holding({}).summary("n").hold, 0);
  });

  it("knows the must that a guess moves, also where the guess is worked out from other names", () => {
    const { settleFirst } = record("given a = 2 V\nassume b = a * (1 ± 10 %)\nmust b <= 3 V");
    assert.deepEqual(
      settleFirst.map(({ name, must }) => [name, must?.condition, must?.share]),
      [["b", "b <= 3 V", 0.2]],
    );
  });
});

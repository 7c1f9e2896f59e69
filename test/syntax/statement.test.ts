import assert from "node:assert/strict";
import { codes, parse, parseAs, render } from "./rendering";

describe("statements", () => {
  it("input, with the item and the source", () => {
    const read = parseAs("assume", 'assume V_f = 2.8 .. 3.2 V each LED from "sheet" # white');
    assert.equal(render(read.tree, read.name), "V_f");
    assert.equal(render(read.tree, read.value), "(range 2.8 3.2:V)");
    assert.equal(render(read.tree, read.each!.item!), "LED");
    assert.equal(read.tree.text(read.source!), "sheet");
    assert.equal(read.comment, "white");
    assert.deepEqual(parseAs("given", "given a = 1 each").each, {});
  });

  it("a slip in a clause costs the clause, not the definition", () => {
    const read = parseAs("given", "given supply = 24 V from adapter sheet");
    assert.equal(render(read.tree, read.value), "24:V");
    assert.equal(read.source, undefined);
    assert.deepEqual(codes(read), ["syntax.unexpected"]);
    const garbled = parseAs("given", 'given supply = 24 V oops from "sheet"');
    assert.equal(render(garbled.tree, garbled.value), "(missing 24:V)");
    assert.equal(garbled.tree.text(garbled.source!), "sheet");
  });

  it("what goes on unreadably behind a value costs the value", () => {
    const readings: readonly [kind: "derived" | "given" | "over" | "measured", text: string][] = [
      ["derived", "a = 3 V of 2"],
      ["derived", "a = 3 V at 25 °C"],
      ["given", 'given a = 3 V from "sheet" * 2'],
      ["given", "given a = 3 V choose 3 V from E24"],
      ["over", 'over a = 3 V from "sheet" * 2'],
      ["measured", "measured a = 3 V of 5 pieces"],
      ["measured", "measured a = 3 V each"],
    ];
    for (const [kind, text] of readings) {
      const read = parseAs(kind, text);
      const isRemark = text.endsWith("each");
      assert.equal(render(read.tree, read.value), isRemark ? "3:V" : "(missing 3:V)", text);
      assert.notEqual(read.problems.length, 0, text);
    }
    const chosen = parseAs("derived", "R = a choose 3 Ω from E24 * 2");
    assert.equal(render(chosen.tree, chosen.choice!.value), "(missing 3:Ω)");
  });

  it("a definition with a choice", () => {
    const read = parseAs("derived", "R [kΩ] = a / b choose at least 150 Ω ± 1 % from E24");
    assert.equal(render(read.tree, read.unit!), "kΩ");
    assert.equal(render(read.tree, read.value), "(/ a b)");
    const { sense, value, from, span } = read.choice!;
    assert.equal(sense, "least");
    assert.equal(render(read.tree, value), "(± 150:Ω 1:%)");
    assert.equal(render(read.tree, from!), "E24");
    assert.equal(read.text.slice(span.start, span.end), "choose at least 150 Ω ± 1 % from E24");
  });

  it("`WORD =` is a definition, whatever the word", () => {
    for (const word of ["given", "must", "plot", "items", "let", "on", "log"])
      assert.deepEqual([parse(`${word} = 3`).kind, codes(parse(`${word} = 3`))], ["derived", []], word);
    assert.deepEqual(codes(parse("x = on * at + log(of)")), []);
  });

  it("a function, its parameters and their defaults", () => {
    const read = parseAs("function", "f(a, b = 2 V) = a + b");
    assert.deepEqual(
      read.parameters.map(({ name, default: value }) => [
        render(read.tree, name),
        value === undefined ? "" : render(read.tree, value),
      ]),
      [
        ["a", ""],
        ["b", "2:V"],
      ],
    );
  });

  it("a measurement with all clauses", () => {
    const read = parseAs(
      "measured",
      'measured V = 3.2 V of 5 at T = 25 °C, I = 20 mA on 2024-02-29 from "bench" instead',
    );
    assert.equal(render(read.tree, read.value), "3.2:V");
    assert.equal(read.of, 5);
    assert.deepEqual(
      read.at.map(({ name, value }) => [render(read.tree, name), render(read.tree, value)]),
      [
        ["T", "25:°C"],
        ["I", "20:mA"],
      ],
    );
    assert.equal(read.on, "2024-02-29");
    assert.equal(read.instead, true);
    assert.equal(parseAs("measured", "measured V = 3 V on 2023-02-29").on, undefined);
  });

  it("a rule and its share of builds", () => {
    for (const [text, condition, share] of [
      ["must a < 3 V in 99.5 % of builds", "(compare a < 3:V)", 0.995],
      ["must a < 3 in 99 % of builds", "(compare a < 3)", 0.99],
      ["must a < 3 in", "(compare a < 3:in)", undefined],
      ["must a < 3 in in 99 % of builds", "(compare a < 3:in)", 0.99],
    ] as const) {
      const read = parseAs("rule", text);
      assert.equal(render(read.tree, read.condition), condition, text);
      assert.equal(read.share, share, text);
    }
  });

  it("a solution, a correlation, a plot, an acceptance", () => {
    const solution = parseAs("let", "let I in 1 .. 20 mA satisfy R * I = V - I");
    assert.equal(render(solution.tree, solution.left), "(* R I)");
    assert.equal(render(solution.tree, solution.right), "(- V I)");
    assert.equal(parseAs("correlation", "correlation A, B = -0.3").coefficient, -0.3);
    const plot = parseAs("plot", "plot a, b without LED, c for f = 1 Hz .. 10 kHz log");
    assert.deepEqual(
      plot.expressions.map((expression) => render(plot.tree, expression)),
      ["a", "(without b LED)", "c"],
    );
    assert.equal(plot.logarithmic, true);
    const accepted = parseAs("accept", 'accept caution.touch-hot because "behind a grille"');
    assert.equal(accepted.code, "caution.touch-hot");
    assert.equal(accepted.text.slice(accepted.codeSpan.start, accepted.codeSpan.end), accepted.code);
  });

  it("a broken one keeps the name it began to define", () => {
    for (const text of ["asume V_f = 3 V", "let V_f of 3", "fab V_f = 3", "V_f(3) = 2"]) {
      const read = parseAs("broken", text);
      assert.equal(read.tree.text(read.name!), "V_f", text);
      assert.equal(codes(read).length, 1, text);
    }
  });

  it("over several lines, with a comment on each", () => {
    const read = parseAs("derived", "x = max(a, # first\r\n    b) + # second\n    c # third");
    assert.equal(render(read.tree, read.value), "(+ (call max a b) c)");
    assert.equal(read.comment, "first second third");
  });

  it("invisible characters are told and read past, once each", () => {
    const read = parseAs("derived", "V\u200b_f =\u2060 3 V");
    assert.equal(read.tree.text(read.name), "V_f");
    assert.deepEqual(codes(read), ["syntax.invisibleCharacter", "syntax.invisibleCharacter"]);
    assert.deepEqual(codes(parse("x = 3 # a\u202eb\u200d")), ["syntax.invisibleCharacter"]);
    assert.deepEqual(codes(parse("x\u00a0=\u20093\u202fV")), []);
  });

  it("what is wrong with a comment or a text loses neither", () => {
    const read = parseAs("given", 'given a = 3 V from "p. \u202e2 # the \u202ebrief');
    assert.deepEqual(codes(read).sort(), [
      "syntax.invisibleCharacter",
      "syntax.invisibleCharacter",
      "syntax.unclosedQuote",
    ]);
    assert.equal(parse("a = 3 # the \u202ebrief").comment, "the \u202ebrief");
  });

  it("what is read twice is told once", () => {
    assert.deepEqual(codes(parse("R1 ** R2")), ["syntax.otherSign", "syntax.unnamedValue"]);
    assert.equal(parse("R1 # first\n  + R2 # second").comment, "first second");
  });
});

import assert from "node:assert/strict";
import { Service } from "../../src/service";
import { holding, libraryOf, loaded, marked, note } from "./notes";

const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

/** What hovering over the mark shows; a note that is used may be given. */
function at(markedText: string): string | undefined {
  const { text, offset } = marked(markedText);
  const hover = holding({ n: text }).hover("n", offset);
  if (hover) assert.ok(hover.span.start <= offset && offset <= hover.span.end, "The span holds the place.");
  return hover?.markdown;
}

const BAR = `
given  supply  = 24 V ± 5 %              from "adapter sheet, p. 2"
given  I_led   = 20 mA
assume V_f     = 2.8 .. 3.0 .. 3.2 V     # white, at 20 mA
in_series = 7
burden    = supply - in_series * V_f     # across the resistor
R_series  = burden / I_led   choose at least 150 Ω ± 1 % from E24
I_string  = burden / R_series
P_R       = burden * I_string
must   burden <= 5 V                     # *hot*
measured V_f = 2.9 V of 12 at I_led = 20 mA on 2026-03-14 from "bench"
`;

/** The note above with a mark before the first place where a text stands. */
function bar(before: string, skip = ""): string {
  const from = BAR.indexOf(skip);
  const place = BAR.indexOf(before, from + skip.length);
  return note(`${BAR.slice(0, place)}¦${BAR.slice(place)}`);
}

describe("hover over a quantity", () => {
  it("says value, picture, formula, limits, comment and uses, in this order", () =>
    assert.equal(
      at(bar("burden")),
      `**\`burden\`** 0.4 .. 3 .. 5.6 V

\`\`\`text
               ╷           ┃
├──────────────┴───────────╂───┤
0.4            3           5   5.6 V
\`\`\`

\`\`\`text
supply - in_series * V_f
24 V   - 7         * 3 V
\`\`\`

Contributions to the range: V\\_f 54 %, supply 46 %  
Standard uncertainty 1.1 V, variance by V\\_f 58 %, supply 42 %

Highest at V\\_f 2.8 V, supply 25.2 V  
Lowest at V\\_f 3.2 V, supply 22.8 V

across the resistor

Used by \`R_series\`, \`I_string\`, \`P_R\`  
\`must burden <= 5 V\``,
    ));

  it("sets the numbers under an equation, and says in which bracket it was solved", () => {
    const text = at(note("given V = 12 V ± 5 %\nlet ¦I in 1 .. 50 mA satisfy V - I * 1 kΩ = 2 V + I * 1 kΩ"))!;
    assert.match(text, /^\*\*`I`\*\* 4\.7 \.\. 5 \.\. 5\.3 mA\n/);
    assert.match(text, /\n *V +- +I +\* 1 kΩ = 2 V \+ +I +\* 1 kΩ\n *12 V - 5 mA \* 1 kΩ = 2 V \+ 5 mA \* 1 kΩ\n/);
    assert.match(text, /\nFound in `1 \.\. 50 mA`, so that `V - I \* 1 kΩ = 2 V \+ I \* 1 kΩ`\./);
  });

  describe("says of what is uncertain", () => {
    const said = (text: string) => at(note(text))!;

    it("only its standard uncertainty and its shape where it is itself an input", () => {
      const text = said("given ¦V = 12 V ± 0.6 V");
      assert.match(text, /\nStandard uncertainty 350 mV, even between the limits\n/);
      assert.equal(text.includes("Contributions"), false);
      assert.match(
        said("given ¦m = 100.02147(35) g"),
        /\nStandard uncertainty 350 µg, normal about the nominal value\n/,
      );
    });

    it("nothing of contributions until the range is found that they are shares of", () => {
      const text = note("given x = -1 .. 2\ny = x^2 - x");
      const service = new Service(libraryOf({}), SETTINGS, "in slices");
      service.open("n", text);
      const offset = text.indexOf("y =");
      assert.equal(service.hover("n", offset)!.markdown.includes("Contributions"), false);
      service.search(() => false);
      assert.match(service.hover("n", offset)!.markdown, /\nContributions to the range: /);
    });

    it("that first order says nothing where there is no slope, and how much curvature adds", () => {
      assert.match(
        said("given x = 0.5 ± 0.1\n¦y = abs(x - 0.5)"),
        /\nNo standard uncertainty to first order: at the nominal values the formula has no slope\. Trials tell/,
      );
      assert.match(
        said("given x = 0.5 ± 1\n¦y = x^2"),
        /\nStandard uncertainty 0\.58, variance by x 79 %, interactions 21 %\n/,
      );
    });

    it("how few readings know of it", () =>
      assert.match(
        said("d = readings [5.007, 4.994, 5.005] V\n¦y = 2 * d"),
        /\nStandard uncertainty 8\.1 mV, with 2 degrees of freedom: 95 % lie within 4\.3 of it\n/,
      ));

    it("what the worst case of a rule counts of inputs that have no limits of their own", () =>
      assert.match(
        said(
          "given m = 100.021 g ± 0.5 mg (k = 2)\nd = readings [1.1, 1.2, 1.3] g\ngiven e = 1 g ± 1 mg\n¦must m + d + e <= 200 g",
        ),
        /\nThe worst case counts d to ± 19\.2, m to ± 3 standard uncertainties$/,
      ));

    it("that operating conditions are part of the range and not of the standard uncertainty", () => {
      const text = said("over T = 0 .. 50\ngiven k = 2 ± 0.1\n¦y = k * T");
      assert.match(
        text,
        /\nStandard uncertainty 1\.4 {2}\n`T` is an operating condition: part of the range, not of the/,
      );
    });

    it("what builds are on average where typical is not the middle", () =>
      assert.match(
        said("given V = 2.8 .. 3 .. 3.6 V\n¦y = 2 * V"),
        /\nStandard uncertainty 460 mV, on average 6\.4 V\n/,
      ));

    it("which input has no minimum, so that there is no standard uncertainty", () =>
      assert.match(
        said("given V = .. 3 .. 3.6 V\n¦y = 2 * V"),
        /\nNo standard uncertainty: `V` has no known minimum\n/,
      ));

    it("that of a temperature on a scale it is a difference", () =>
      assert.match(
        said("given T = 20 .. 25 .. 27.24 °C\n¦y = T + 3 K"),
        /\nStandard uncertainty 2\.1 K, on average 26\.6 °C\n/,
      ));

    it("what inputs do together", () =>
      assert.match(
        said("a = 1 ± 0.5\nb = 0 ± 1\n¦y = a + b^2"),
        /range: a 50 %, interactions 50 % {2}\nStandard uncertainty 0\.29/,
      ));

    it("how far an enclosure is known to reach, and where", () => {
      const wave = [1, 2, 3, 5, 7, 11, 13].map((k) => `cos(${k} * x + ${k} * y) * sin(${k} * z * x)`).join(" + ");
      assert.match(
        said(`x = -30 .. 31\ny = -30 .. 32\nz = -30 .. 33\n¦w = ${wave}`),
        /The range is an enclosure: .* Found to occur: \\-\d.* \.\. .*\d\. {2}\nHighest at x .*, y .*, z .* {2}\nLowest at x /,
      );
    });
  });

  it("says that a formula is too bent for a standard uncertainty of first order", () =>
    assert.match(at(note("a = 0 ± 20\n¦y = sin(a)"))!, /\nNo standard uncertainty to first order: the formula bends/));

  it("does not take a unit for a use of a quantity that has its letter", () =>
    assert.equal(at(note("given ¦V = 3 V"))!.includes("Used by"), false));

  it("is the same over a use of it", () => assert.equal(at(bar("burden / I_led")), at(bar("burden"))));

  it("says what was wanted and how it was chosen", () => {
    const text = at(bar("R_series"))!;
    assert.match(text, /^\*\*`R_series`\*\* 148.5 .. 150 .. 151.5 Ω, wanted 20 .. 150 .. 280 Ω\n/);
    assert.match(text, /\nburden \/ I_led\n3 V {4}\/ 20 mA\n/);
    assert.match(text, /Chosen from `E24`, at least what is wanted\./);
  });

  it("says where an input comes from", () => {
    assert.match(at(bar("supply"))!, /\nGiven, from “adapter sheet, p. 2”\.\n/);
    assert.match(at(bar("V_f"))!, /\nA guess\. {2}\nwhite, at 20 mA\n/);
    assert.match(at(note('assume ¦a = 1 V from "sheet"'))!, /\nAssumed, from “sheet”\.$/);
    assert.match(at(note("over ¦a = 1 .. 2 V"))!, /\nAn operating condition: rules hold throughout it\.$/);
    assert.match(at(note("choose ¦a = 3"))!, /\nA decision\.$/);
    assert.match(at(note("order ¦a = 3"))!, /\nTo be typed into the order\.$/);
  });

  it("says of an input that it differs from piece to piece, and how it is spread", () => {
    assert.match(at(note("items LED\nassume ¦a = 1 .. 2 V each LED"))!, /\nA guess for each LED\.$/);
    assert.match(at(note('given ¦a = 1 .. 2 V each from "sheet"'))!, /\nGiven for each piece, from “sheet”\.$/);
    assert.match(
      at(note("given ¦a = 100.0(2) g"))!,
      /\nStandard uncertainty 200 mg, normal about the nominal value\n\nGiven\. A worst case counts ± 3 standard uncertainties\.$/,
    );
    assert.match(
      at(note("given ¦a = readings [4, 6, 8] mV"))!,
      /\nStandard uncertainty 1\.2 mV, from the values that were read, with 2 degrees of freedom: 95 % lie within 4\.3 of it\n\nGiven\. A worst case counts ± 19\.2 standard uncertainties\.$/,
    );
  });

  it("has the measurements of it, and what they replaced", () => {
    assert.match(at(bar("V_f"))!, /\nMeasured, 12 pieces, at `I_led = 20 mA`, on 2026-03-14, from “bench”: 2.9 V\n/);
    assert.match(
      at(note("assume ¦a = 1 .. 2 V\nmeasured a = 1.4 V instead"))!,
      /^\*\*`a`\*\* 1.4 V\n\nMeasured. It was assumed to be 1 .. 1.5 .. 2 V\./,
    );
  });

  it("says why it has no value", () => {
    assert.match(at(note("b = unknown\n¦a = 2 * b"))!, /^`a` has no value, because `b` has none\./);
    assert.match(at(note("¦b = unknown"))!, /^`b` has no value\./);
  });

  it("puts numbers in brackets where they would be read otherwise", () =>
    assert.match(
      at(note("I = 20 mA\nT = 0 V - 3 V\n¦P = I^2 * 3 Ω + 2 W / (T / 1 V)"))!,
      /\nI {6}\^2 \* 3 Ω \+ 2 W \/ \(T {5} \/ 1 V\)\n\(20 mA\)\^2 \* 3 Ω \+ 2 W \/ \(\(-3 V\) \/ 1 V\)\n/,
    ));

  it("says which reading of pieces a formula means", () => {
    const pieces = (formula: string) =>
      at(note(`given t = 2 mm ± 0.1 mm each\ngiven gap = 5 mm ± 1 mm\nh = gap + t\n¦x = ${formula}`))!;
    assert.match(pieces("h - another h"), /\n`another h` is a further piece: `t` drawn anew, `gap` shared\.\n/);
    assert.match(
      pieces("total(6, t)"),
      /\n`total\(6, t\)` adds up `6` pieces: for each, `t` drawn anew, nothing else is uncertain\.\n/,
    );
    assert.match(pieces("6 * h"), /\n`6 \* h` is one piece counted 6 times; 6 pieces are `total\(6, h\)`\.\n/);
    assert.doesNotMatch(pieces("6 * gap"), /piece/);
  });

  it("sets a formula over lines on as few as it needs", () => {
    const names = Array.from({ length: 9 }, (_, i) => `a_long_name_${i}`);
    const text = at(
      note(
        `${names.map((name) => `${name} = 2 V`).join("\n")}\n¦sum_of_all = ${names.slice(0, 5).join(" + ")} +  # first\n    ${names.slice(5).join(" + ")}`,
      ),
    )!;
    const block = /```text\n([^`]*)\n```/.exec(text)![1].split("\n");
    assert.equal(block.length, 6);
    assert.ok(block.every((line) => line.length <= 64));
    assert.equal(block[2], "  + a_long_name_4 + a_long_name_5 + a_long_name_6");
    assert.equal(block[3], "  + 2 V           + 2 V           + 2 V");
  });

  it("reaches into another note", async () => {
    const { text, offset } = marked(note('use "b.calcs.md" as b\nx = 2 * b.¦y'));
    const service = await loaded("a.calcs.md", text, { "b.calcs.md": note("given y = 2 V ± 5 %") });
    const { markdown, span } = service.hover("a.calcs.md", offset)!;
    assert.match(markdown, /^\*\*`y`\*\* 1.9 .. 2 .. 2.1 V\n/);
    assert.match(markdown, /Used by `x`$/);
    assert.equal(text.slice(span.start, span.end), "y");
    assert.match(service.hover("a.calcs.md", text.indexOf("x ="))!.markdown, /\n2 \* b\.y\n2 \* 2 V\n/);
    assert.equal(service.hover("a.calcs.md", text.indexOf("as b") + 3)!.markdown, "The note `b.calcs.md`");
    assert.equal(service.hover("a.calcs.md", text.indexOf("b.calcs"))!.markdown, "The note `b.calcs.md`");
  });

  it("works on a live reference in prose, and nowhere else in it", () => {
    const text = note("burden = 3 * 1 V");
    assert.equal(at(`The \`bur¦den\` is high.\n\n${text}`), at(note("¦burden = 3 * 1 V")));
    assert.equal(at(`The bur¦den is high.\n\n${text}`), undefined);
    assert.equal(at(`The \`bur¦den * 2\` is high.\n\n${text}`), undefined);
  });
});

describe("hover over a rule", () => {
  it("says state, both sides, picture, worst point and reason", () =>
    assert.equal(
      at(bar("<= 5 V")),
      `\`must burden <= 5 V\` fails at the limits, 3 builds in 100, 12 % short at V\\_f 2.8 V, supply 25.2 V

\`burden\` 0.4 .. 3 .. 5.6 V \\<= \`5 V\`

\`\`\`text
               ╷           ┃
├──────────────┴───────────╂───┤
0.4            3           5   5.6 V
\`\`\`

Worst at V\\_f 2.8 V, supply 25.2 V

\\*hot\\*`,
    ));

  it("draws both limits of a band, once", () => {
    const markdown = at(note("V = 3 .. 5 V\n¦must 2 V <= V <= 6 V"))!;
    assert.equal(markdown.match(/├/g)?.length, 1);
    assert.match(markdown, /\n2 +3 +4 +5 +6 V\n/);
    assert.match(markdown, /`2 V` \\<= `V` 3 \.\. 4 \.\. 5 V\n/);
    assert.match(markdown, /`V` 3 \.\. 4 \.\. 5 V \\<= `6 V`\n/);
  });

  it("says of an input without a name where it is worst, and which it is", () =>
    assert.match(
      at(note("c = 98 mA\n¦must c = 98 mA ± 10 %"))!,
      /^`must c = 98 mA ± 10 %` fails at the limits, every build tried, 107\.8 mA of 98 mA ± 10 %\n/,
    ));

  it("stands on its opening word, too", () => assert.equal(at(bar("must")), at(bar("<= 5 V"))));
});

describe("hover over a function", () => {
  const text = "ρ = 17 nΩ·m\nr = 2 m\nloop(length, area = 0.5 mm^2) = ρ * 2 * length / area   # there and back\n";
  it("says its signature, formula and description", () =>
    assert.equal(
      at(note(text.replace("loop(", "¦loop("))),
      "**`loop(length, area = 0.5 mm^2)`**\n\n```text\nρ       * 2 * length / area\n17 nΩ·m * 2 * length / area\n```\n\nthere and back",
    ));
  it("sets the arguments of a call under the parameters", () =>
    assert.match(
      at(note(`${text}R = ¦loop(r + 1 m, area = 1 mm^2)`))!,
      /\nρ {7}\* 2 \* length {6}\/ area\n17 nΩ·m \* 2 \* \(2 m \+ 1 m\) \/ 1 mm\^2\n/,
    ));
  it("says what it holds for", () =>
    assert.equal(
      at(note("¦f(x) = 2 * x\n      where 0 V < x <=\n        5 V")),
      "**`f(x)`**\n\n```text\n2 * x\n```\n\nHolds where `0 V < x <= 5 V`",
    ));
  it("knows its parameters, and native functions", () => {
    assert.equal(at(note("f(a, b = 2) = a * ¦b")), "`b` is a parameter of `f`, `2` unless it is given.");
    assert.equal(at(note("x = sq¦rt(4)")), "`sqrt(x)`\n\nthe square root");
  });
});

describe("hover over units and words", () => {
  const cases: readonly [text: string, markdown: string | undefined][] = [
    ["x = 20 m¦A", "**`mA`** mA, of ampere, current\n\n1 mA = 0.001 A"],
    ["x = 20 ¦in", "**`in`** inch, length\n\n1 in = 0.0254 m"],
    ["x = 20 ¦V", "**`V`** volt, voltage"],
    [
      "x = 20 ¦°F",
      "**`°F`** degree Fahrenheit, temperature\n\n0 °F is 255.3722222 K; a difference of 1 °F is 0.5555555556 K.",
    ],
    ["x = 5 E¦UR", "**`EUR`** currency\n\nA unit of its own: there are no exchange rates."],
    [
      "items LED  # white\nx = 5 L¦ED",
      "**`LED`** is counted: a unit of its own, which only `without LED` drops.\n\nwhite\n\n- `x` 5 LED",
    ],
    ["x = 1 Ω choose 1 Ω from E¦3", "**`E3`** of IEC 60063, one decade\n\n1.0 · 2.2 · 4.7"],
    ["¦items LED", "`items NAME, NAME`\n\nthings that are counted, each a unit of its own"],
    ["x = ¦π", "**`π`** 3.141592653589793"],
    ["x = 5 V  # a co¦mment", undefined],
    ['given x = 5 V from "a su¦pply"', undefined],
    ["x = 5 V + nonsense¦", undefined],
  ];
  for (const [text, markdown] of cases) it(text, () => assert.equal(at(note(text)), markdown));
});

describe("text of a note in a hover", () => {
  it("is no link, no tag and no emphasis", () => {
    const comment = "[run](command:x) <b>*now*</b> `y` https://x.test www.x.test a@b.test & &lt; ~~no~~ $x$";
    const markdown = at(note(`¦x = 2 * 1 V # ${comment}`))!;
    for (const sign of ["[", "]", "(", "<", "*now", "`y", "@", "&", "~", "$", "https:"])
      assert.ok(!new RegExp(`(?<!\\\\)\\${sign[0]}${sign.slice(1)}`).test(markdown.split("\n").at(-1)!), sign);
    assert.ok(!markdown.includes("www."));
  });
  it("begins no list and no heading", () => {
    assert.ok(at(note("¦x = 2 * 1 V # # 1. - x"))!.endsWith("\n\n\\# 1. - x"));
    assert.ok(at(note("¦x = 2 * 1 V # 1. x"))!.endsWith("\n\n1\\. x"));
    assert.ok(at(note("¦x = 2 * 1 V # - x"))!.endsWith("\n\n\\- x"));
  });
});

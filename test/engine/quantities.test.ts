import assert from "node:assert/strict";
import { checkFindings, openNotes } from "../notation";
import { tells } from "./told";

describe("counted units and money", () => {
  it("never cancel by themselves, and are dropped by name", () => {
    tells([
      ["items LED, board, string", "items"],
      ["LEDs = 12 LED/board * 30 board", "360 LED"],
      ["strings = 8 board * 2 string/board", "16 string"],
      ["I = strings * 20 mA without string", "320 mA"],
      ["n = LEDs / 12 LED", "30"],
      ["price = 0.12 EUR/LED * LEDs", "43.2 EUR"],
      ["m = LEDs without LED", "360"],
      ["k = LEDs * strings without LED, string", "5760"],
      ["must LEDs = 360 LED", "holds"],
    ]);
  });

  it("do not mix", () => {
    checkFindings(`
    items LED, board
    a = 3 LED + 2 board
                ~~~~~~~ unit.mismatch
    b = 3 LED + 2
        ~~~~~~~~~ unit.ratioAdded
    c = 3 LED < 2
                ~ unit.mismatch
    d = 3 EUR + 2 USD
                ~~~~~ unit.mismatch
    e = 3 V without LED
                    ~~~ unit.nothingDropped
    f = 3 LED without resistor
                      ~~~~~~~~ name.unknown
    g = 3 resistor
          ~~~~~~~~ unit.unknown
    items V
          ~ unit.takenName
    `);
  });
});

describe("dimensions", () => {
  it("take rational powers", () => {
    tells(
      [
        ["e_n = 4.5 nV/√Hz", "4.5 nV/√Hz"],
        ["B = 10 kHz", ""],
        ["v = e_n * sqrt(B)", "450 nV"],
        ["a = (4 m^2)^0.5", "2 m"],
        ["b = (8 m^3)^(1/3)", "2 m"],
        ["c = cbrt(27 mm^3)", "3 mm"],
        ["d = (2 m)^-2 * 4 m^2", "1"],
        ["e = (2 m)²", "4 m^2"],
      ].filter(([, shown]) => shown !== undefined) as [string, string][],
    );
  });

  it("must be constant, and in sixths", () => {
    checkFindings(`
    n = 2
    a = (2 m)^n
              ~ unit.exponent
    b = (2 m)^(1/5)
              ~~~~~ unit.exponent
    c = 2^(3 V)
          ~~~~~ unit.ratioNeeded
    d = (2 m)^(1 ± 10 %)
              ~~~~~~~~~~ unit.exponent
    e = 2^n
    `);
  });

  it("are all had by a bare zero, but that of a temperature on a scale", () => {
    tells([
      ["a = 3 V + 0", "3 V"],
      ["b = 0 - 3 V", "-3 V"],
      ["c = max(0, -3 V)", "0 V"],
      ["d = if 1 < 2 then 0 else 3 V", "0 V"],
      ["e = 3 V > 0", "true"],
      ["f [V] = 0", "0 V"],
      ["must 3 V >= 0", "holds"],
      ["g = [0, 3 V]", ""],
    ]);
  });

  it("of the bracket must be those of the value", () => {
    checkFindings(
      `
    a [mA] = 3 V / 10 Ω
    b [mV] = 3 A
       ~~ unit.shownIn
    c [V] = 1 < 2
            ~~~~~ truth.unexpected
    d [nonsense] = 3
       ~~~~~~~~ unit.unknown
    e [°C] = 300 K
       ~~ unit.shownIn
    `,
    );
  });
});

describe("chains", () => {
  const value = (...lines: readonly string[]) => {
    const { outcome } = openNotes(lines.map((line) => `    ${line}\n`).join(""))
      .snapshot()
      .rows.at(-1)!;
    assert.ok(outcome.kind === "quantity");
    return outcome.values[0]?.nominal;
  };

  it("may be of any length, as pasted sums are", () => {
    assert.equal(value(`x = 1 V${" + 1 V".repeat(2999)}`), 3000);
    assert.equal(value("a = 2", `x = a${" + a * 3 - a / 2".repeat(2000)}`), 2 + 2000 * 5);
    assert.equal(value("a = 2", `f(q) = q${" + q".repeat(2999)}`, "x = f(a)"), 6000);
    const { outcome } = openNotes(`    must 1 < 2${" and 1 < 2".repeat(2999)}\n`).snapshot().rows[0];
    assert.ok(outcome.kind === "rule" && outcome.state === "holds");
  });

  it("and what is nested too deep to be read has no value, not that of a part", () => {
    for (const text of [
      `2${"^1".repeat(500)}`,
      `${"-".repeat(500)}2`,
      `a${".b".repeat(2000)}`,
      `2 + ${"(".repeat(500)}3`,
    ])
      assert.equal(value("a = 2", `x = ${text}`), undefined, text.slice(0, 20));
  });
});

describe("numbers", () => {
  it("are written in many ways", () => {
    tells([
      ["a = 1_000 + 0x1F + 0b1010", "1041"],
      ["b = 1/4 W", "0.25 W"],
      ["c = 3/8", ""],
      ["d = 12 V ± 0.6 V", "11.4 .. 12 .. 12.6 V"],
      ["e = 12 V +/- 5 %", "11.4 .. 12 .. 12.6 V"],
      ["f = 2.8 .. 3.2 V", "2.8 .. 3 .. 3.2 V"],
      ["g = 800 nA .. 1.2 µA", ""],
      ["h = 100 g ± 3 g (k = 3)", "97 .. 100 .. 103 g"],
      ["i = 100.0(10) g", "97 .. 100 .. 103 g"],
      ["j = 4k7J", "4.46 .. 4.7 .. 4.93 kΩ"],
      ["k = 1e-6 F", "1e-6 F"],
      ["l = 1 / 2 V", "0.5 1/V"],
    ]);
  });

  it("are what they say, or are told what is wrong", () => {
    checkFindings(`
    a = 12 V ± -1 V
               ~ syntax.negativeTolerance
    b = 3 .. 2 V
        ~~~~~~~~ literal.order
    c = 1 .. 5 .. 3 V
             ~ literal.typicalOutside
    d = 50 % ± 5 %
        ~~~~~~~~~~ literal.pointsOrShare
    e = 1 V .. 3 A
        ~~~ unit.mismatch
    f = 100 V ± 3 V (k = 0)
                         ~ literal.coverage
    g = 12 V + 5 %
        ~~~~~~~~~~ unit.ratioAdded
    `);
  });

  it("divide and round as on paper", () => {
    tells([
      ["a = (0.1 + 0.2 = 0.3)", "true"],
      ["b = 0.3 <= 0.1 * 3", "true"],
      ["c = 0.3 < 0.1 * 3", "false"],
      ["d = floor(0.3 / 0.1)", "3"],
      ["e = ceil(0.1 * 3 / 0.1)", "3"],
      ["f = round(2.5)", "3"],
      ["g = round(-2.5)", "-3"],
      ["h = mod(0.3, 0.1)", "0"],
      ["i = mod(-7, 3)", "2"],
      ["j = ceil(3.2 V, 0.5 V)", "3.5 V"],
      ["k = floor(7)", "7"],
    ]);
  });
});

describe("conditions and lists", () => {
  it("are chained, joined and turned round", () => {
    tells([
      ["a = 1 < 2 <= 2 < 3", "true"],
      ["b = 1 < 3 < 2", "false"],
      ["c = 1 < 2 and not 2 < 1 or 5 = 6", "true"],
      ["d = 3.3 V inside 3.2 .. 3.4 V", "true"],
      ["e = 3.3 V inside 3.3 V ± 3 %", "true"],
      ["f = 3.5 V inside 3.3 V ± 3 %", "false"],
      ["g = 1 != 2", "true"],
      ["x = 1 .. 3", ""],
      ["h = x < 2", "open"],
      ["i = x < 4", "true"],
      ["must 0 < x < 4", "holds"],
      ["must x > 0 and x < 4", "holds"],
      ["must x > 0 or x > 100", "holds"],
      ["must not x > 4", "holds"],
    ]);
  });

  it("are judged by rules: all rows, all parts", () => {
    tells([
      ["I = [20 mA, 60 mA]", ""],
      ["must I <= 60 mA", "holds"],
      ["a = 2 * I", ""],
      ["must a <= [40 mA, 120 mA]", "holds"],
      ["b = sum(I)", "80 mA"],
      ["c = max(I)", "60 mA"],
      ["d = size(I)", "2"],
      ["e = mean(I)", "40 mA"],
      ["f = rss(3 V, 4 V)", "5 V"],
    ]);
  });

  it("must be what is asked for", () => {
    checkFindings(`
    a = 1 and 2
        ~ truth.needed
    b = (1 < 2) + 3
        ~~~~~~~ truth.unexpected
    c = if 3 then 1 else 2
           ~ truth.needed
    d = [1 V, 2 A]
              ~~~ unit.mismatch
    e = [1, 2] + [1, 2, 3]
                 ~~~~~~~~~ list.lengths
    must 3
         ~ rule.notACondition
    f = 3.3 V inside 3
                     ~ unit.mismatch
    g = if 1 < 2 then 1 V else 1 A
                               ~~~ unit.mismatch
    h = []
        ~~ list.unexpected
    i = [[1, 2], 3]
         ~~~~~~ list.unexpected
    `);
  });
});

describe("conditions of operation and of the order", () => {
  it("are quantities like others", () => {
    tells([
      ["order boards = 5", "5"],
      ["over T = -10 .. 40 °C", "-10 .. 15 .. 40 °C"],
      ["boards_twice = 2 * boards", "10"],
    ]);
  });
});

describe("the unit of a result", () => {
  it("is that of what was stated in hertz, with any prefix", () => {
    tells([
      ["f = 2000 kHz", "2000 kHz"],
      ["a = f - 500 kHz", "1.5 MHz"],
      ["b = f / 4", "500 kHz"],
      ["c = f", "2 MHz"],
      ["d = f / 500 kHz", "4"],
      ["e = 50 MHz/V * 2 V", "100 MHz"],
      ["g = f + 1 / 1 µs", "3000000 1/s"],
      ["h = 100 rpm/V * 12 V", "1200 rpm"],
      ["i = 3 krad/s / 2", "1.5 krad/s"],
    ]);
  });

  it("is watt hours and ampere hours where hours were stated", () => {
    tells([
      ["a = 3.7 V * 2200 mAh", "8.14 Wh"],
      ["b = 12 W * 3 h", "36 Wh"],
      ["c = 2 A * 3 h", "6 Ah"],
      ["d = 24 Wh / 12 V", "2 Ah"],
      ["e = 2 mA * 30 min", "3.6 C"],
      ["g = 20 Wh + 300 mWh", "20.3 Wh"],
      ["i = 2200 mAh * 0.5", "1100 mAh"],
      ["k = 1 mA * 3 h * 0.5", "1.5 mAh"],
    ]);
  });

  it("is one in which the limits of a zero can be read", () => {
    tells([
      ["a = 0 V ± 5 mV", "-5 .. 0 .. 5 mV"],
      ["b = 0 V ± 5 V", "-5 .. 0 .. 5 V"],
      ["c = 0 mV ± 2000 mV", "-2000 .. 0 .. 2000 mV"],
      ["d = 0 % ± 0.5 %", "-0.5 .. 0 .. 0.5 %"],
      ["e = 1 V ± 5 mV", "0.995 .. 1 .. 1.005 V"],
      ["g [V] = a", "-0.005 .. 0 .. 0.005 V"],
    ]);
  });

  it("lets money add up: in cents, and between limits from a thousand on in whole units", () => {
    tells([
      ["net = 1063 EUR .. 1070 EUR", "1063 .. 1066.5 .. 1070 EUR"],
      ["vat = 223 EUR", "223 EUR"],
      ["gross = net + vat", "1286 .. 1289.5 .. 1293 EUR"],
      ["a = 1234.5 EUR .. 1338 EUR", "1234.5 .. 1286.3 .. 1338 EUR"],
      ["b = 12345.678 EUR * 1.21", "14938.27 EUR"],
      ["c = 100 EUR / 3", "33.33 EUR"],
      ["d = 0.0375 EUR / 2", "0.01875 EUR"],
      ["e = 300 EUR .. 900 EUR", "300 .. 600 .. 900 EUR"],
      ["f = e / 7", "42.86 .. 85.71 .. 128.57 EUR"],
      ["g = 1234.5 N .. 1338 N", "1234.5 .. 1286.3 .. 1338 N"],
    ]);
  });
});

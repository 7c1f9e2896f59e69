import assert from "node:assert/strict";
import { Kind, Notation } from "../../src/syntax/tree";
import { codes, parse, parseAs, render, valueOf } from "./rendering";

function reads(cases: Readonly<Record<string, string>>): void {
  for (const [written, expected] of Object.entries(cases)) assert.equal(valueOf(written), expected, written);
}

describe("expressions", () => {
  it("bind as the grammar says", () => {
    reads({
      "a + b * c ^ 2": "(+ a (* b (^ c 2)))",
      "a - b - c": "(- (- a b) c)",
      "a / b / c": "(/ (/ a b) c)",
      "2 ^ 3 ^ 2": "(^ 2 (^ 3 2))",
      "2 ^ -3": "(^ 2 (neg 3))",
      "-x ^ 2": "(neg (^ x 2))",
      "a or b and not c": "(or a (and b (not c)))",
      "not a < b": "(not (compare a < b))",
      "a <= x < b": "(compare a <= x < b)",
      "a || b || c": "(|| (|| a b) c)",
      "-a || b": "(neg (|| a b))",
      "a || b ^ 2": "(|| a (^ b 2))",
      "a + b without LED, board": "(without (+ a b) LED board)",
      "if a > b then 1 else 2 < 3": "(compare (if (compare a > b) 1 2) < 3)",
      "(a + b) * c": "(* (group (+ a b)) c)",
      'a.b.c(d)["e"].f': '(. (index (call (. (. a b) c) d) "e") f)',
      "another t * 2": "(* (another t) 2)",
      "f()": "(call f)",
      "[]": "(list)",
      "x inside 3.2 .. 3.4 V": "(compare x inside (range 3.2 3.4:V))",
    });
  });

  it("take the signs of print", () => {
    reads({
      "a · b × c": "(* (* a b) c)",
      "a − b": "(- a b)",
      "a ∥ b": "(|| a b)",
      "a² + b⁻¹": "(+ (^ a 2) (^ b -1))",
      "a ≤ b": "(compare a <= b)",
      "a ≥ b": "(compare a >= b)",
      "a ≠ b": "(compare a != b)",
      "12 V ± 5 %": "(± 12:V 5:%)",
    });
  });

  it("leave commas to what encloses them", () => {
    reads({
      "f(3,3)": "(call f 3 3)",
      "f(a without LED, b)": "(call f (without a LED) b)",
      "f((a without LED, b))": "(call f (group (without a LED b)))",
      "f(x, rise = 10 K)": "(call f x rise=10:K)",
      "sum(k * I for k = 1 .. 10)": "(call sum (for (* k I) k (range 1 10)))",
    });
    const variant = parseAs("variant", 'variant "few": n = 3 LED without LED, m = 2');
    assert.deepEqual(
      variant.settings.map(({ value }) => render(variant.tree, value)),
      ["(without 3:LED LED)", "2"],
    );
  });

  it("give the sign to the number only where that changes nothing", () => {
    reads({
      "-2": "-2",
      "-2 ^ 2": "(neg (^ 2 2))",
      "-2²": "(neg (^ 2 2))",
      "-5 Ω || 3 Ω": "(neg (|| 5:Ω 3:Ω))",
      "-40 .. 85 °C": "(range -40 85:°C)",
      "a - -3": "(- a -3)",
      "a -3": "(- a 3)",
      "− 3 V": "-3:V",
    });
  });

  it("keep what can be read beside what cannot", () => {
    reads({
      "a * b || c": "(missing (* a (|| b c)))",
      "a + (b c) + d": "(+ (+ a (missing (group b))) d)",
      "3,3 V * a": "(* (missing 3,3:V) a)",
      "a ± 5 % + b": "(+ (missing a 5:%) b)",
      "a +": "(+ a (missing))",
    });
  });

  it("take names that the host language knows", () => {
    reads({ "constructor + __proto__ * toString": "(+ constructor (* __proto__ toString))" });
    for (const name of ["constructor", "__proto__", "hasOwnProperty"]) {
      assert.deepEqual(codes(parse(`${name} = 3 V`)), []);
      assert.deepEqual(codes(parse(`${name} x = 3 V`)), ["syntax.unknownStatement"]);
    }
  });
});

describe("literals", () => {
  it("of all forms", () => {
    reads({
      "100 g ± 0.79 mg (k = 2.26)": "(±k 100:g 0.79:mg 2.26)",
      "12 V +/- 0.6 V": "(± 12:V 0.6:V)",
      "2.8 .. 3.0 .. 3.2 V": "(typical 2.8 3.0 3.2:V)",
      "800 nA .. 1.2 µA": "(range 800:nA 1.2:μA)",
      "2..3 V": "(range 2 3:V)",
      ".. 3.2 V": "(upto 3.2:V)",
      ".. 3.0 .. 3.2 V": "(upto 3.0 3.2:V)",
      "readings [5.007, −4.994] V": "(readings 5.007 -4.994 V)",
      "sample [1, 2]": "(sample 1 2)",
      "100.02147(35) g": "100.02147:35e-5:g",
      "1.2(3)e4 V": "1.2e4:3e3:V",
      "1_000e−3": "1000e-3",
      "1/4 W": "1/4:W",
      "1/2.5": "(/ 1 2.5)",
      "1/4k7": "(/ 1 4k7)",
      "1/0x10": "(/ 1 0x10)",
      "4k7J + 10k + 4R + 4u7 H": "(+ (+ (+ 4k7J 10k) 4R) 4u7:H)",
      "10kΩ": "10:kΩ",
      "0x1F + 0b101": "(+ 0x1F 0b101)",
      R47: "R47",
    });
  });

  it("hold their numbers", () => {
    const number = (written: string): number => {
      const { tree, value } = parseAs("derived", `x = ${written}`);
      return tree.number(tree.first(value));
    };
    assert.equal(number("-1_000.5e-3"), -1.0005);
    assert.equal(number("0x1F"), 31);
    assert.equal(number("0b101"), 5);
    assert.equal(number("1/16"), 0.0625);
    assert.equal(number("100.02147(35)"), 100.02147);
    assert.ok(Number.isNaN(number("4k7")));
  });

  it("hold the standard uncertainty of a concise number", () => {
    const { tree, value } = parseAs("derived", "x = 100.02147(35) g");
    const main = tree.first(value);
    assert.equal(tree.operator(main), Notation.Concise);
    const uncertainty = tree.first(main);
    assert.equal(tree.kind(uncertainty), Kind.Value);
    assert.ok(Math.abs(tree.number(uncertainty) - 0.00035) < 1e-15);
  });

  it("take their unit before any operator, and only a unit", () => {
    reads({
      "12 V/R": "12:V·R-1",
      "12 V / R": "(/ 12:V R)",
      "12 V/(R1+R2)": "(/ 12:V (group (+ R1 R2)))",
      "12 V/2": "(/ 12:V 2)",
      "2 m*3": "(* 2:m 3)",
      "2 m*sin(x)": "(* 2:m (call sin x))",
      "2 m*a.b": "(* 2:m (. a b))",
      "5/s": "(/ 5 s)",
      "5 1/s": "5:s-1",
      "1/(a)": "(/ 1 (group a))",
      "0.4 W/(m·K)": "0.4:W·m-1·K-1",
      "4.5 nV/√Hz": "4.5:nV·Hz-0.5",
      "3 m^(1/2)": "3:m0.5",
      "3 m^x": "(^ 3:m x)",
      "3 m ^ 2": "(^ 3:m 2)",
      "3 m²": "3:m2",
      "3x": "3:x",
      "8 board * 2 string/board": "(* 8:board 2:string·board-1)",
    });
  });
});

import assert from "node:assert/strict";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { checkFindings } from "../notation";
import { tells } from "./told";

describe("the domain of a function", () => {
  it("says nothing where the arguments keep it over their whole range", () => {
    tells([
      ["width(I, rise = 20 K) = I / rise where 10 K <= rise <= 100 K and I <= 35 A", "function"],
      ["rise = 50 K ± 80 %", "10 .. 50 .. 90 K"],
      ["a = width(3 A)", "0.15 A/K"],
      ["b = width(3 A, rise)", ""],
      ["c = width([1 A, 35 A], 10 K)", "0.1 A/K, 3.5 A/K"],
    ]);
  });

  it("is told at the argument, with both sides, and the value stands", () => {
    checkFindings(`
    width(I, rise = 20 K) = I / rise where 10 K <= rise <= 100 K and I <= 35 A
    a = width(3 A, rise = 150 K)
                          ~~~~~ function.domain warning
                          | rise 150 K is outside what \`width\` holds for: \`10 K <= rise <= 100 K\`.
    must a = 20 mA/K
    b = width(40 A, 5 K)
              ~~~~ function.domain
              | I 40 A is outside what \`width\` holds for: \`I <= 35 A\`.
                    ~~~ function.domain
                    | rise 5 K is outside what \`width\` holds for: \`10 K <= rise <= 100 K\`.
    `);
  });

  it("is asked of the whole range of an argument", () => {
    checkFindings(`
    root(x) = sqrt(x) where 0 <= x <= 0.9
    x = 0.8 .. 0.95
    a = root(x)
             ~ function.domain
             | x 0.8 .. 0.875 .. 0.95 is outside what \`root\` holds for: \`0 <= x <= 0.9\`.
    low = .. 0.5 .. 0.6
    b = root(low)
             ~~~ function.domain
             | x .. 0.5 .. 0.6 is outside what \`root\` holds for: \`0 <= x <= 0.9\`.
    `);
  });

  it("is asked of the range that an argument has, not of one that counts an input twice", () => {
    tells([
      ["R1 = 1 kΩ ± 50 %", ""],
      ["R2 = 1 kΩ ± 50 %", ""],
      ["root(x) = sqrt(x) where 0 <= x <= 0.76", "function"],
      ["a = root(R2 / (R1 + R2))", ""],
      ["between(low, high) = high - low where low < high", "function"],
      ["b = between(R1, R1 + 1 Ω)", "1 Ω"],
    ]);
  });

  it("is told through calls of calls, at the argument that it comes from", () => {
    checkFindings(`
    inner(x) = x where x < 10
    outer(a, b) = inner(2 * a) + inner(a + b)
    y = outer(6, 1)
              ~ function.domain
              | In outer(…), on line 3: x 12 is outside what \`inner\` holds for: \`x < 10\`.
    z = outer(4, b = 7)
        ~~~~~~~~~~~~~~~ function.domain
        | In outer(…), on line 3: x 11 is outside what \`inner\` holds for: \`x < 10\`.
    must inner(12) > 3
               ~~ function.domain
    `);
  });

  it("matters in the branch that is taken only", () => {
    checkFindings(`
    low(x) = x where x <= 10
    high(x) = 2 * x where x > 10
    both(x) = if x <= 10 then low(x) else high(x)
    x = 5 .. 20
    a = both(3) + both(30) + both(x)
    wrong(x) = if x <= 12 then low(x) else high(x)
    b = wrong(3) + wrong(30)
    c = wrong(11)
              ~~ function.domain
    d = wrong(x)
              ~ function.domain
    nested(x) = if x > 0 then (if x < 10 then low(x) else 0) else low(x)
    e = nested(20)
    inverse(x) = if x > 0 then low(1 / x) else 0
    f = inverse(0)
    `);
  });

  it("can be any condition on the parameters, names of the note among it", () => {
    checkFindings(`
    most = 5 V
    f(x, y) = x / y where x inside 1 .. 3 V and not y = 2 and (x > 2 V or y < 1) and x < most
    a = f(2.5 V, 1)
    b = f(4 V, 1)
          ~~~ function.domain
          | x 4 V is outside what \`f\` holds for: \`x inside 1 .. 3 V\`.
    c = f(2.5 V, 2)
                 ~ function.domain
                 | y 2 is outside what \`f\` holds for: \`not y = 2\`.
    d = f(1.5 V, 3)
        ~~~~~~~~~~~ function.domain
        | x 1.5 V and y 3 are outside what \`f\` holds for: \`x > 2 V or y < 1\`.
    `);
  });

  it("names the row of a list", () => {
    checkFindings(`
    f(x) = x where x < 3 A
    a = f([1 A, 3 A, 4 A])
          ~~~~~~~~~~~~~~~ function.domain
          | x 3 A in row 2 is outside what \`f\` holds for: \`x < 3 A\`.
    `);
  });

  it("is of the parameters' kind, or that is told", () => {
    checkFindings(`
    f(x) = x where x < 3 A
    a = f(2 V)
        ~~~~~~ function.body
    g(x) = x where 2 * x
    b = g(2)
        ~~~~ function.body
    h(x) = x where x < limt
                       ~~~~ name.unknown
    c = h(2)
    `);
  });

  it("says nothing of what has no value, which is told where it was lost", () => {
    checkFindings(`
    f(x) = x where x < 3
    a = f(1 / 0)
          ~~~~~ value.undefined
    b = f(nothing)
          ~~~~~~~ name.unknown
    `);
  });

  it("may stand on a line of its own", () => {
    checkFindings(`
    f(x) = x
      where x < 3
    g(x) = x where
      x < 3
    a = f(4) + g(5)
          ~ function.domain
                 ~ function.domain
    `);
  });
});

describe("what functions hold for, where that takes a search", () => {
  const NOTE =
    "    given u = 0 .. 3\n    f(a) = a where a >= -7\n    g(a) = a where a >= -5\n    y = f(u - u^2)\n    z = g(u - u^2)\n";
  const told = (program: Program) =>
    program.snapshot("n")!.rows.map(({ outcome }) => outcome.problems.map(({ code }) => code).join());

  it("is searched in slices, not while somebody types", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText("n", NOTE);
    program.update();
    assert.equal(program.remaining.slices, 0);
    assert.equal(program.isSettled, false);
    assert.deepEqual(told(program), ["", "", "", "", ""], "What is not known yet is not told.");
    // u − u² is least −6, at 3; taken apart it might be −9.
    program.settle();
    assert.deepEqual(told(program), ["", "", "", "", "function.domain"]);
  });

  it("is known again when an edit is taken back, and forgotten when the call goes", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText("n", NOTE);
    program.settle();
    program.setText("n", NOTE.replace("0 .. 3", "0 .. 2"));
    program.settle();
    assert.deepEqual(told(program), ["", "", "", "", ""]);
    const before = program.remaining.slices;
    program.setText("n", NOTE);
    program.update();
    assert.equal(told(program).at(-1), "function.domain");
    program.settle();
    assert.equal(program.remaining.slices, before);
    program.setText("n", NOTE.replace("0 .. 3", "0 .. 2.9").replace("g(u - u^2)", "u"));
    program.update();
    program.settle();
    assert.deepEqual(told(program), ["", "", "", "", ""]);
  });
});

import { checkFindings } from "../notation";
import { tells } from "./told";

describe("names", () => {
  it("may be used above their definition", () => {
    tells([
      ["c = b + 1", "4"],
      ["b = a + 1", "3"],
      ["a = 2", "2"],
    ]);
  });

  it("may be those of native functions, which are called with brackets all the same", () => {
    tells([
      ["max = 3", "3"],
      ["a = max(max, 5)", "5"],
      ["b = max + 1", "4"],
      ["sqrt = max", "3"],
    ]);
  });

  it("may be those of units, and are never units", () => {
    tells([
      ["V = 2", "2"],
      ["a = 3 V", "3 V"],
      ["b = 3 * V", "6"],
      ["R = V * 1 Ω", "2 Ω"],
      ["c = R / 1 Ω", "2"],
    ]);
  });

  it("may be those that every object of the language beneath has", () => {
    tells([
      ["constructor = 1", "1"],
      ["__proto__ = constructor + 1", "2"],
      ["hasOwnProperty(toString, valueOf = 3) = toString + valueOf", "function"],
      ["isPrototypeOf = hasOwnProperty(__proto__, valueOf = constructor)", "3"],
    ]);
  });

  it("are compared in one form: µ and μ, Ω and Ω, composed and not", () => {
    tells([
      ["µ_r = 2", "2"],
      ["a = μ_r", "2"],
      ["R_\u2126 = 3", "3"],
      ["b = R_\u03a9", "3"],
      ["e\u0301 = 5", "5"],
      ["c = \u00e9", "5"],
    ]);
  });

  it("belong to their first place in the text", () => {
    checkFindings(`
    a = 1 V
    a = 2 A
    ~ name.doubled
    b = a + 1 V
    `);
  });

  it("can be told from each other by a reader", () => {
    checkFindings(`
    given Vо = 2 V
    given Vo = 3 V
          ~~ name.lookAlike
    `);
  });

  it("unknown, they are guessed at sparingly", () => {
    checkFindings(
      `
    burden = 2 V
    a = burdn
        ~~~~~ name.unknown
    V_x = 2
    b = V_y
        ~~~ name.unknown
    c = v_X
        ~~~ name.unknown
        | There is no \`v_X\`; \`V_x\` is near.
    `.replace(/\n +\| .*\n/g, "\n"),
    );
  });
});

describe("other notes", () => {
  it("give their quantities, functions and what those rest on, as one graph", () => {
    tells(
      [
        ['use "b.calcs.md" as b', "use"],
        ['use "c.calcs.md" as c', "use"],
        ['use "c.calcs.md" as d', "use"],
        ["x = d.supply - c.supply", "0 V"],
        ["y = b.half(10 V)", "5 V"],
        ["z = b.scaled(2)", "45.6 .. 48 .. 50.4 V"],
      ],
      {
        "b.calcs.md":
          '    use "c.calcs.md" as other\n    supply = 1 * other.supply\n    half(x) = x / two\n    two = 2\n    scaled(k) = k * supply\n',
        "c.calcs.md": "    given supply = 24 V ± 5 %\n",
      },
    );
  });

  it("in a circle of notes, only what is in a circle of quantities has no value", () => {
    checkFindings(`
    use "b.calcs.md" as b
    x = b.y + 1
    ~ name.circular
    k = 3
    w = b.z
=== b.calcs.md
    use "note.calcs.md" as a
    y = a.x + 1
    ~ name.circular
    z = a.k
`);
  });

  it("are no quantities, and neither are functions and counted units", () => {
    checkFindings(`
    use "b.calcs.md" as b
    items LED
    f(x) = x
    a = b + 1
        ~ name.wrongKind
    c = LED * 2
        ~~~ name.wrongKind
    d = f + 1
        ~ name.wrongKind
    k = 2
    e = k(3)
        ~ name.wrongKind
    g = c.x
        ~ name.wrongKind
=== b.calcs.md
    y = 1
`);
  });
});

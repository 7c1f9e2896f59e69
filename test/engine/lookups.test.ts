import assert from "node:assert/strict";
import { Op } from "../../src/engine/operation";
import { OPERATIONS } from "../../src/engine/operations";
import { onCurve, pointTable, tableAt } from "../../src/engine/pointTables";
import { checkFindings, openNotes } from "../notation";
import { shownIn, tells } from "./told";

describe("look-ups", () => {
  it("take the value beside the last key that is not above", () => {
    tells([
      ["price(n) = lookup(n, [1, 10, 100], [2 EUR, 1.5 EUR, 1 EUR])", "function"],
      ["a = price(1)", "2 EUR"],
      ["b = price(9.999)", "2 EUR"],
      ["c = price(10)", "1.5 EUR"],
      ["d = price(1e6)", "1 EUR"],
      ["e = price(5 .. 20)", "1.5 .. 1.5 .. 2 EUR"],
      ["f = price([1, 100])", "2 EUR, 1 EUR"],
      ["g = price(9.1 + 0.9)", "1.5 EUR"],
    ]);
  });

  it("take lists by name, and values that have limits", () => {
    tells([
      ["thick = [0 mm, 6 mm, 30 mm]", "0 m, 6 mm, 30 mm"],
      ["x = 2 ± 10 %", ""],
      ["a = lookup(7 mm, thick, [x, 2 * x, 3 * x])", "3.6 .. 4 .. 4.4"],
      ["b = lookup(6 mm ± 1 mm, thick, [x, 2 * x, 3 * x])", "1.8 .. 4 .. 4.4"],
      ['c = lookup(2, [3, 1, 2], [x, 2 * x, 3 * x], "exact") - 3 * x', "0"],
      ["d = interpolate(3 mm, thick, [x, 2 * x, 3 * x])", "2.7 .. 3 .. 3.3"],
      ['e = lookup(7 mm, thick, [1, 2, 3], "step")', "2"],
    ]);
  });

  it("find text and numbers exactly", () => {
    tells([
      ['permittivity(material) = lookup(material, ["FR-4", "CEM-1"], [4.5, 4.1 ± 0.1])', "function"],
      ['a = permittivity("FR-4")', "4.5"],
      ['b = permittivity("CEM-1")', "4 .. 4.1 .. 4.2"],
      ['c = lookup(2, [3, 1, 2], [30 A, 10 A, 20 A], "exact")', "20 A"],
      ['d = lookup(0.1 + 0.2, [0.3, 0.6], [1, 2], "exact")', "1"],
      ['kind(name) = lookup(name, ["a", "b"], ["x", "y"])', "function"],
      ['e = lookup(kind("b"), ["x", "y"], [1, 2])', "2"],
    ]);
  });

  it("have no value beside the keys, and say so where they are looked up", () => {
    checkFindings(`
    a = lookup(0.5, [1, 10], [2, 3])
               ~~~ value.undefined
               | There is no value: \`0.5\` lies below the first key.
    n = 0 .. 4
    b = lookup(n, [1, 10], [2, 3])
               ~ range.undefined
    c = lookup(2.5, [1, 2, 3], [1, 2, 3], "exact")
               ~~~ value.undefined
               | There is no value: \`2.5\` is none of the keys.
    d = interpolate(60 °C, [0 °C, 25 °C], [32 kΩ, 10 kΩ])
                    ~~~~~ value.undefined
                    | There is no value: \`60 °C\` lies outside the points.
    e = lookup("FR4", ["FR-4", "CEM-1"], [1, 2])
               ~~~~~ lookup.missing
    f(x) = interpolate(2 * x, [0, 1], [0, 1])
    g = f(0.75)
    ~~~~~~~~~~~ value.undefined
    `);
  });

  it("refuse keys that are not exact, not in order, or not of the kind", () => {
    checkFindings(`
    x = 3 V
    a = lookup(x, [1 V, 3 V, 2 V], [1, 2, 3])
                  ~~~~~~~~~~~~~~~ lookup.keys
    b = lookup(x, [1 V, 1 V], [1, 2])
                  ~~~~~~~~~~ lookup.keys
    c = lookup(x, [3 V, 1 V, 3 V], [1, 2, 3], "exact")
                  ~~~~~~~~~~~~~~~ lookup.keys
    d = lookup(x, [1 V, 2 V ± 1 %], [1, 2])
                  ~~~~~~~~~~~~~~~~ lookup.keys
    y = 3 V ± 1 %
    e = lookup(x, [1 V, y], [1, 2])
                  ~~~~~~~~ lookup.keys
    f = lookup(x, [1 A, 2 A], [1, 2])
                  ~~~~~~~~~~ unit.mismatch
    g = lookup(x, [1 V, 2 V], [1, 2, 3])
                              ~~~~~~~~~ list.lengths
    h = lookup(x, 1 V, [1])
                  ~~~ list.needed
    i = lookup(x, [], [])
                  ~~ list.unexpected
                      ~~ list.unexpected
    j = interpolate(x, [1 V], [2])
                       ~~~~~ lookup.keys
    k = interpolate(x, [1 V, 5 V], [2 ± 1, 3], "smooth")
                                   ~~~~~~~~~~ lookup.keys
    l = interpolate(x, [1 V, 5 V], [2, 3], "cubic")
                                           ~~~~~~~ function.arguments
    m = lookup("a", ["a", "a"], [1, 2])
                    ~~~~~~~~~~ lookup.keys
    n = lookup("a", [1, 2], [1, 2])
               ~~~ text.unexpected
    o = lookup(1, ["a", "b"], [1, 2])
                  ~~~~~~~~~~ text.unexpected
    p = interpolate(20 K, [0 °C, 25 °C], [1, 2])
                          ~~~~~~~~~~~~~ temperature.pair
    q = interpolate(x, [1 V, 5 V], [20 °C, 5 K])
                                           ~~~ temperature.pair
    r = lookup(1 / 0 * x, [1 V], [1])
               ~~~~~ value.undefined
    `);
  });

  it("cost one operation for exact points, however many there are", () => {
    const keys = Array.from({ length: 30 }, (_, i) => `${i} mm`).join(", ");
    const values = Array.from({ length: 30 }, (_, i) => `${i * i} V`).join(", ");
    const { program } = openNotes(`
    f(x) = interpolate(x, [${keys}], [${values}], "smooth") + lookup(x, [${keys}], [${values}])
    y = f(7.5 mm)
    `);
    const [, y] = [...program.notes.get("note.calcs.md")!.entries()];
    assert.equal(y.code.length, 4);
  });

  it("look in the columns of tables", () => {
    const drawn = `
| breaks: | from | price    | grade |
| ------- | ---: | -------: | ----- |
| a       | 1    | 2 EUR    | lamp  |
| b       | 10   | 1.5 EUR  | nut   |
| c       | 100  | = 1 EUR ± 0.1 EUR | bolt |

    n = 12
    price = lookup(n, breaks.from, breaks.price)
    dear = lookup(100, breaks.from, breaks.price)
    between = interpolate(55, breaks.from, [0 V, 0 V, 90 V])
    nut = lookup("nut", breaks.grade, breaks.from)
`;
    checkFindings(drawn);
    assert.deepEqual(shownIn(drawn).slice(-5), ["12", "1.5 EUR", "0.9 .. 1 .. 1.1 EUR", "45 V", "10"]);
  });

  it("take keys that are worked out, in the order in which they come", () => {
    tells([
      ["step = 5 V", "5 V"],
      ["keys = [3 * step, step, 2 * step]", "15 V, 5 V, 10 V"],
      ["a = lookup(11 V, sorted(keys), [1, 2, 3])", "2"],
      ["b = lookup(11 V, sorted([15 V, 5 V, 10 V]), [1, 2, 3])", "2"],
      ['c = interpolate(6 V, sorted(keys), [0 A, 5 A, 6 A], "smooth") < 2 A', "true"],
    ]);
  });

  it("follow an edit of a list that they take by name", () => {
    const notes = openNotes("    keys = [1, 10]\n    a = lookup(5, keys, [2 V, 3 V])\n");
    notes.replace("note.calcs.md", "    keys = [1, 4]\n    a = lookup(5, keys, [2 V, 3 V])\n");
    const nominal = () => {
      const { outcome } = notes.snapshot().rows[1];
      return outcome.kind === "quantity" ? outcome.values[0]?.nominal : undefined;
    };
    assert.equal(nominal(), 3);
    notes.replace("note.calcs.md", "    keys = [1, 4 ± 1]\n    a = lookup(5, keys, [2 V, 3 V])\n");
    assert.equal(nominal(), undefined);
    notes.replace("note.calcs.md", "    keys = [1, 6]\n    a = lookup(5, keys, [2 V, 3 V])\n");
    assert.equal(nominal(), 2);
  });
});

describe("interpolation", () => {
  it("goes on straight lines through the points", () => {
    tells([
      ["f(T) = interpolate(T, [0 °C, 25 °C, 50 °C], [32 kΩ, 10 kΩ, 3.6 kΩ])", "function"],
      ["a = f(0 °C)", "32 kΩ"],
      ["b = f(20 °C)", "14.4 kΩ"],
      ["c = f(50 °C)", "3.6 kΩ"],
      ["d = f(25 °C ± 5 K)", "8.72 .. 10 .. 14.4 kΩ"],
      ["e = interpolate(12.2 kΩ, [3.6 kΩ, 10 kΩ, 32 kΩ], [50 °C, 25 °C, 0 °C])", "22.5 °C"],
      ["g = interpolate(2 .. 8, [0, 5, 10], [0 V, 10 V, 0 V])", "4 .. 10 .. 10 V"],
    ]);
  });

  // Computed by another implementation of the same method, a general-purpose library for science.
  const SMOOTH: readonly { xs: number[]; ys: number[]; at: [x: number, y: number][] }[] = [
    {
      xs: [0, 1, 2, 4, 7, 8],
      ys: [0, 1, 1, 5, 4, 6],
      at: [
        [1.1428571428571428, 1],
        [2.2857142857142856, 1.2215743440233235],
        [3.4285714285714284, 4.206997084548105],
        [4.571428571428571, 4.904977864161538],
        [5.714285714285714, 4.393586005830904],
        [6.857142857142857, 4.006586761688802],
      ],
    },
    {
      xs: [0, 25, 50, 75, 100],
      ys: [32.65, 10, 3.603, 1.481, 0.68],
      at: [
        [14.285714285714286, 17.080648846079452],
        [42.857142857142854, 4.7540533937010885],
        [85.71428571428571, 1.0177320178059008],
      ],
    },
    {
      xs: [-1, 0.5, 3],
      ys: [2, -1, 4],
      at: [
        [-0.4285714285714286, 0.25915127955944284],
        [1.2857142857142856, -0.590787172011662],
        [2.4285714285714284, 1.805481049562682],
      ],
    },
    { xs: [1, 2], ys: [3, 5], at: [[1.4285714285714286, 3.857142857142857]] },
    {
      xs: [0, 1, 3, 6],
      ys: [0, 0, 2, 2.5],
      at: [
        [0.5, 0],
        [1.7142857142857142, 0.5338921282798834],
      ],
    },
  ];

  for (const { xs, ys, at } of SMOOTH) {
    it(`is smooth through ${ys.join(", ")}, and goes through the points`, () => {
      const table = tableAt(pointTable(xs, ys, "smooth"))!;
      for (const [x, y] of at)
        assert.ok(Math.abs(onCurve(table, x) - y) < 1e-12, `${onCurve(table, x)} at ${x}, not ${y}`);
      xs.forEach((x, i) => assert.equal(onCurve(table, x), ys[i]));
    });
  }

  it("never turns where the points do not", () => {
    const xs = [0, 1, 1.1, 4, 5, 20];
    const ys = [0, 0.1, 7, 7.5, 7.5, 100];
    const table = tableAt(pointTable(xs, ys, "smooth"))!;
    for (let i = 1; i <= 2000; i++) {
      const [before, here] = [(i - 1) / 100, i / 100].map((x) => onCurve(table, x));
      assert.ok(here >= before - 1e-12, `falls from ${before} to ${here} at ${i / 100}`);
    }
  });

  it("pushes one way where it rises, so that its range is attained", () => {
    const out = new Float64Array(6);
    const table = pointTable([0, 1, 2], [0, 1, 5], "smooth");
    OPERATIONS[Op.Interpolate].slopes(out, 0.2, 1.7, table, table, 0, 0);
    assert.ok(out[0] > 0 && out[1] < Infinity);
  });
});

describe("picks from a series", () => {
  it("are of the unit of what is wanted", () => {
    tells([
      ["R = 5.05 kΩ ± 10 %", ""],
      ['a = nearest("E24", R)', "4.7 .. 5.1 .. 5.6 kΩ"],
      ['b = below("E96", 5.05 kΩ)', "4.99 kΩ"],
      ['c = above("E6", 3.4 µF)', "4.7 µF"],
      ['d = above("E12", 4.7)', "4.7"],
      ['e = nearest("E3", [1.1 Ω, 3 mΩ, 8 kΩ])', "1 Ω, 2.2 mΩ, 10 kΩ"],
      ["next(series, x) = above(series, x)", "function"],
      ['f = next("E12", 4.8 Ω)', "5.6 Ω"],
    ]);
  });

  it("come in pairs, for a ratio, a sum and a parallel value", () => {
    tells([
      ['pair = pair_ratio("E24", 3.3)', "3.3, 1"],
      ["R1 = 10 kΩ * first(pair)", "33 kΩ"],
      ["R2 = 10 kΩ * last(pair)", "10 kΩ"],
      ['a = pair_sum("E12", 10 kΩ)', "8.2 kΩ, 1.8 kΩ"],
      ['b = pair_parallel("E24", 5 kΩ)', "7.5 kΩ, 15 kΩ"],
      ["wanted = 2 .. 3", ""],
      ['must first(pair_ratio("E24", wanted)) < 100', "holds"],
    ]);
    checkFindings(`
    a = pair_ratio("E24", 3 V)
                          ~~~ unit.ratioNeeded
    b = pair_sum("E24", [1, 2])
                        ~~~~~~ list.unexpected
    c = pair_sum("E24", 0 V)
                        ~~~ value.undefined
    d = first(3)
              ~ list.needed
    `);
  });

  it("need a series and a value above zero", () => {
    checkFindings(`
    a = nearest("E25", 3 V)
                ~~~~~ function.arguments
    b = nearest(24, 3 V)
                ~~ function.arguments
    c = above("E24", 0 Ω)
                     ~~~ value.undefined
                     | There is no value: \`0 Ω\` is not above zero, where the members of a series are.
    d = below("E24", -1 .. 3 V)
                     ~~~~~~~~~ range.undefined
    e = below("E24", 20 °C)
                     ~~~~~ temperature.point
    f = below("E24", "E24")
                     ~~~~~ text.unexpected
    g = below("E24")
        ~~~~~~~~~~~~ function.arguments
    `);
  });
});

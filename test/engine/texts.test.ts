import assert from "node:assert/strict";
import { checkFindings, openNotes } from "../notation";
import { tells } from "./told";

describe("text as an argument", () => {
  it("decides between cases while compiling: the other case is not even looked at", () => {
    tells([
      [`f(fit, d = 2 mm) = if fit = "H7" then 21 µm else if fit = "g6" or fit = "h6" then 13 A else d`, "function"],
      [`a = f("H7")`, "21 µm"],
      [`b = f("h6")`, "13 A"],
      [`c = f("k6")`, "2 mm"],
      [`d = f(fit = "k6", d = 3 s)`, "3 s"],
      [`g(fit = "H7") = if not fit != "H7" and not (fit = "g6") then f(fit) else 0 m`, "function"],
      ["h = g()", "21 µm"],
      [`i = g("g6")`, "0 m"],
    ]);
  });

  it("compares exactly, and joins conditions of numbers", () => {
    tells([
      [`f(kind, x) = if (kind = "a" and x < 3) or kind = "b" then 1 else 2`, "function"],
      [`a = f("a", 2)`, "1"],
      [`b = f("a", 4)`, "2"],
      [`c = f("A", 2)`, "2"],
      [`d = f("b", 4)`, "1"],
    ]);
  });

  it("states a domain", () => {
    checkFindings(`
    f(fit) = if fit = "H7" then 1 else 2 where fit = "H7" or fit = "g6"
    a = f("H7") + f("g6")
    b = f("K9")
          ~~~~ function.domain
          | fit "K9" is outside what \`f\` holds for: \`fit = "H7" or fit = "g6"\`.
    `);
  });

  it("stands nowhere else", () => {
    checkFindings(`
    a = "H7"
        ~~~~ text.unexpected
    b = "H7" + 3
        ~~~~ text.unexpected
    c = -"H7"
         ~~~~ text.unexpected
    d = sqrt("H7")
             ~~~~ text.unexpected
    e = if 1 < 2 then "a" else "b"
                      ~~~ text.unexpected
    f = ["a", 3]
         ~~~ text.unexpected
    given g = "a"
              ~~~ text.unexpected
    must "a"
         ~~~ text.unexpected
    must "a" < "b"
         ~~~ text.unexpected
    h = ("a" = 3)
         ~~~ text.unexpected
    i(x) = if x = "a" then 1 else 2
    j = i(3)
        ~~~~ function.body
    assume l = "x"
               ~~~ text.unexpected
    must l > 3
    `);
  });
});

describe("a counter", () => {
  it("runs over whole numbers, both limits included", () => {
    tells([
      ["I = 2 mA ± 10 %", ""],
      ["a = sum(k * I for k = 1 .. 10)", "99 .. 110 .. 121 mA"],
      ["b = sum(k * I - I * k for k = 1 .. 10)", "0 A"],
      ["c = max(k^2 - 5 for k = -3 .. 2)", "4"],
      ["d = mean(k for k = 1 .. 4) + rss(3 for k = 1 .. 1)", "5.5"],
      ["e = sum(sum(k * j for k = 1 .. j) for j = 1 .. 3)", "25"],
      ["f = size(1 V for k = 0 .. 6)", "7"],
      ["k = 100", "100"],
      ["g = sum(k for k = 1 .. 3) + k", "106"],
    ]);
  });

  it("has certain limits, and follows them", () => {
    tells([
      ["power_series(x, n) = sum(x^k for k = 0 .. n)", "function"],
      ["a = power_series(2, 3)", "15"],
      ["b = sum(k for k = (2 - 1) .. size([1, 2, 3]))", "6"],
      ["n = 0.3 / 0.1", "3"],
      ["c = sum(k for k = 1 .. n)", "6"],
      ["d = sum(k for k = n .. highest(3.5 ± 0.5))", "7"],
      ["e = power_series(2, n)", "15"],
    ]);
    const notes = openNotes("    n = 3\n    a = sum(k for k = 1 .. n)\n");
    notes.replace("note.calcs.md", "    n = 4\n    a = sum(k for k = 1 .. n)\n");
    const outcome = notes.snapshot().find("a")?.outcome;
    assert.equal(outcome?.kind === "quantity" && outcome.values[0].nominal, 10);
    checkFindings(`
    n = 3 ± 1
    a = sum(k for k = 1 .. n)
                           ~ counter.limits
                           | The counter cannot run over \`n\`: its limits are certain, and this has a range. Take its \`nominal(…)\`, \`lowest(…)\` or \`highest(…)\`.
    o = sum(k for k = 1 .. (1 / (1 - 1)))
                           ~~~~~~~~~~~~~ counter.limits
    b = sum(k for k = 1.5 .. 3)
                      ~~~~~~~~ counter.limits
    c = sum(k for k = 1 .. 3 V)
                      ~~~~~~~~ counter.limits
    d = sum(k for k = 1 .. 2 .. 3)
                      ~~~~~~~~~~~ counter.limits
    e = sum(k for k = 1 .. 1001)
                      ~~~~~~~~~ counter.limits
    f = sum(k for k = 1 .. (1 - 3))
                           ~~~~~~~ counter.limits
    g = sum(k < 2 for k = 1 .. 2)
            ~~~~~ truth.unexpected
    h = sum([k, k] for k = 1 .. 2)
            ~~~~~~ list.unexpected
    i = sum(if k < 2 then 1 V else 2 A for k = 1 .. 2)
                                   ~~~ unit.mismatch
    j = sum(k for k = 1 .. nothing)
                           ~~~~~~~ name.unknown
    l = sum(k for k = 3)
                      ~ counter.limits
    m = sum(k for k = n)
                      ~ syntax.literalExpected
    `);
  });
});

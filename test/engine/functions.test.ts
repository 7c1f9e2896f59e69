import { checkFindings } from "../notation";
import { tells } from "./told";

describe("functions", () => {
  it("take their arguments by position and by name, and defaults that rest on names of the note", () => {
    tells([
      ["f(x, y = 2 * k, z = x + k) = x + 10 * y + 100 * z", "function"],
      ["k = 1", "1"],
      ["x = 2", "2"],
      ["a = f(1)", "321"],
      ["b = f(1, 3)", "331"],
      ["c = f(1, z = 0)", "21"],
      ["d = f(z = 0, y = 5, x = 7)", "57"],
    ]);
  });

  it("have a dimension at each call", () => {
    tells([
      ["twice(x) = 2 * x", "function"],
      ["a = twice(3 V)", "6 V"],
      ["b = twice(4 mm)", "8 mm"],
      ["c = twice(twice(1))", "4"],
    ]);
  });

  it("see their parameters before the names of the note", () => {
    tells([
      ["x = 100", "100"],
      ["f(x) = x + g(1)", "function"],
      ["g(y) = x + y", "function"],
      ["a = f(1)", "102"],
    ]);
  });

  it("hold one literal as one quantity, however often they are called", () => {
    tells([
      ["f(x) = x * (1 ± 5 %)", "function"],
      ["a = f(2) - f(2)", "0"],
      ["b = f(3) - 1.5 * f(2)", "0"],
    ]);
  });

  it("of themselves have no value, straight and by way of another", () => {
    checkFindings(`
    f(x) = f(x - 1)
    ~ name.circular
    g(x) = h(x) + 1
    ~ name.circular
    h(x) = g(x)
    a = f(1) + g(2)
    `);
  });

  it("say what is wrong with a call at the call", () => {
    checkFindings(`
    f(x, y = 1) = x + y
    a = f()
        ~~~ function.arguments
    b = f(1, 2, 3)
                ~ function.arguments
    c = f(1, z = 3)
             ~~~~~ function.arguments
    d = f(1, x = 3)
             ~~~~~ function.arguments
    e = f(1 V, 2 s)
        ~~~~~~~~~~~ function.body
    g = sqrt(1, 2)
        ~~~~~~~~~~ function.arguments
    h = max(a = 1)
            ~~~~~ function.arguments
    `);
  });

  it("say of what kind their arguments are, and what they give", () => {
    checkFindings(`
    items LED
    cutoff(R [Ω], C [F] = 100 nF) [kHz] = 1 / (2 * π * R * C)
    warm(T [°C], rise [K]) [°C] = T + rise
    at(E [lx], d [m], angle [°] = 0 °) = E * d^2
    a [Hz] = cutoff(1 kΩ)
    b = cutoff(1 kΩ, 100 mH)
                     ~~~~~~ function.argumentUnit
    c = cutoff(1000)
               ~~~~ function.argumentUnit
    d = cutoff(0, C = 0)
    ~~~~~~~~~~~~~~~~~~~~ value.undefined
    e = warm(25 °C, 10 K)
    f = warm(25 °C, 10 °C)
                    ~~~~~ function.argumentUnit
    g = warm(25 K, 10 K)
             ~~~~ function.argumentUnit
    h = cutoff("one")
               ~~~~~ text.unexpected
    i = cutoff(10 Ω/LED)
    k = cutoff(3 Ω, C = a)
                        ~ function.argumentUnit
    l = at(5 lx, 2 m, 30)
    per(n [LED], I [A/LED]) = n * I
    m = per(3, 2 mA/LED)
            ~ function.argumentUnit
    n = per(3 LED, 2 mA/LED)
    `);
  });

  it("say of what they give that it is of another kind than their brackets", () => {
    checkFindings(`
    drop(I [A], R) [W] = I * R
    a = drop(1 A, 2 Ω)
        ~~~~~~~~~~~~~~ function.body
    told(I [A], R [Ω]) [W] = I * R
                        ~ unit.shownIn
    d = told(1 A, 2 Ω)
    broken(x [nonsense], y [m]) [worse] = x
              ~~~~~~~~ unit.unknown
                                 ~~~~~ unit.unknown
    b = broken(1 V, 2 m)
    c = broken(1 V, 2 s)
                    ~~~ function.argumentUnit
    `);
  });

  it("are shown in the unit of what they give, with whatever prefix fits where it has none", () => {
    tells([
      ["cutoff(R [Ω], C [F]) [Hz] = 1 / (2 * π * R * C)", "function"],
      ["a = cutoff(1 kΩ, 1 nF)", "159.155 kHz"],
      ["b = cutoff(1 kΩ, 1 F)", "159.155 µHz"],
      ["slot(thickness [mm]) [mm] = thickness / 5", "function"],
      ["c = slot(1.6 mm)", "0.32 mm"],
    ]);
  });

  it("must not take a native function's name, and say so", () => {
    checkFindings(`
    sqrt(x) = x / 2
    ~~~~ name.native
    `);
  });
});

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

  it("must not take a native function's name, and say so", () => {
    checkFindings(`
    sqrt(x) = x / 2
    ~~~~ name.native
    `);
  });
});

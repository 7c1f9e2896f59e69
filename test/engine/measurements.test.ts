import { checkFindings } from "../notation";
import { tells } from "./told";

describe("measurements", () => {
  it("replace an assumption only where they say so, the latest first", () => {
    tells([
      ["assume a = 1 .. 3 V", "1 .. 2 .. 3 V"],
      ["measured a = 2.5 V", "2.5 V"],
      ["assume b = 1 .. 3 V", "2.3 .. 2.5 .. 2.7 V"],
      ["measured b = 2.5 V on 2026-01-05 instead", "2.5 V"],
      ["measured b = 2.3 .. 2.7 V on 2026-02-05 instead", "2.3 .. 2.5 .. 2.7 V"],
      ["measured b = 2.4 V on 2026-01-31 instead", "2.4 V"],
      ["c = a + b", "3.3 .. 4.5 .. 5.7 V"],
      ["must c < 6 V", "holds"],
    ]);
  });

  it("that another one has overtaken are compared with that", () => {
    checkFindings(`
    assume b = 1 .. 3 V
    measured b = 1.5 V on 2026-01-05 instead
                 ~~~~~ measurement.disjoint error
                 | b was measured as 1.5 V, and as 2.5 V by the measurement that stands for the guess. They have no value in common. Correct one of the two.
    measured b = 2.5 V on 2026-02-05 instead
    must b < 4 V
    `);
  });

  it("of what is no assumption replace nothing", () => {
    checkFindings(`
    given a = 1 .. 3 V
    measured a = 2 V instead
             ~ measurement.replaces
    b = 2 * a
    measured b = 4 V instead
             ~ measurement.replaces
    `);
  });

  it("are compared with what was predicted without them", () => {
    checkFindings(`
    given a = 1 .. 3 V
    b = 2 * a
    measured b = 4 V ± 1 V
    measured b = 5 V ± 2 V
                 ~~~~~~~~~ measurement.outside
    measured b = 7 V ± 0.5 V
                 ~~~~~~~~~~~ measurement.disjoint
    measured a = 0.5 V
                 ~~~~~ measurement.disjoint
    assume c = 1 .. 2 V
    measured c = 1.5 .. 2.5 V instead
                 ~~~~~~~~~~~~ measurement.outside
    measured d = 3 V
             ~ name.unknown
    measured b = 3 A
                 ~~~ unit.mismatch
    must c < 6 V
    `);
  });

  it("are compared under their conditions", () => {
    checkFindings(`
    over V_in = 8 .. 16 V
    given R = 100 Ω ± 1 %
    I = V_in / R
    P = V_in * I
    measured I = 100 mA at V_in = 10 V
    measured I = 120 mA at V_in = 10 V
                 ~~~~~~ measurement.disjoint
    measured P = 1 W at V_in = 10 V, R = 100 Ω
    measured P = 1.01 W at V_in = 10 V, R = 100 Ω
                 ~~~~~~ measurement.disjoint
    measured P = 1 W at V_x = 10 V
                        ~~~ name.unknown
    Q = 2 * P
    measured Q = 4.5 W at I = 150 mA, V_in = 15 V
    `);
  });
});

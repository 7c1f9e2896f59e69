import assert from "node:assert/strict";
import { propagate } from "../../src/engine/monteCarlo";
import { firstOrder } from "../../src/engine/uncertainty";
import { modelOf, type Model } from "./models";
import { lastRange, programOf } from "./ranges";
import { tells } from "./told";

/** By how much a figure of trials may be off: five standard deviations of it. */
const TRIALS = 100_000;

function trialsOf({ cone, spreads }: Model): { readonly mean: number; readonly standardDeviation: number } {
  const run = propagate(cone, spreads, { seed: "pieces", trials: TRIALS });
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
}

function near(actual: number, expected: number, tolerance: number, what: string): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what}: ${actual}, expected ${expected} ± ${tolerance}`);
}

/** The standard uncertainty of what the last line defines: to first order, and by trials. */
function assertUncertainty(lines: readonly string[], expected: number): void {
  const model = modelOf(lines);
  near(firstOrder(model.cone, model.spreads).standardUncertainty!, expected, 1e-9 * expected, "to first order");
  near(trialsOf(model).standardDeviation, expected, 0.02 * expected, "by trials");
}

describe("further pieces", () => {
  it("differ from the first in what is drawn for each, and share the rest", () => {
    tells([
      ["assume t = 2 mm ± 0.1 mm each", ""],
      ["assume gap = 5 mm ± 1 mm", ""],
      ["must t < gap", ""],
      ["step = t - another t", "-200 .. 0 .. 200 µm"],
      ["height = gap + t", ""],
      ["lip = height - another height", "-200 .. 0 .. 200 µm"],
      ["none = height - height", "0 m"],
      ["two = another t + another t", "3.8 .. 4 .. 4.2 mm"],
      ["further = another t", ""],
      ["same = further - further", "0 m"],
      ["beyond = further - another further", "-200 .. 0 .. 200 µm"],
    ]);
  });

  it("are in a function those of its arguments", () => {
    tells([
      ["assume t = 2 mm ± 0.1 mm each", ""],
      ["assume s = 3 mm ± 0.2 mm", ""],
      ["must t < s", ""],
      ["step(x) = x - another x", ""],
      ["one = step(t + s)", "-200 .. 0 .. 200 µm"],
      ["twice = step(t) - step(t)", "0 m"],
      ["apart = step(t) - step(2 * t)", "-400 .. 0 .. 400 µm"],
      ["stack(n, x) = total(n, x)", ""],
      ["three = stack(3, t + s)", "14.1 .. 15 .. 15.9 mm"],
    ]);
  });

  it("are those of another note too", () => {
    tells(
      [
        ['use "part.calcs.md" as part', ""],
        ["step = part.height - another part.height", "-200 .. 0 .. 200 µm"],
        ["stack = total(4, part.height)", "24 .. 28 .. 32 mm"],
      ],
      { "part.calcs.md": "    given t = 2 mm ± 0.1 mm each\n    given gap = 5 mm ± 0.9 mm\n    height = gap + t\n" },
    );
  });

  it("have their own of a measurement that stands instead, and the one choice that was made", () => {
    tells([
      ["assume V_f = 3 V ± 0.2 V each LED", ""],
      ["measured V_f = 2.9 .. 3.1 V instead", ""],
      ["items LED", ""],
      ["R = (5 V - V_f) / 20 mA choose 100 Ω ± 1 %", ""],
      ["must R > 0 Ω", ""],
      ["differ = V_f - another V_f", "-200 .. 0 .. 200 mV"],
      ["I = (5 V - V_f) / R", ""],
      ["dI = I - another I", "-2.02 .. 0 .. 2.02 mA"],
    ]);
  });

  it("are added up without being the same one counted so often", () => {
    tells([
      ["assume t = 2 mm ± 0.1 mm each", ""],
      ["must t > 0 mm", ""],
      ["counted = 6 * t", "11.4 .. 12 .. 12.6 mm"],
      ["added = total(6, t)", "11.4 .. 12 .. 12.6 mm"],
      ["apart = total(6, t) - 6 * t", "-1.2 .. 0 .. 1.2 mm"],
      ["none = total(0, t)", "0 mm"],
      ["nested = total(3, total(2, t))", "11.4 .. 12 .. 12.6 mm"],
    ]);
  });

  it("keep the unit of what is counted", () => {
    tells([
      ["items LED, board", ""],
      ["given price = 0.12 EUR/LED ± 0.01 EUR/LED each LED", ""],
      ["cost = total(14 LED/board * 8 board, price)", "12.32 .. 13.44 .. 14.56 EUR"],
    ]);
  });

  const SHARED = ["given U = 10 V ± 0.3 V", "given R = 5 kΩ ± 60 Ω each", "I = U / R"];

  it("share what is shared: the uncertainty of a sum is n·shared and √n·each, to first order and by trials", () => {
    const [u, r] = [0.3 / Math.sqrt(3) / 5000, (10 * 60) / Math.sqrt(3) / 5000 ** 2];
    for (const n of [1, 4, 50])
      assertUncertainty([...SHARED, `T = total(${n}, I)`], Math.hypot(n * u, Math.sqrt(n) * r));
    assertUncertainty([...SHARED, "d = I - another I"], Math.SQRT2 * r);
    assertUncertainty([...SHARED, "T = total(3, total(4, I))"], Math.hypot(12 * u, Math.sqrt(12) * r));
    assertUncertainty([...SHARED, "T = total(3, I + total(2, I))"], Math.hypot(9 * u, 3 * r));
  });

  it("are drawn one by one where x is not linear: of squares the mean and the deviation are exact", () => {
    // x even in −1 .. 1: the mean of x² is 1/3, its variance 4/45.
    const model = modelOf(["given x = -1 .. 1 each", "T = total(20, x^2)"]);
    const { mean, standardDeviation } = trialsOf(model);
    const sd = Math.sqrt((20 * 4) / 45);
    near(mean, 20 / 3, (5 * sd) / Math.sqrt(TRIALS), "mean");
    near(standardDeviation, sd, 0.02 * sd, "standard deviation");
  });

  it("are as many as one likes: a million cells have their range and uncertainty at once, and trials take their mean", () => {
    const lines = ["given c = 1 .. 2 .. 4 nA each", "T = total(1_000_000, c)"];
    const { kind, low, high } = lastRange(lines);
    assert.equal(kind, "attained");
    near(low, 1e-3, 1e-12, "low");
    near(high, 4e-3, 1e-12, "high");
    const model = modelOf(lines);
    const u = (3e-9 / Math.sqrt(12)) * 1e3;
    near(firstOrder(model.cone, model.spreads).standardUncertainty!, u, 1e-9 * u, "to first order");
    const { mean, standardDeviation } = trialsOf(model);
    near(mean, 2.5e-3, (5 * u) / Math.sqrt(TRIALS), "mean");
    near(standardDeviation, u, 0.02 * u, "standard deviation");
  });

  it("are computed one by one where a sum can take values that n times one cannot", () => {
    const { low, high } = lastRange(["given x = 0.5 .. 2.5 each", "T = (total(3, floor(x)) - 4)^2"]);
    assert.equal(low, 0, "0 + 2 + 2 is 4, and no three times 0, 1 or 2 is");
    near(high, 16, 1e-12, "0 + 0 + 0");
  });

  it("are known by their names at the ends of a range", () => {
    const { lowAt, highAt } = lastRange(["given t = 2 mm ± 0.1 mm each", "d = (t - another t) + total(5, t)"]);
    assert.deepEqual(Object.keys(lowAt).sort(), ["another t", "each t", "t"]);
    near(highAt["another t"], 1.9e-3, 1e-15, "another t");
    near(highAt["each t"], 2.1e-3, 1e-15, "each t");
  });

  it("are computed again when any definition between changes its formula", () => {
    const program = programOf("given t = 2 mm ± 0.1 mm each", "h = 2 * t", "k = h", "d = k - another k");
    const high = () => [...program.notes.get("note.calcs.md")!.entries()].at(-1)!.outcome!;
    const outcome = () => {
      const it = high();
      assert.ok(it.kind === "quantity");
      return it.values[0].high;
    };
    near(outcome(), 0.4e-3, 1e-15, "twice");
    const { text } = program.notes.get("note.calcs.md")!;
    const at = text.indexOf("2 * t");
    program.edit("note.calcs.md", { span: { start: at, end: at + 1 }, text: "3" });
    program.settle();
    near(outcome(), 0.6e-3, 1e-15, "three times");
  });
});

describe("nominal, lowest and highest", () => {
  it("are exact numbers", () => {
    tells(
      [
        ["given t = 1.9 .. 2.0 .. 2.2 mm", ""],
        ["n = nominal(t)", "2 mm"],
        ["lo = lowest(t)", "1.9 mm"],
        ["hi = highest(t)", "2.2 mm"],
        ["slack = highest(t) - t", "0 .. 200 .. 300 µm"],
        ["T = 20 .. 30 °C", ""],
        ["T_hi = highest(T)", "30 °C"],
        ["many = highest([t, 2 * t])", "2.2 mm, 4.4 mm"],
        ["pieces = total(3, nominal(t) + 0 * t)", ""],
      ].slice(0, 8) as never,
    );
  });

  it("take the true end, not the enclosure", () => {
    tells([
      ["given I = 1 .. 2 A", ""],
      ["P = I * (3 A - I) * 1 Ω", "2 .. 2.25 .. 2.25 W"],
      ["P_hi = highest(P)", "2.25 W"],
    ]);
  });

  it("are the same for every piece", () => {
    tells([
      ["given t = 2 mm ± 0.1 mm each", ""],
      ["off = t - nominal(t)", "-100 .. 0 .. 100 µm"],
      ["apart = off - another off", "-200 .. 0 .. 200 µm"],
      ["stack = total(5, off + highest(t))", "10 .. 10.5 .. 11 mm"],
    ]);
  });
});

import assert from "node:assert/strict";
import type { Correlation } from "../../src/engine/correlation";
import { coneOf } from "../../src/engine/cone";
import { firstOrder } from "../../src/engine/uncertainty";
import { lastRange, programOf } from "./ranges";
import { tells } from "./told";

/** The correlations that a program knows of what the last line rests on, by the names of the inputs. */
function correlationsOf(...lines: readonly string[]): {
  readonly named: readonly string[];
  readonly u: number;
} {
  const program = programOf(...lines);
  const entry = [...program.notes.get("note.calcs.md")!.entries()].at(-1)!;
  const cone = coneOf(program, entry, 0);
  const places = cone.inputs.map(({ slot }) => program.inputPlace(slot));
  const found: readonly Correlation[] = program.correlationsAmong(cone.inputs);
  const spreads = places.map(({ spread }) => spread);
  return {
    named: found.map(({ a, b, r }) => `${[places[a].name, places[b].name].sort().join(" ")} ${r}`).sort(),
    u: firstOrder(cone, spreads, found).standardUncertainty!,
  };
}

const PAIR = ["given a = 10.0(1) V", "given b = 20.0(2) V"];

describe("correlated inputs", () => {
  it("are told to the uncertainty (JCGM 100, 5.2.2), and change no range", () => {
    const { named, u } = correlationsOf(...PAIR, "correlation a, b = 0.5", "c = a + b");
    assert.deepEqual(named, ["a b 0.5"]);
    assert.ok(Math.abs(u - Math.sqrt(0.01 + 0.04 + 0.02)) < 1e-12, `${u}`);
    tells([
      ["given a = 10 V ± 1 V", ""],
      ["given b = 20 V ± 1 V", ""],
      ["correlation a, b = -0.9", ""],
      ["c = a + b", "28 .. 30 .. 32 V"],
    ]);
  });

  for (const [how, line] of [
    ["by a plain number with limits", "b = 20.0(2) V"],
    ["chosen for what was wanted", "b = 2 * 9.9 V choose 20.0(2) V"],
    ["chosen without a formula", "choose b = 20.0(2) V"],
    ["to be typed into an order", "order b = 20.0(2) V"],
  ])
    it(`may be stated ${how}`, () => {
      const { named, u } = correlationsOf("given a = 10.0(1) V", line, "correlation b, a = 0.5", "c = a + b");
      assert.deepEqual(named, ["a b 0.5"]);
      assert.ok(Math.abs(u - Math.sqrt(0.01 + 0.04 + 0.02)) < 1e-12, `${u}`);
    });

  it("may be read repeatedly, or a sample of several", () => {
    // Of 4, 6 and 8 the mean has the standard uncertainty 2/√3, and the next piece 2·√(4/3).
    const { named, u } = correlationsOf(
      "a = readings [4, 6, 8] V",
      "given b = sample [4, 6, 8] V",
      "correlation a, b = -0.5",
      "c = a + b",
    );
    assert.deepEqual(named, ["a b -0.5"]);
    assert.ok(Math.abs(u - Math.sqrt(4 / 3 + 16 / 3 - (2 * 4) / 3)) < 1e-12, `${u}`);
  });

  it("are one variable at 1 and −1 where they are chosen, too", () => {
    tells([
      ["R1 = 98 Ω choose 100 Ω ± 1 % from E24", "99 .. 100 .. 101 Ω"],
      ["choose R2 = 200 Ω ± 1 %", "198 .. 200 .. 202 Ω"],
      ["correlation R1, R2 = 1", ""],
      ["share = R2 / (R1 + R2)", "0.666667"],
    ]);
  });

  it("are one variable at 1 and −1, for ranges too", () => {
    tells([
      ["given a = 10 V ± 1 V", ""],
      ["given b = 20 V ± 2 V", ""],
      ["given c = 5 V ± 1 V", ""],
      ["correlation a, b = 1", ""],
      ["correlation c, b = -1", ""],
      ["d = b - 2 * a", "0 V"],
      ["e = a + b + c", "33 .. 35 .. 37 V"],
      ["f = a + c", "15 V"],
      ["g = b", "18 .. 20 .. 22 V"],
    ]);
  });

  it("are one variable with a typical value, mirrored at −1", () => {
    const { low, high } = lastRange([
      "given a = 1 .. 2 .. 5 V",
      "given b = 10 .. 16 .. 18 V",
      "correlation a, b = -1",
      "d = 2 * a + b",
    ]);
    // b is 16 V − 2·(a − 2 V).
    assert.ok(Math.abs(low - 20) < 1e-12 && Math.abs(high - 20) < 1e-12, `${low} .. ${high}`);
  });

  it("are so within each piece", () => {
    const lines = ["given a = 10.0(1) V each", "given b = 20.0(2) V each", "correlation a, b = 0.5", "c = a + b"];
    assert.deepEqual(correlationsOf(...lines, "d = c - another c").named, ["a b 0.5", "another a another b 0.5"]);
    const { named, u } = correlationsOf(...lines, "d = total(4, c)");
    assert.deepEqual(named, ["each a each b 0.5"]);
    assert.ok(Math.abs(u - 2 * Math.sqrt(0.07)) < 1e-12, `${u}`);
    tells([
      ["given a = 10 V ± 1 V each", ""],
      ["given b = 20 V ± 2 V each", ""],
      ["correlation a, b = 1", ""],
      ["c = b - 2 * a", ""],
      ["d = c - another c", "0 V"],
      ["e = b - 2 * another a", "-4 .. 0 .. 4 V"],
    ]);
  });

  it("follow the root of what they are tied to", () => {
    const { named } = correlationsOf(
      "given x = 1 V ± 0.1 V",
      ...["given a = 2 V ± 0.1 V", "given b = 3 V ± 0.1 V"],
      ...["correlation b, a = -1", "correlation b, x = 0.5"],
      "c = b + x",
    );
    assert.deepEqual(named, ["a x -0.5"]);
  });

  it("hear when the statement comes, goes, or the other input is edited", () => {
    const program = programOf("given a = 10 V ± 1 V", "given b = 20 V ± 2 V", "correlation a, b = 1", "d = b - 2 * a");
    const path = "note.calcs.md";
    const high = () => {
      const outcome = [...program.notes.get(path)!.entries()].at(-1)!.outcome!;
      assert.ok(outcome.kind === "quantity");
      return outcome.values[0].high;
    };
    const edit = (old: string, text: string) => {
      const start = program.notes.get(path)!.text.indexOf(old);
      program.edit(path, { span: { start, end: start + old.length }, text });
      program.settle();
    };
    assert.ok(Math.abs(high()) < 1e-12);
    edit("± 1 V", "± 0.5 V");
    assert.ok(Math.abs(high() - 1) < 1e-12);
    edit("= 1\n", "= -1\n");
    assert.ok(Math.abs(high() - 3) < 1e-12);
    edit("correlation a, b = -1", "# none");
    assert.ok(Math.abs(high() - 3) < 1e-12);
    edit("given b = 20 V ± 2 V", "b = 2 * a");
    assert.equal(high(), 0);
  });
});

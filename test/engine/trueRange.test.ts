import assert from "node:assert/strict";
import { coneOf } from "../../src/engine/cone";
import { trueRange, searchInSlices, type TrueRange } from "../../src/engine/trueRange";
import { lastRange, programOf, rangeOf } from "./ranges";

describe("true ranges: what is attained", () => {
  it("an input used twice is one input", () => {
    assertAttained(rangeOf("R2 / (R1 + R2)", ["R1 = 10 kΩ ± 5 %", "R2 = 10 kΩ ± 5 %"]), 0.475, 0.525, 1e-12);
    assertAttained(rangeOf("x / (1 + x)", ["x = 1 .. 2"]), 1 / 2, 2 / 3, 1e-12);
  });

  it("so it is across definitions", () => {
    const range = lastRange([
      "given R1 = 10 kΩ ± 5 %",
      "given R2 = 10 kΩ ± 5 %",
      "total = R1 + R2",
      "share = R2 / total",
    ]);
    assertAttained(range, 0.475, 0.525, 1e-12);
  });

  it("so it is through a function that names it", () => {
    assertAttained(lastRange(["given x = 1 .. 2", "f(y) = y / (1 + x)", "result = f(x)"]), 1 / 2, 2 / 3, 1e-12);
  });

  it("what cancels is exact", () => {
    for (const expression of ["x - x", "(x + y) - (y + x)", "2 * x * y - x * 2 * y + (x * y - y * x)"]) {
      const { kind, low, high } = rangeOf(expression, ["x = 1 .. 2", "y = -3 .. 5"]);
      assert.deepEqual({ kind, low, high }, { kind: "attained", low: 0, high: 0 }, expression);
    }
    for (const expression of ["x / x", "(x * y) / (y * x)", "hypot(x, y) / hypot(y, x)"]) {
      const { kind, low, high } = rangeOf(expression, ["x = 1 .. 2", "y = 3 .. 5"]);
      assert.deepEqual({ kind, low, high }, { kind: "attained", low: 1, high: 1 }, expression);
    }
  });

  it("an extreme inside is found, to a thousandth of the width at most", () => {
    assertAttained(rangeOf("R / (50 Ω + R)^2", ["R = 25 .. 100 Ω"]), 4 / 900, 1 / 200, 1e-3);
    assertAttained(rangeOf("abs(x)", ["x = -3 .. 2"]), 0, 3, 1e-12);
    assertAttained(rangeOf("x * y", ["x = -1 .. 2", "y = -3 .. 1"]), -6, 3, 1e-12);
    assertAttained(rangeOf("x * x", ["x = -1 .. 2"]), 0, 4, 1e-12);
    assertAttained(rangeOf("sin(x)", ["x = 1 .. 2"]), Math.sin(1), 1, 1e-3);
  });

  it("a choice that turns inside has its extreme at the turn", () => {
    const range = rangeOf("if x < 1 then x + 5 else x", ["x = 0 .. 2"]);
    assertAttained(range, 1, 6, 1e-3);
    assert.ok(Math.abs(range.atHigh[0].value - 1) < 0.01);
  });

  it("steps are rising", () => {
    assertAttained(rangeOf("floor(3 * x)", ["x = 1 .. 2"]), 3, 6, 0);
    assertAttained(rangeOf("x - floor(x)", ["x = 0.5 .. 2.25"]), 0, 1, 1e-3);
    assertAttained(rangeOf("ceil(x, 0.5 V) - x", ["x = 1.1 .. 1.4 V"]), 0.1, 0.4, 1e-9);
  });

  it("the ends come with the inputs that give them", () => {
    const inputs = ["V = 5 V ± 5 %", "V_f = 1.8 .. 2.4 V", "R = 150 Ω ± 5 %"];
    const range = rangeOf("(V - V_f) / R", inputs);
    assert.deepEqual(
      range.atLow.map(({ value }) => value),
      [4.75, 2.4, 157.5],
    );
    assert.deepEqual(
      range.atHigh.map(({ value }) => value),
      [5.25, 1.8, 142.5],
    );
    assert.equal(range.bestHigh, (5.25 - 1.8) / 142.5);
    assert.ok(range.low <= range.bestLow && range.bestHigh <= range.high);
  });

  it("an input that does not matter stays nominal", () => {
    const range = rangeOf("x + 0 * y", ["x = 1 .. 2", "y = 1 .. 2 .. 4"]);
    assert.equal(range.atHigh[1].value, 2);
  });

  it("an exact value, and an input of no width", () => {
    const exact = rangeOf("x * 2", ["x = 3"]);
    assert.deepEqual([exact.kind, exact.low, exact.high], ["attained", 6, 6]);
    assertAttained(rangeOf("x * y", ["x = 3 ± 0", "y = 1 .. 2"]), 3, 6, 1e-12);
  });

  it("what is left aside as too small to matter is added to the bounds", () => {
    const range = rangeOf("x + (y - y * y) / 1e7 + z * z - z", ["x = 0 .. 1", "y = 0 .. 1", "z = 0 .. 1"]);
    assertAttained(range, -0.25, 1 + 0.25e-7, 1e-3);
    assert.ok(range.high >= 1 + 0.25e-7, `${range.high}`);
  });

  it("a power of a base that may be zero", () => {
    assertAttained(rangeOf("x^y", ["x = 0 .. 1", "y = 1 .. 2"]), 0, 1, 1e-12);
  });

  it("two hundred inputs in one expression", () => {
    const names = Array.from({ length: 200 }, (_, i) => `x${i}`);
    const inputs = names.map((name, i) => `${name} = ${i + 1} V ± 10 %`);
    const range = rangeOf(`${names.join(" + ")} - 3 * x0`, inputs);
    assertAttained(range, 0.9 * 20099 - 2.2, 1.1 * 20099 - 1.8, 1e-12);
    assert.deepEqual([range.atLow[0].value, range.atLow[199].value], [1.1, 180]);
  });

  it("two hundred inputs that push both ways, each by itself", () => {
    const names = Array.from({ length: 200 }, (_, i) => `x${i}`);
    // From 3.5 to 6 each, the square of what it differs by from 5 is at most 2.25, at the lower end.
    const range = rangeOf(
      names.map((name) => `(${name} - 5)^2`).join(" + "),
      names.map((name) => `${name} = 3.5 .. 6`),
    );
    assertAttained(range, 0, 450, 1e-3);
    assert.ok(range.operations < 20_000, `${range.operations} operations`);
  });
});

describe("true ranges: what has no value", () => {
  it("a divisor that can be zero", () => {
    const program = programOf("given x = 1 .. 2", "y = 1 / (x - 1.5)");
    const entry = [...program.notes.get("note.calcs.md")!.entries()][1];
    const range = trueRange(program, entry, 0);
    assert.equal(range.kind, "undefined");
    assert.ok(Number.isNaN(range.low) && Number.isNaN(range.high));
    assert.equal(program.tape.op[range.loss!.row!], 4 /* Op.Divide */);
    assert.deepEqual(range.loss!.inputs, [range.loss!.at[0].slot]);
    assert.equal(range.loss!.isProved, true);
    assert.ok(Math.abs(range.loss!.at[0].value - 1.5) < 1e-3);
  });

  it("a divisor that seems so and cannot", () => {
    const range = rangeOf("1 / (x * x - 2 * x + 1.25)", ["x = 0 .. 3"]);
    assertAttained(range, 1 / 4.25, 4, 1e-3);
    assertAttained(rangeOf("sqrt(x - x / 2)", ["x = 1 .. 4"]), Math.sqrt(0.5), Math.sqrt(2), 1e-9);
  });

  it("the root of a value that is partly negative", () => {
    for (const expression of ["sqrt(x)", "x^0.5", "ln(x)", "sqrt(x * y)", "1 / (x - y)", "asin(1 + x)"])
      assert.equal(rangeOf(expression, ["x = -1 .. 2", "y = 1 .. 2"]).kind, "undefined", expression);
  });

  it("an operand that touches the edge of a domain and does not pass it", () => {
    const inputs = ["x = 0 .. 1", "a = 1 .. 2", "b = 0 .. 1"];
    assertAttained(rangeOf("sqrt(1 - x^2)", inputs), 0, 1, 1e-3);
    assertAttained(rangeOf("sqrt(a^2 - b^2)", inputs), 0, 2, 1e-3);
    assertAttained(rangeOf("acos(b / a)", inputs), 0, Math.PI / 2, 1e-3);
    assertAttained(rangeOf("if a - b > 0.5 then sqrt(a - b - 0.5) else 0", inputs), 0, Math.sqrt(1.5), 1e-3);
    assert.equal(rangeOf("sqrt(a^2 - 1.000001 * b^2)", inputs).loss?.isProved, true);
    assert.equal(rangeOf("if x > 0.25 then sqrt(x - 0.5) else 0", inputs).loss?.isProved, true);
  });

  it("a range that could not be shown before the budget was spent", () => {
    const range = rangeOf("1 / (x - y)", ["x = 0 .. 1", "y = 1 .. 2"], { budget: 500 });
    assert.equal(range.kind, "undefined");
    assert.ok(Number.isNaN(range.low) && Number.isNaN(range.high));
    assert.equal(range.loss!.isProved, false);
  });

  it("a choice that keeps away from it", () => {
    assertAttained(rangeOf("if x > 0.1 then 1 / x else 0", ["x = -1 .. 2"]), 0, 10, 1e-3);
    assertAttained(rangeOf("if x > 0 then sqrt(x) else 0", ["x = -1 .. 4"]), 0, 2, 1e-3);
  });

  it("an input without a minimum", () => {
    const open = rangeOf("2 * V", ["V = .. 3 .. 3.2 V"]);
    assert.deepEqual([open.kind, open.low, open.highAttained, open.lowAttained], ["enclosed", -Infinity, true, false]);
    assert.ok(Math.abs(open.high - 6.4) < 1e-12);
    assertAttained(rangeOf("max(V, 2 V)", ["V = .. 3 .. 3.2 V"]), 2, 3.2, 1e-12);
    assert.equal(rangeOf("(V - 1 V)^2", ["V = .. 3 .. 3.2 V"]).high, Infinity);
  });
});

describe("true ranges: budgets, signs and slices", () => {
  const RIPPLE = [
    "sin(9 * x * y) * z + cos(7 * y - 5 * x * z) - x * z / y",
    ["x = 0 .. 3", "y = 1 .. 3", "z = 1 .. 3"],
  ] as const;

  it("a budget that is spent leaves guaranteed bounds and the best points", () => {
    const range = rangeOf(...RIPPLE, { budget: 5000 });
    assert.equal(range.kind, "enclosed");
    assert.ok(range.operations < 2 * 5000 + 500, `${range.operations} operations`);
    assert.ok(range.low < range.bestLow && range.bestLow < range.bestHigh && range.bestHigh < range.high);
  });

  it("more of it narrows the bounds", () => {
    const [small, large] = [5000, 200_000].map((budget) => rangeOf(...RIPPLE, { budget }));
    const gap = ({ low, bestLow, bestHigh, high }: TrueRange) => bestLow - low + (high - bestHigh);
    assert.ok(large.low >= small.low && large.high <= small.high);
    assert.ok(gap(large) < gap(small) / 2, `${gap(large)} after ${gap(small)}`);
  });

  it("a margin stops when its sign is proved", () => {
    const rule = ["given V = 4 .. 6 V", "given k = 0.1 .. 0.9", "must V * (k - k^2) <= 2 V"];
    const whole = lastRange(rule);
    const stopped = lastRange(rule, { budgetOnceSignProved: 0 });
    assertAttained(whole, 4 * 0.09 - 2 + 0, 1.5 - 2, 1e-3);
    assert.ok(stopped.stoppedBySign && stopped.high < 0 && stopped.operations < whole.operations);
    assert.ok(stopped.high >= whole.bestHigh && stopped.low <= whole.bestLow);
  });

  it("a margin of both signs stops at the points that show it", () => {
    const range = lastRange(["given x = 0 .. 3", "must x * x - 2 * x <= 1"], { budgetOnceSignProved: 0 });
    assert.ok(range.bestLow < 0 && range.bestHigh > 0);
  });

  it("a margin without a value somewhere has no sign, whatever is found elsewhere", () => {
    const range = lastRange(["given x = 0 .. 3", "must 1 / (x - 1.3) <= 0"], { budgetOnceSignProved: 0 });
    assert.equal(range.kind, "undefined");
  });

  it("in slices it is the same, and no slice is long", () => {
    const program = programOf("given x = 0 .. 3", "given y = 1 .. 3", "r = sin(9 * x * y) + cos(7 * y - 5 * x)");
    const entry = [...program.notes.get("note.calcs.md")!.entries()][2];
    const slices = searchInSlices(coneOf(program, entry, 0), {}, 1000);
    let count = 0;
    let next = slices.next();
    for (; !next.done; next = slices.next()) count++;
    const whole = trueRange(program, entry, 0);
    assert.deepEqual(next.value, whole);
    assert.ok(count > whole.operations / 1000 / 2, `${count} slices of ${whole.operations} operations`);
  });

  it("edits between slices do not reach what was begun", () => {
    const program = programOf("given x = 0 .. 3", "given y = 1 .. 3", "r = sin(9 * x * y) + cos(7 * y - 5 * x)");
    const entry = [...program.notes.get("note.calcs.md")!.entries()][2];
    const whole = trueRange(program, entry, 0);
    const slices = searchInSlices(coneOf(program, entry, 0), {}, 1000);
    slices.next();
    program.setText("note.calcs.md", "    given x = 0 .. 30\n    r = 7 * x\n");
    program.settle();
    let next = slices.next();
    while (!next.done) next = slices.next();
    assert.deepEqual(next.value, whole);
  });
});

/** Both ends attained, right to a share of the width, and never inside the truth. */
function assertAttained(range: TrueRange, low: number, high: number, share: number): void {
  const { kind } = range;
  assert.equal(kind, "attained", JSON.stringify(range));
  const rounding = 1e-12 * Math.max(Math.abs(low), Math.abs(high));
  const room = share * (high - low) + rounding;
  assert.ok(range.low <= low + rounding && range.low >= low - room, `low ${range.low}, not ${low}`);
  assert.ok(range.high >= high - rounding && range.high <= high + room, `high ${range.high}, not ${high}`);
}

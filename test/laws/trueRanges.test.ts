import assert from "node:assert/strict";
import fc from "fast-check";
import type { TrueRange } from "../../src/engine/trueRange";
import { lastRange, rangeOf, type NamedRange } from "../engine/ranges";
import { howMany } from "../howMany";
import {
  expression,
  inputBox,
  inputLines,
  monotone,
  NAMES,
  positive,
  positiveBox,
  REWRITINGS,
  REWRITINGS_OF_ALL,
  type InputBox,
  type Point,
} from "./expressions";

/** Enough for most of what is generated; laws hold whatever the budget is. */
const BUDGET = 20_000;
const CLOSE = 1e-3;

describe("laws of true ranges", function () {
  this.timeout(600_000);

  it("containment: no value that occurs is left out, and what has none somewhere has no range", () => {
    const seen = { attained: 0, enclosed: 0, undefined: 0 };
    const places = fc.array(fc.record({ x: share(), y: share(), z: share() }), { minLength: 8, maxLength: 8 });
    const law = fc.property(expression, inputBox, places, ({ text, value }, box, shares) => {
      const range = rangeOf(text, inputLines(box), { budget: BUDGET });
      seen[range.kind]++;
      const points = [...corners(box), ...shares.map((at) => inside(box, at))];
      for (const point of [...points, ...climbs(value, box, points)]) {
        const there = value(point);
        if (Number.isFinite(there)) assertInside(there, range, `${text} at ${JSON.stringify(point)}`);
        else assert.equal(range.kind, "undefined", `${text} at ${JSON.stringify(point)}: ${JSON.stringify(range)}`);
      }
      if (range.kind === "attained") assertReached(range, value, box, text);
    });
    fc.assert(law, { numRuns: howMany(20_000) });
    const total = seen.attained + seen.enclosed + seen.undefined;
    assert.ok(seen.attained > total / 2 && seen.enclosed < total / 10, JSON.stringify(seen));
  });

  it("x − x is 0 and x / x is 1, exactly, for any x", () => {
    // Bounds that are too wide in a part may hold a zero that the divisor never takes: then no quotient can be shown.
    let unshown = 0;
    const law = fc.property(expression, inputBox, ({ text }, box) => {
      const lines = inputLines(box);
      const itself = rangeOf(text, lines, { budget: BUDGET });
      if (itself.kind !== "attained") return;
      for (const difference of [rangeOf(`(${text}) - (${text})`, lines), definedTwice(text, lines, "a - b")])
        assert.deepEqual([difference.kind, difference.low, difference.high], ["attained", 0, 0], text);
      if (!(itself.low > 0 || itself.high < 0)) return;
      for (const quotient of [rangeOf(`(${text}) / (${text})`, lines), definedTwice(text, lines, "a / b")]) {
        if (quotient.loss?.isProved === false) unshown++;
        else assert.deepEqual([quotient.kind, quotient.low, quotient.high], ["attained", 1, 1], text);
      }
    });
    fc.assert(law, { numRuns: howMany(20_000) });
    assert.ok(unshown <= howMany(20_000) / 100, `${unshown} quotients could not be shown`);
  });

  it("an expression and its rewritings have one range, to a thousandth", () => {
    let attained = 0;
    let total = 0;
    const pair = fc.tuple(fc.constantFrom(...REWRITINGS), positive, positive, positive);
    const law = fc.property(pair, positiveBox, ([rewrite, a, b, c], box) => {
      total++;
      if (haveOneRange(rewrite(`(${a.text})`, `(${b.text})`, `(${c.text})`), box)) attained++;
    });
    fc.assert(law, { numRuns: howMany(20_000) });
    assert.ok(attained > 0.95 * total, `${attained} of ${total} attained`);
  });

  it("so have those of expressions with jumps, switches and inputs of no width", () => {
    let attained = 0;
    let total = 0;
    const pair = fc.tuple(fc.constantFrom(...REWRITINGS_OF_ALL), expression, expression);
    const law = fc.property(pair, inputBox, ([rewrite, a, b], box) => {
      total++;
      if (haveOneRange(rewrite(`(${a.text})`, `(${b.text})`), box)) attained++;
    });
    fc.assert(law, { numRuns: howMany(20_000) });
    assert.ok(attained > 0.7 * total, `${attained} of ${total} attained`);
  });

  it("what rises or falls with every input equals its corners", () => {
    const law = fc.property(monotone, positiveBox, ({ text, value }, { x, y, z }) => {
      const range = rangeOf(text, inputLines({ x, y, z }));
      assert.equal(range.kind, "attained", text);
      const least = value({ x: x.low, y: y.low, z: z.high });
      const greatest = value({ x: x.high, y: y.high, z: z.low });
      assert.ok(Math.abs(range.low - least) <= 1e-12 * Math.abs(least), `${text}: ${range.low}, not ${least}`);
      assert.ok(
        Math.abs(range.high - greatest) <= 1e-12 * Math.abs(greatest),
        `${text}: ${range.high}, not ${greatest}`,
      );
    });
    fc.assert(law, { numRuns: howMany(20_000) });
  });

  it("narrowing an input never widens a result, but for the thousandth that a search may leave", () => {
    const law = fc.property(
      expression,
      inputBox,
      fc.constantFrom(...NAMES),
      share(),
      share(),
      ({ text }, box, name, a, b) => {
        const { low, high } = box[name];
        const [from, to] = [low + Math.min(a, b) * (high - low), low + Math.max(a, b) * (high - low)];
        const wide = rangeOf(text, inputLines(box), { budget: BUDGET });
        const narrow = rangeOf(text, inputLines({ ...box, [name]: { low: from, high: to } }), { budget: BUDGET });
        if (wide.kind === "undefined") return;
        // Where the budget was spent on the whole, the part may be searched far enough to find that it has no range.
        if (wide.kind === "attained") assert.notEqual(narrow.kind, "undefined", text);
        // Of bounds that are too wide, what was found between them is still inside.
        const [least, greatest] =
          narrow.kind === "enclosed" ? [narrow.bestLow, narrow.bestHigh] : [narrow.low, narrow.high];
        const room = CLOSE * (narrow.high - narrow.low) + 1e-11 * size(wide, narrow);
        assert.ok(!(least < wide.low - room), `${text}: ${least} below ${wide.low}`);
        assert.ok(!(greatest > wide.high + room), `${text}: ${greatest} above ${wide.high}`);
      },
    );
    fc.assert(law, { numRuns: howMany(20_000) });
  });

  it("same text, same figures", () => {
    const law = fc.property(expression, inputBox, ({ text }, box) => {
      const given = inputLines(box).map((line) => `given ${line}`);
      // Other lines before it, so that everything has another place.
      const moved = ["given other = 3 .. 4", "more = other * sqrt(other)", ...given, `result = ${text}`];
      assert.deepEqual(
        withoutSlots(lastRange(moved, { budget: BUDGET })),
        withoutSlots(lastRange([...given, `result = ${text}`], { budget: BUDGET })),
      );
    });
    fc.assert(law, { numRuns: howMany(20_000) });
  });
});

/** Asserts that two texts have one range, as far as both are known; whether both are attained. */
function haveOneRange(texts: readonly [string, string], box: InputBox): boolean {
  const [one, other] = texts.map((text) => rangeOf(text, inputLines(box), { budget: BUDGET }));
  const what = texts.join(" and ");
  const rounding = 1e-11 * size(one, other);
  for (const [found, bounds] of [
    [one, other],
    [other, one],
  ]) {
    if (found.kind === "undefined" || bounds.kind === "undefined") continue;
    assert.ok(!(found.bestLow < bounds.low - rounding), `${what}: ${found.bestLow}, ${bounds.low}`);
    assert.ok(!(found.bestHigh > bounds.high + rounding), `${what}: ${found.bestHigh}, ${bounds.high}`);
  }
  if (one.kind !== "attained" || other.kind !== "attained") return false;
  const room = CLOSE * Math.max(one.high - one.low, other.high - other.low) + rounding;
  assert.ok(Math.abs(one.low - other.low) <= room, `${what}: ${one.low}, ${other.low}`);
  assert.ok(Math.abs(one.high - other.high) <= room, `${what}: ${one.high}, ${other.high}`);
  return true;
}

function share(): fc.Arbitrary<number> {
  return fc.double({ min: 0, max: 1, noNaN: true });
}

function inside(box: InputBox, shares: Point): Point {
  const at = (name: string) =>
    Math.min(box[name].high, box[name].low + shares[name] * (box[name].high - box[name].low));
  return { x: at("x"), y: at("y"), z: at("z") };
}

function corners({ x, y, z }: InputBox): Point[] {
  const ends = ({ low, high }: { low: number; high: number }) => [low, high];
  return ends(x).flatMap((a) => ends(y).flatMap((b) => ends(z).map((c) => ({ x: a, y: b, z: c }))));
}

function definedTwice(text: string, inputs: readonly string[], expression: string): TrueRange {
  return lastRange([...inputs.map((input) => `given ${input}`), `a = ${text}`, `b = ${text}`, `c = ${expression}`]);
}

function assertInside(value: number, range: TrueRange, what: string): void {
  if (range.kind === "undefined") return;
  const rounding = 1e-12 * Math.max(1, Math.abs(value));
  assert.ok(
    value >= range.low - rounding && value <= range.high + rounding,
    `${what}: ${value} in ${range.low} .. ${range.high}`,
  );
}

/** The inputs at both ends give what is said of them, and that is near the bounds. */
function assertReached(range: NamedRange, value: (at: Point) => number, box: InputBox, text: string): void {
  const close = (a: number, b: number) => Math.abs(a - b) <= 1e-11 * size(range);
  const exact = Object.fromEntries(NAMES.map((name) => [name, box[name].low]));
  assert.ok(close(value({ ...exact, ...range.lowAt }), range.bestLow), `${text} at ${JSON.stringify(range.lowAt)}`);
  assert.ok(close(value({ ...exact, ...range.highAt }), range.bestHigh), `${text} at ${JSON.stringify(range.highAt)}`);
  const room = 1.001 * CLOSE * (range.high - range.low) + 1e-11 * size(range);
  assert.ok(range.bestLow - range.low <= room && range.high - range.bestHigh <= room, text);
}

/** From the least and the greatest of some points, further down and up by ever smaller steps. */
function climbs(value: (at: Point) => number, box: InputBox, points: readonly Point[]): Point[] {
  return [-1, 1].map((way) => {
    let best = points.reduce((a, b) => (way * value(b) > way * value(a) ? b : a));
    for (let step = 0.25; step > 1e-3; step /= 2) {
      for (const name of NAMES) {
        const { low, high } = box[name];
        for (const move of [-step, step]) {
          const at = Math.min(high, Math.max(low, best[name] + move * (high - low)));
          if (way * value({ ...best, [name]: at }) > way * value(best)) best = { ...best, [name]: at };
        }
      }
    }
    return best;
  });
}

function size(...ranges: readonly TrueRange[]): number {
  return Math.max(1, ...ranges.flatMap(({ low, high }) => [Math.abs(low), Math.abs(high)]));
}

function withoutSlots({ loss, atLow: _low, atHigh: _high, ...rest }: NamedRange): unknown {
  return { ...rest, isProved: loss?.isProved };
}

import assert from "node:assert/strict";
import fc from "fast-check";
import { Op } from "../../src/engine/operation";
import { OPERATIONS } from "../../src/engine/operations";
import { howMany } from "../howMany";
import { LOOKED_IN, LOOKED_UP } from "./lookupOperands";

type Interval = readonly [low: number, high: number];
type Box = readonly [Interval, Interval, Interval];

/** `Solution` is the last of the enumeration, which has no gaps. */
const HOW_MANY_OPERATIONS: number = Op.Solution + 1;

/**
 * What follows is the steps of one iteration, whose ranges enclose the solution that all of them are about, not what
 * each does to its operands: see the tests of solutions.
 */
const FIRST_OF_ITERATION: number = Op.Bracketed;

/** Operations whose operands are truth values: 0, 1, or [0, 1] where it is open. */
const TRUTHS: ReadonlySet<number> = new Set([Op.And, Op.Or, Op.Not]);

/** No quantity of a note is smaller; below it, the squares of numbers vanish, and slopes say nothing. */
const SMALLEST = 1e-100;

const end = fc
  .oneof(
    { weight: 4, arbitrary: fc.double({ min: -5, max: 5, noNaN: true }) },
    fc.integer({ min: -3, max: 3 }),
    fc.double({ min: -400, max: 400, noNaN: true }),
    fc.constantFrom(0, 1, -1, 0.5, Math.PI / 2, Math.PI, -Math.PI, 1e-90, 1e300, 0.1 + 0.2, 3e-9),
  )
  .map((x) => (Math.abs(x) < SMALLEST ? 0 : x));
const share = fc.double({ min: 0, max: 1, noNaN: true }).map((x) => (x < 1e-9 ? 0 : x));
const interval: fc.Arbitrary<Interval> = fc.oneof(
  end.map((x): Interval => [x, x]),
  fc.tuple(end, end).map(([x, y]): Interval => (x < y ? [x, y] : [y, x])),
  fc.tuple(end, share).map(([x, w]): Interval => [x, x + 1e-3 * w]),
);
const truth: fc.Arbitrary<Interval> = fc.constantFrom<Interval>([0, 0], [1, 1], [0, 1]);
const weight = fc.tuple(share, share).map(([x, y]): Interval => (x < y ? [x, y] : [y, x]));

const range = (op: number, [a, b, c]: Box): Interval => {
  const out = new Float64Array(6);
  OPERATIONS[op].range(out, a[0], a[1], b[0], b[1], c[0], c[1]);
  return [out[0], out[1]];
};

const slopes = (op: number, [a, b, c]: Box): readonly Interval[] => {
  const out = new Float64Array(6);
  OPERATIONS[op].slopes(out, a[0], a[1], b[0], b[1], c[0], c[1]);
  return [0, 1, 2].map((operand): Interval => [out[2 * operand], out[2 * operand + 1]]);
};

function boxOf(op: number): fc.Arbitrary<Box> {
  if (op === Op.If) return fc.tuple(truth, interval, interval);
  if (op === Op.Blend) return fc.tuple(fc.oneof({ weight: 4, arbitrary: weight }, interval), interval, interval);
  const lookedIn = LOOKED_IN.get(op);
  if (lookedIn) {
    const x = fc.oneof(
      { weight: 3, arbitrary: interval },
      fc.constantFrom(...LOOKED_UP.map((key): Interval => [key, key])),
    );
    return fc.tuple(
      x,
      lookedIn.map((number): Interval => [number, number]),
      interval,
    );
  }
  return TRUTHS.has(op) ? fc.tuple(truth, truth, truth) : fc.tuple(interval, interval, interval);
}

/** A point of a box: the ends themselves, or between them; of a truth value only 0 and 1. */
function pointIn(op: number, box: Box, shares: readonly number[]): readonly [number, number, number] {
  const [a, b, c] = box.map(([low, high], operand) => {
    const isTruth = TRUTHS.has(op) || (op === Op.If && operand === 0);
    if (isTruth) return shares[operand] < 0.5 ? low : high;
    return Math.min(high, Math.max(low, low + shares[operand] * (high - low)));
  });
  return [a, b, c];
}

describe("the table of operations", () => {
  it("has an entry for every operation, with all its parts", () => {
    assert.equal(OPERATIONS.length, HOW_MANY_OPERATIONS);
    for (let op = 0; op < HOW_MANY_OPERATIONS; op++) {
      const { name, arity, number, range: enclose, slopes: slope, trouble } = OPERATIONS[op];
      assert.ok(name !== "" && trouble !== "" && arity >= 1 && arity <= 3, `operation ${op}`);
      for (const part of [number, enclose, slope]) assert.equal(typeof part, "function", name);
    }
    assert.equal(new Set(OPERATIONS.map(({ name }) => name)).size, HOW_MANY_OPERATIONS);
  });

  for (let op = 0; op < FIRST_OF_ITERATION; op++) {
    const { name, arity, number } = OPERATIONS[op];

    it(`${name}: operands beyond its own mean nothing`, () => {
      const anything = fc.constantFrom(0, 7, -7, NaN, Infinity);
      fc.assert(
        fc.property(boxOf(op), anything, anything, (box, y, z) => {
          const [a, b, c] = pointIn(op, box, [0, 0, 0]);
          const plain = number(a, b, c);
          assert.deepEqual(number(a, arity > 1 ? b : y, arity > 2 ? c : z), plain);
        }),
        { numRuns: howMany(2000) },
      );
    });

    it(`${name}: of what has no value it has none, whatever the other operands are`, () => {
      for (const other of [0, 1, -1, 2])
        for (let operand = 0; operand < arity; operand++) {
          const at = [0, 1, 2].map((i) => (i === operand ? NaN : other));
          // A choice takes one of two, and does not look at the other.
          if (op === Op.If && operand > 0) continue;
          const of = `of ${at.slice(0, arity).join(", ")}`;
          assert.ok(Number.isNaN(number(at[0], at[1], at[2])), `a value ${of}`);
          assert.ok(Number.isNaN(range(op, at.map((x): Interval => [x, x]) as unknown as Box)[0]), `a range ${of}`);
        }
    });

    it(`${name}: its range holds every value`, () => {
      fc.assert(
        fc.property(boxOf(op), fc.tuple(share, share, share), (box, shares) => {
          const [low, high] = range(op, box);
          if (Number.isNaN(low)) return assert.ok(Number.isNaN(high));
          assert.ok(low <= high);
          const value = number(...pointIn(op, box, shares));
          // What becomes too large has no value, and is reported; its range is not looked at.
          if (!Number.isFinite(value)) return;
          assert.ok(value >= low && value <= high, `${value} is not in ${low} .. ${high}`);
        }),
        { numRuns: howMany(20000) },
      );
    });

    it(`${name}: its range is undefined where it has no value at an end`, () => {
      fc.assert(
        fc.property(boxOf(op), fc.tuple(fc.nat(1), fc.nat(1), fc.nat(1)), (box, corner) => {
          const value = number(...pointIn(op, box, corner));
          if (!Number.isNaN(value)) return;
          const [low, high] = range(op, box);
          assert.ok(Number.isNaN(low) && Number.isNaN(high), `no value, but ${low} .. ${high}`);
        }),
        { numRuns: howMany(4000) },
      );
    });

    it(`${name}: a range or slope of what is unknown is unknown, and of what is unbounded no tighter than it may be`, () => {
      const ends = fc.constantFrom<Interval>(
        [NaN, NaN],
        [-Infinity, 3],
        [-Infinity, -2],
        [1, 2],
        [-1, 2],
        [2, Infinity],
      );
      fc.assert(
        fc.property(fc.tuple(ends, ends, ends), fc.tuple(share, share, share), (box, shares) => {
          const own = box.slice(0, arity);
          const [low, high] = range(op, box);
          assert.equal(Number.isNaN(low), Number.isNaN(high));
          const decided = op === Op.If && (box[0][0] === 1 || box[0][1] === 0);
          if (own.some(([from]) => Number.isNaN(from)) && op !== Op.If)
            assert.ok(Number.isNaN(low), `${low} .. ${high}`);
          if (Number.isNaN(low) || decided || TRUTHS.has(op) || op === Op.If) return;
          const at = box.map(([from, to], i) => {
            const least = Math.max(from, -1e6);
            return least + shares[i] * (Math.min(to, 1e6) - least);
          });
          const value = number(at[0], at[1], at[2]);
          assert.ok(Number.isNaN(value) || (value >= low && value <= high), `${value} is not in ${low} .. ${high}`);
        }),
        { numRuns: howMany(4000) },
      );
    });

    if (op === Op.If || TRUTHS.has(op)) continue;
    it(`${name}: between two points it rises no more and no less than its slopes allow`, () => {
      fc.assert(
        fc.property(
          boxOf(op),
          fc.nat(arity - 1),
          fc.tuple(share, share, share),
          share,
          (box, operand, shares, other) => {
            const [low, high] = range(op, box);
            if (Number.isNaN(low)) return;
            const [least, most] = slopes(op, box)[operand];
            assert.ok(least <= most, `slopes ${least} .. ${most}`);
            const from = pointIn(op, box, shares);
            const to = pointIn(
              op,
              box,
              shares.map((s, i) => (i === operand ? other : s)),
            );
            const step = to[operand] - from[operand];
            if (step === 0) return;
            const rise = number(...to) - number(...from);
            const size = Math.max(
              Math.abs(low),
              Math.abs(high),
              Math.abs(from[operand]) * Math.max(Math.abs(least), Math.abs(most)),
            );
            // Of a remainder, what is nothing beside the dividend is taken for nothing, at either point.
            const share = op === Op.Modulo ? 3e-12 : 1e-12;
            const noise = share * (Number.isFinite(size) ? size : Math.max(Math.abs(low), Math.abs(high)));
            const [a, b] = step > 0 ? [least * step, most * step] : [most * step, least * step];
            assert.ok(
              !(rise < a - noise) && !(rise > b + noise),
              `rises ${rise} over ${step}, slopes ${least} .. ${most}`,
            );
          },
        ),
        { numRuns: howMany(20000) },
      );
    });
  }
});

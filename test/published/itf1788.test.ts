import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { CONE_OPERATIONS, NOTHING, ONE, SQUARE } from "../../src/engine/coneOperations";
import { Op } from "../../src/engine/operation";

/**
 * Conformance vectors for interval arithmetic (IEEE 1788-2015): the test suite ITF1788, file libieeep1788_elem, © its
 * authors, Apache-2.0. The vectors are not kept in this project: they are run where the folder with them lies beside it.
 *
 * Our arithmetic rounds outward generously and is not correctly rounded, so what is tested is that each result encloses
 * the exact range, and that it is wider by a few units in the last place at most.
 */
const FILE = join(__dirname, "../../../shared/published/itf1788/libieeep1788_elem.jsonl");

type Interval = readonly [number, number];
type Operands = readonly Interval[];

interface Vector {
  readonly id: string;
  readonly op: string;
  readonly in: readonly Part[];
  readonly out: readonly Part[];
}
/** Decorations say how the standard came to an interval; the interval is the same without. */
interface Part {
  readonly ivl?: "empty" | "nai" | readonly (number | "inf" | "-inf")[];
  readonly num?: number;
}

/** How each operation of the standard that we have is made of ours, and where it is defined: elsewhere ours has no range. */
interface Mapping {
  readonly op: number;
  /** Exact operands that come first. */
  readonly first?: number;
  /** Whether all values of the operands have a value. The standard leaves out those that have none; ours says so. */
  readonly isDefined?: (...operands: Interval[]) => boolean;
  /** Where ours is wider on purpose, or another function. */
  readonly differs?: (...operands: Interval[]) => boolean;
}

const inside =
  (low: number, high: number) =>
  ([from, to]: Interval) =>
    from >= low && to <= high;
const isAboveZero = ([low]: Interval) => low > 0;
const hasNoZero = ([from, to]: Interval) => from > 0 || to < 0;

const MAPPINGS: Readonly<Record<string, Mapping>> = {
  pos: { op: Op.Store },
  neg: { op: Op.Negate },
  add: { op: Op.Add },
  sub: { op: Op.Subtract },
  mul: { op: Op.Multiply },
  div: { op: Op.Divide, isDefined: (_, b) => hasNoZero(b) },
  recip: { op: Op.Divide, first: 1, isDefined: hasNoZero },
  sqr: { op: SQUARE },
  sqrt: { op: Op.SquareRoot, isDefined: inside(0, Infinity) },
  pown: { op: Op.Power, isDefined: ([from, to], [n]) => n >= 0 || from > 0 || to < 0 },
  // A whole exponent means a product, for negative bases too, and x^0 is 1 for every x.
  pow: {
    op: Op.Power,
    isDefined: isPowerDefined,
    differs: ([low], [from, to]) => low <= 0 && from === to && Number.isInteger(from),
  },
  exp: { op: Op.Exp },
  exp2: { op: Op.Power, first: 2 },
  exp10: { op: Op.Power, first: 10 },
  log: { op: Op.Ln, isDefined: isAboveZero },
  log2: { op: Op.Log2, isDefined: isAboveZero },
  log10: { op: Op.Log10, isDefined: isAboveZero },
  sin: { op: Op.Sin },
  cos: { op: Op.Cos },
  // The doubles next to a right angle count as one.
  tan: { op: Op.Tan, isDefined: hasNoPole, differs: (x) => x.some((end) => Math.abs(Math.tan(end)) > 1e15) },
  asin: { op: Op.Asin, isDefined: inside(-1, 1) },
  acos: { op: Op.Acos, isDefined: inside(-1, 1) },
  atan: { op: Op.Atan },
  // Zero may be −0, so both sides of the cut belong to it.
  atan2: {
    op: Op.Atan2,
    differs: ([yLow, yHigh], [xLow]) => xLow < 0 && yLow <= 0 && yHigh >= 0,
    isDefined: ([yLow, yHigh], [xLow, xHigh]) => !(yLow <= 0 && yHigh >= 0 && xLow <= 0 && xHigh >= 0),
  },
  sinh: { op: Op.Sinh },
  cosh: { op: Op.Cosh },
  tanh: { op: Op.Tanh },
  abs: { op: Op.Abs },
  sign: { op: Op.Sign },
  floor: { op: Op.Floor },
  ceil: { op: Op.Ceil },
  roundTiesToAway: { op: Op.Round },
  min: { op: Op.Min },
  max: { op: Op.Max },
};

function isPowerDefined([low, high]: Interval, [from, to]: Interval): boolean {
  if (low > 0) return true;
  if (low === 0) return from > 0;
  return from === to && Number.isInteger(from) && (from >= 0 || high < 0);
}

function hasNoPole([low, high]: Interval): boolean {
  return high - low < Math.PI && Math.cos(low) * Math.cos(high) > 0 && Math.tan(low) <= Math.tan(high);
}

/** Operations of the standard that are none of ours; `x * y + z` is two operations here, each rounded outward. */
const NOT_OURS: ReadonlySet<string> = new Set(["fma", "trunc", "roundTiesToEven", "asinh", "acosh", "atanh"]);

/** Operations of ours that these vectors have no statements for: their enclosures are tested by points alone. */
const WITHOUT_VECTORS: ReadonlySet<number> = new Set([
  ...[Op.CubeRoot, Op.Modulo, Op.Hypot, Op.Total, Op.Parallel],
  ...[Op.Less, Op.LessOrEqual, Op.Equal, Op.And, Op.Or, Op.Not, Op.If],
  ...[Op.Nearest, Op.Below, Op.Above, Op.StepLookup, Op.ExactLookup, Op.Interpolate, Op.PairMember],
  ...[Op.Resistance, Op.Share, Op.Blend],
  ...[Op.Bracketed, Op.Centre, Op.Contract, Op.Settled, Op.Solution],
  ...[NOTHING, ONE],
]);

type Verdict = "encloses" | "no range outside the domain" | LeftOut;
type LeftOut = "no such operation" | "an empty interval" | "ours differs on purpose";

describe("published vectors: interval arithmetic (IEEE 1788, ITF1788)", () => {
  if (!existsSync(FILE)) {
    it.skip("not run: the folder of conformance vectors (shared/published/itf1788) is not beside this project");
    return;
  }
  const counts = new Map<Verdict, number>();
  const vectors = readFileSync(FILE, "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Vector);

  for (const [name, mapping] of Object.entries(MAPPINGS)) {
    const mine = vectors.filter(({ op }) => op === name);
    it(`${name}: ${mine.length} vectors`, () => {
      assert.ok(mine.length > 0);
      for (const vector of mine) tally(judge(vector, mapping));
    });
  }

  it("counts of those run, and of those left out with the reason", () => {
    for (const { op } of vectors) {
      if (op in MAPPINGS) continue;
      assert.ok(NOT_OURS.has(op), `${op} is neither run nor left out for a reason`);
      tally("no such operation");
    }
    const total = [...counts.values()].reduce((sum, count) => sum + count, 0);
    assert.equal(total, vectors.length);
    const run = counts.get("encloses")! + counts.get("no range outside the domain")!;
    console.log(
      `      ${run} of ${total} run; ${[...counts].map(([verdict, count]) => `${verdict}: ${count}`).join("; ")}`,
    );
    assert.ok(run > 2500, `${run} vectors run`);
  });

  it("every operation of ours is among them, or has no vectors", () => {
    const mapped = new Set(Object.values(MAPPINGS).map(({ op }) => op));
    CONE_OPERATIONS.forEach(({ name }, op) => assert.notEqual(mapped.has(op), WITHOUT_VECTORS.has(op), name));
  });

  function tally(verdict: Verdict): void {
    counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  }
});

/** What a vector is; throws where ours leaves out a value, has no range although it could, or is much too wide. */
function judge(vector: Vector, mapping: Mapping): Verdict {
  const operands = vector.in.map(intervalOf);
  const expected = intervalOf(vector.out[0]);
  const given = operands.filter((operand) => operand !== undefined);
  if (given.length < operands.length) return "an empty interval";
  const about = `${vector.id}: ${JSON.stringify(vector.in)} gives ${JSON.stringify(vector.out)}`;
  const [low, high] = ours(mapping, given);
  if (mapping.differs?.(...given)) {
    assert.ok(Number.isNaN(low) || !expected || encloses([low, high], expected), `${about}, ours ${low} .. ${high}`);
    return "ours differs on purpose";
  }
  if (mapping.isDefined?.(...given) === false) {
    // The logarithm of zero and the like are unbounded, which is no value that could be left out.
    assert.ok(Number.isNaN(low) || !expected || encloses([low, high], expected), `${about}, ours ${low} .. ${high}`);
    return "no range outside the domain";
  }
  assert.ok(expected && encloses([low, high], expected), `${about}, ours ${low} .. ${high}`);
  const excess = Math.max(unitsApart(expected[0], low), unitsApart(expected[1], high));
  assert.ok(excess <= MOST_UNITS, `${about}, ours is wider: ${low} .. ${high}`);
  return "encloses";
}

/** Our rounding: up to four units of the function itself and four outward, and their rounding. */
const MOST_UNITS = 10;

function ours({ op, first }: Mapping, given: Operands): Interval {
  const all = first === undefined ? given : [[first, first] as const, ...given];
  const [a, b = a] = all;
  const out = new Float64Array(2);
  CONE_OPERATIONS[op].range(out, a[0], a[1], b[0], b[1], b[0], b[1]);
  return [out[0], out[1]];
}

function encloses([low, high]: Interval, [from, to]: Interval): boolean {
  return low <= from && high >= to;
}

/** In units in the last place; what rounds outward from the largest double is infinite. */
function unitsApart(exact: number, found: number): number {
  if (exact === found || (Math.abs(exact) === Number.MAX_VALUE && Math.abs(found) === Infinity)) return 0;
  return Math.abs(exact - found) / Math.max(Number.MIN_VALUE, Math.abs(exact) * 2 ** -53);
}

function intervalOf({ ivl, num }: Part): Interval | undefined {
  if (num !== undefined) return [num, num];
  if (ivl === undefined || ivl === "empty" || ivl === "nai") return undefined;
  const [low, high] = ivl.map((end) => (end === "inf" ? Infinity : end === "-inf" ? -Infinity : end));
  return [low, high];
}

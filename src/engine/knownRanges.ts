import type { Cone } from "./cone";
import { sameData } from "./sameData";
import type { InputValue, SearchOptions, TrueRange } from "./trueRange";

/** Operations of all cones that are kept, a few megabytes: enough for what somebody types, takes back and tries. */
const MOST_OPERATIONS_KEPT = 200_000;

/**
 * What earlier searches found, by the cone they were of. A search depends on nothing else, so that what comes back, by
 * undoing, by a comment or after a look at what would be, is not searched again.
 */
export class KnownRanges {
  private readonly byHash = new Map<number, Known>();
  private operations = 0;

  get(cone: Cone, options: SearchOptions): TrueRange | undefined {
    const hash = hashOf(cone);
    const short = this.byHash.get(hash);
    if (short && isShort(short.range, options) && isSameCone(short.cone, cone)) return this.wanted(hash, short, cone);
    const withOptions = withBudget(hash, options);
    const long = this.byHash.get(withOptions);
    const isLong = long && sameData(long.options, options) && isSameCone(long.cone, cone);
    return isLong ? this.wanted(withOptions, long, cone) : undefined;
  }

  /** What is asked for again and again, as what a trial is compared with, is the last to be forgotten. */
  private wanted(hash: number, known: Known, cone: Cone): TrueRange {
    this.byHash.delete(hash);
    this.byHash.set(hash, known);
    return transferred(known, cone);
  }

  /** Of two searches with the same hash the later is kept. */
  set(cone: Cone, options: SearchOptions, range: TrueRange): void {
    const hash = isShort(range, options) ? hashOf(cone) : withBudget(hashOf(cone), options);
    this.forget(hash);
    this.byHash.set(hash, { cone, options, range });
    this.operations += cone.op.length;
    // A map gives its members in the order in which they came.
    for (const oldest of this.byHash.keys()) {
      if (this.operations <= MOST_OPERATIONS_KEPT) break;
      this.forget(oldest);
    }
  }

  private forget(hash: number): void {
    const known = this.byHash.get(hash);
    if (!known) return;
    this.operations -= known.cone.op.length;
    this.byHash.delete(hash);
  }
}

const FNV_START = 0x811c9dc5;
const FNV_PRIME = 0x01000193;

interface Known {
  readonly cone: Cone;
  readonly options: SearchOptions;
  readonly range: TrueRange;
}

/** Whether a search ended before any budget had a say in it: then it is the same whatever the budget. */
function isShort(
  { operations }: TrueRange,
  { budget = Infinity, budgetOnceSignProved = Infinity }: SearchOptions,
): boolean {
  return operations < Math.min(budget, budgetOnceSignProved);
}

function withBudget(hash: number, { budget = 0, budgetOnceSignProved = 0 }: SearchOptions): number {
  return Math.imul(hash ^ budget, FNV_PRIME) ^ budgetOnceSignProved;
}

/** FNV-1a over the operations and the limits of the inputs. */
function hashOf({ op, a, b, c, inputs, constants, result }: Cone): number {
  let hash = FNV_START;
  const add = (n: number) => (hash = Math.imul(hash ^ n, FNV_PRIME));
  for (let k = 0; k < op.length; k++) {
    add(op[k]);
    add(a[k]);
    add(b[k]);
    add(c[k]);
  }
  const numbers = Float64Array.from([
    ...constants,
    ...inputs.flatMap(({ nominal, low, high }) => [nominal, low, high]),
  ]);
  new Int32Array(numbers.buffer).forEach(add);
  return add(result);
}

/** Whether two cones compute the same of the same limits. */
export function isSameCone(cone: Cone, other: Cone): boolean {
  const isSame = (x: ArrayLike<number>, y: ArrayLike<number>) => {
    if (x.length !== y.length) return false;
    for (let i = 0; i < x.length; i++) if (!Object.is(x[i], y[i])) return false;
    return true;
  };
  return (
    cone.result === other.result &&
    isSame(cone.op, other.op) &&
    isSame(cone.a, other.a) &&
    isSame(cone.b, other.b) &&
    isSame(cone.c, other.c) &&
    isSame(cone.constants, other.constants) &&
    cone.inputs.length === other.inputs.length &&
    cone.inputs.every(({ nominal, low, high }, i) => {
      const input = other.inputs[i];
      return isSame([nominal, low, high], [input.nominal, input.low, input.high]);
    })
  );
}

/** The same range, told by the slots and rows of another cone that is equal but for these. */
function transferred({ cone: from, range }: Known, to: Cone): TrueRange {
  const slots = new Map(from.inputs.map(({ slot }, i) => [slot, to.inputs[i].slot]));
  const moved = (at: readonly InputValue[]) => at.map(({ slot, value }) => ({ slot: slots.get(slot)!, value }));
  const { loss } = range;
  return {
    ...range,
    atLow: moved(range.atLow),
    atHigh: moved(range.atHigh),
    ...(loss && {
      loss: {
        ...loss,
        ...(loss.row !== undefined && { row: to.row[from.row.indexOf(loss.row)] }),
        at: moved(loss.at),
        inputs: loss.inputs.map((slot) => slots.get(slot)!),
      },
    }),
  };
}

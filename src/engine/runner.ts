import type { Ends } from "./interval";
import { Op, slack } from "./operation";
import { OPERATIONS } from "./operations";
import { merge, samePushes } from "./pushes";
import { NO_PUSHES, Standing, type Pushes, type Run, type Slots, type Tape } from "./tape";

/**
 * Runs definitions: the nominal value, the natural enclosure, and the proof that the enclosure is attained.
 *
 * A range is attained if every argument of the definition is (so each is monotone in the inputs), the definition's own
 * partial derivatives by its arguments keep one sign over the whole box, and every input that reaches it by several
 * arguments is pushed the same way by all. Then both ends lie at corners of the inputs, and the definition evaluated
 * with its arguments at those ends gives them exactly, however often an argument is written.
 */
export class Runner {
  private size = 256;
  private number = new Float64Array(this.size);
  private low = new Float64Array(this.size);
  private high = new Float64Array(this.size);
  private cornerLow = new Float64Array(this.size);
  private cornerHigh = new Float64Array(this.size);
  private slopeLow = new Float64Array(this.size);
  private slopeHigh = new Float64Array(this.size);
  private mark = new Int32Array(this.size);
  private marks = 0;
  /** Whether an operation's result has been used in the sweep at hand. */
  private used = new Uint8Array(this.size);
  /** Whether an uncertain argument reaches an operation. */
  private open = new Uint8Array(this.size);
  private readonly ends: Ends = new Float64Array(6);
  /** Lists that are filled anew for each definition, and kept so that none has to be made: each has its count beside it. */
  private sweep = new Int32Array(this.size);
  private swept = 0;
  private readonly path: number[] = [];
  private readonly parts: Pushes[] = [];
  private readonly signs: number[] = [];
  /** The last run was of uncertain arguments, so that {@link low} and {@link high} are its own. */
  private hasRanges = false;
  private readonly arguments = new Arguments();
  /** Operations that were swept for the results of the run at hand. */
  private proving = 0;

  constructor(
    private readonly tape: Tape,
    private readonly slots: Slots,
  ) {}

  /** Runs a definition and stores its results. Whether any of them came out different from before. */
  run(code: Run): boolean {
    this.reserve(code.length);
    this.proving = 0;
    const uncertain = this.runNumbers(code);
    if (uncertain) this.runRanges(code);
    this.hasRanges = uncertain;
    const { op, a, b } = this.tape;
    let changed = false;
    for (let k = 0; k < code.length; k++) {
      const at = code.from + k;
      if (op[at] === Op.Store && this.store(code, b[at], a[at], uncertain)) changed = true;
    }
    return changed;
  }

  private runNumbers(code: Run): boolean {
    const { op, a, b, c } = this.tape;
    const { number, open } = this;
    const { nominal, standing } = this.slots;
    let uncertain = false;
    for (let k = 0; k < code.length; k++) {
      const at = code.from + k;
      const operation = OPERATIONS[op[at]];
      const x = a[at];
      const y = operation.arity > 1 ? b[at] : 0;
      const z = operation.arity > 2 ? c[at] : 0;
      let anyOpen = x >= 0 ? standing[x] !== Standing.Exact : open[-1 - x] === 1;
      if (operation.arity > 1) anyOpen ||= y >= 0 ? standing[y] !== Standing.Exact : open[-1 - y] === 1;
      if (operation.arity > 2) anyOpen ||= z >= 0 ? standing[z] !== Standing.Exact : open[-1 - z] === 1;
      open[k] = anyOpen ? 1 : 0;
      uncertain ||= anyOpen;
      const left = x >= 0 ? nominal[x] : number[-1 - x];
      const right = y >= 0 ? nominal[y] : number[-1 - y];
      const value = operation.number(left, right, z >= 0 ? nominal[z] : number[-1 - z]);
      const isSum = op[at] === Op.Add || op[at] === Op.Subtract;
      number[k] = !Number.isFinite(value) ? NaN : isSum && isNoise(value, left, right) ? 0 : value;
    }
    return uncertain;
  }

  /** What no uncertain argument reaches is the number that it is, however its operation rounds. */
  private runRanges(code: Run): void {
    const { op, a, b, c } = this.tape;
    const { low, high, number, open, ends } = this;
    const { low: slotLow, high: slotHigh } = this.slots;
    for (let k = 0; k < code.length; k++) {
      if (open[k] === 0) {
        low[k] = high[k] = number[k];
        continue;
      }
      const at = code.from + k;
      const x = a[at];
      const y = b[at];
      const z = c[at];
      OPERATIONS[op[at]].range(
        ends,
        x >= 0 ? slotLow[x] : low[-1 - x],
        x >= 0 ? slotHigh[x] : high[-1 - x],
        y >= 0 ? slotLow[y] : low[-1 - y],
        y >= 0 ? slotHigh[y] : high[-1 - y],
        z >= 0 ? slotLow[z] : low[-1 - z],
        z >= 0 ? slotHigh[z] : high[-1 - z],
      );
      low[k] = ends[0];
      high[k] = ends[1];
    }
  }

  private store(code: Run, slot: number, from: number, uncertain: boolean): boolean {
    const { slots } = this;
    const nominal = from >= 0 ? slots.nominal[from] : this.number[-1 - from];
    let low = nominal;
    let high = nominal;
    let standing: Standing = Number.isNaN(nominal) ? Standing.Undefined : Standing.Exact;
    let pushes: Pushes = NO_PUSHES;
    if (uncertain) {
      low = from >= 0 ? slots.low[from] : this.low[-1 - from];
      high = from >= 0 ? slots.high[from] : this.high[-1 - from];
      const proof = Number.isNaN(low) || Number.isNaN(nominal) ? undefined : this.prove(code, from);
      if (proof && proof.inputs.length === 0) low = high = nominal;
      else if (proof) {
        if (this.arguments.anyTwice) [low, high] = this.atCorners(code, from, low, high);
        pushes = proof;
        standing = Standing.Attained;
      } else standing = Number.isNaN(low) || Number.isNaN(nominal) ? Standing.Undefined : Standing.Enclosed;
      // A nominal sum that was made zero may lie beside its enclosure, by the noise that was taken off.
      if (nominal < low) low = nominal;
      if (nominal > high) high = nominal;
    }
    const same =
      standing === slots.standing[slot] &&
      isSameNumber(nominal, slots.nominal[slot]) &&
      isSameNumber(low, slots.low[slot]) &&
      isSameNumber(high, slots.high[slot]) &&
      samePushes(pushes, slots.pushes[slot]);
    if (same) return false;
    slots.nominal[slot] = nominal;
    slots.low[slot] = low;
    slots.high[slot] = high;
    slots.standing[slot] = standing;
    slots.pushes[slot] = pushes;
    return true;
  }

  /** The inputs that push the value, each one way; undefined where that cannot be shown. */
  private prove(code: Run, from: number): Pushes | undefined {
    const args = this.arguments;
    args.clear();
    if (from >= 0) args.add(from, 1, 1);
    else if (this.proving > MOST_PROVING) return undefined;
    else this.sweepBack(code, from);
    const { slots, parts, signs } = this;
    let count = 0;
    for (let i = 0; i < args.count; i++) {
      const slot = args.slot[i];
      if (slots.standing[slot] === Standing.Exact) continue;
      if (args.low[i] === 0 && args.high[i] === 0) continue;
      if (slots.standing[slot] !== Standing.Attained) return undefined;
      const sign = args.low[i] >= 0 ? 1 : args.high[i] <= 0 ? -1 : 0;
      if (sign === 0) return undefined;
      args.sign[i] = sign;
      parts[count] = slots.pushes[slot];
      signs[count++] = sign;
    }
    return merge(parts, signs, count);
  }

  /** One backward sweep of the interval adjoint: the enclosure of the derivative by each argument. */
  private sweepBack(code: Run, from: number): void {
    const { slopeLow, slopeHigh, sweep } = this;
    this.collect(code, from);
    this.proving += this.swept;
    for (let i = 0; i < this.swept; i++) slopeLow[sweep[i]] = slopeHigh[sweep[i]] = this.used[sweep[i]] = 0;
    slopeLow[-1 - from] = slopeHigh[-1 - from] = 1;
    const { op, a, b, c } = this.tape;
    const { low, high, ends } = this;
    const { low: slotLow, high: slotHigh } = this.slots;
    for (let i = this.swept - 1; i >= 0; i--) {
      const k = sweep[i];
      const at = code.from + k;
      const operation = OPERATIONS[op[at]];
      const x = a[at];
      const y = b[at];
      const z = c[at];
      operation.slopes(
        ends,
        x >= 0 ? slotLow[x] : low[-1 - x],
        x >= 0 ? slotHigh[x] : high[-1 - x],
        y >= 0 ? slotLow[y] : low[-1 - y],
        y >= 0 ? slotHigh[y] : high[-1 - y],
        z >= 0 ? slotLow[z] : low[-1 - z],
        z >= 0 ? slotHigh[z] : high[-1 - z],
      );
      this.pass(k, x, ends[0], ends[1]);
      if (operation.arity > 1) this.pass(k, y, ends[2], ends[3]);
      if (operation.arity > 2) this.pass(k, z, ends[4], ends[5]);
    }
  }

  /** Adds (slope of operation k) × (its slope by an operand) to that operand. */
  private pass(k: number, operand: number, low: number, high: number): void {
    const p = times(this.slopeLow[k], low);
    const q = times(this.slopeLow[k], high);
    const r = times(this.slopeHigh[k], low);
    const s = times(this.slopeHigh[k], high);
    const from = Math.min(p, q, r, s);
    const to = Math.max(p, q, r, s);
    if (operand >= 0) this.arguments.add(operand, from, to);
    else {
      const source = -1 - operand;
      if (this.used[source]) this.arguments.anyTwice = true;
      this.used[source] = 1;
      this.slopeLow[source] = sumDown(this.slopeLow[source], from);
      this.slopeHigh[source] = sumUp(this.slopeHigh[source], to);
    }
  }

  /** The operations that a result rests on, operands before their users. */
  private collect(code: Run, from: number): void {
    const { op, a, b, c } = this.tape;
    const { mark, sweep, path } = this;
    const stamp = ++this.marks;
    this.swept = 0;
    let depth = 0;
    path[depth++] = -1 - from;
    while (depth > 0) {
      const k = path[depth - 1];
      if (mark[k] === stamp) {
        depth--;
        continue;
      }
      const at = code.from + k;
      const { arity } = OPERATIONS[op[at]];
      const before = depth;
      if (a[at] < 0 && mark[-1 - a[at]] !== stamp) path[depth++] = -1 - a[at];
      if (arity > 1 && b[at] < 0 && mark[-1 - b[at]] !== stamp) path[depth++] = -1 - b[at];
      if (arity > 2 && c[at] < 0 && mark[-1 - c[at]] !== stamp) path[depth++] = -1 - c[at];
      if (depth > before) continue;
      mark[k] = stamp;
      sweep[this.swept++] = k;
      depth--;
    }
  }

  /** Both ends, evaluated with every argument at the end that leads there; never outside the natural enclosure. */
  private atCorners(code: Run, from: number, low: number, high: number): [number, number] {
    const lowest = this.atCorner(code, from, -1);
    const least = this.cornerLow[lowest];
    const highest = this.atCorner(code, from, 1);
    const greatest = this.cornerHigh[highest];
    return [Math.max(low, least), Math.min(high, greatest)];
  }

  private atCorner(code: Run, from: number, way: 1 | -1): number {
    const { op, a, b, c } = this.tape;
    const { cornerLow, cornerHigh, number, open, ends, slots } = this;
    const end = (operand: number, temporaries: Float64Array): number => {
      if (operand < 0) return temporaries[-1 - operand];
      const sign = this.arguments.signOf(operand) * way;
      // Where an argument cancels out, any of its values will do.
      return sign > 0 ? slots.high[operand] : sign < 0 ? slots.low[operand] : slots.nominal[operand];
    };
    for (let i = 0; i < this.swept; i++) {
      const k = this.sweep[i];
      if (open[k] === 0) {
        cornerLow[k] = cornerHigh[k] = number[k];
        continue;
      }
      const at = code.from + k;
      const { arity, range } = OPERATIONS[op[at]];
      const x = a[at];
      const y = arity > 1 ? b[at] : x;
      const z = arity > 2 ? c[at] : x;
      range(
        ends,
        end(x, cornerLow),
        end(x, cornerHigh),
        end(y, cornerLow),
        end(y, cornerHigh),
        end(z, cornerLow),
        end(z, cornerHigh),
      );
      cornerLow[k] = ends[0];
      cornerHigh[k] = ends[1];
    }
    return -1 - from;
  }

  /**
   * Where a result lost its value, or an end of its range: the first operation, seen from the result, that lacks it
   * although all its operands have theirs.
   * To be asked right after {@link run} of the same code. Undefined where an argument had none already.
   */
  origin(code: Run, from: number, of: "value" | "range"): Trouble | undefined {
    const { op, a, b, c } = this.tape;
    const missing = (operand: number) => {
      const { nominal, low, high } = this.look(operand);
      return of === "value" ? Number.isNaN(nominal) : !Number.isFinite(low) || !Number.isFinite(high);
    };
    let at = from;
    while (at < 0) {
      const row = code.from + (-1 - at);
      const { arity } = OPERATIONS[op[row]];
      const operands = [a[row], b[row], c[row]].slice(0, arity);
      const looked = op[row] === Op.If && !missing(operands[0]) ? this.branches(operands, of) : operands;
      const next = looked.find(missing);
      if (next === undefined) return { row, operands: operands.map((x) => this.look(x)) };
      at = next;
    }
    return undefined;
  }

  private branches([condition, yes, no]: number[], of: "value" | "range"): number[] {
    const { nominal, low, high } = this.look(condition);
    if (of === "value") return [nominal === 1 ? yes : no];
    return low === 1 ? [yes] : high === 0 ? [no] : [yes, no];
  }

  private look(operand: number): Reading {
    if (operand >= 0)
      return { nominal: this.slots.nominal[operand], low: this.slots.low[operand], high: this.slots.high[operand] };
    const k = -1 - operand;
    const nominal = this.number[k];
    return this.hasRanges
      ? { nominal, low: this.low[k], high: this.high[k] }
      : { nominal, low: nominal, high: nominal };
  }

  private reserve(length: number): void {
    if (length <= this.size) return;
    this.size = Math.max(length, this.size * 2);
    this.number = new Float64Array(this.size);
    this.low = new Float64Array(this.size);
    this.high = new Float64Array(this.size);
    this.cornerLow = new Float64Array(this.size);
    this.cornerHigh = new Float64Array(this.size);
    this.slopeLow = new Float64Array(this.size);
    this.slopeHigh = new Float64Array(this.size);
    this.sweep = new Int32Array(this.size);
    this.mark = new Int32Array(this.size);
    this.marks = 0;
    this.used = new Uint8Array(this.size);
    this.open = new Uint8Array(this.size);
  }
}

export interface Reading {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** The operation on the tape at which a value was lost, with its operands. */
export interface Trouble {
  readonly row: number;
  readonly operands: readonly Reading[];
}

/** The distinct slots that a definition reads, with the enclosure of the derivative by each. */
class Arguments {
  count = 0;
  anyTwice = false;
  readonly slot: number[] = [];
  readonly low: number[] = [];
  readonly high: number[] = [];
  readonly sign: number[] = [];
  /** Places by slot, once they are too many to be looked through. */
  private readonly place = new Map<number, number>();

  clear(): void {
    this.count = 0;
    this.anyTwice = false;
    if (this.place.size > 0) this.place.clear();
  }

  add(slot: number, low: number, high: number): void {
    const known = this.placeOf(slot);
    if (known < 0) {
      const i = this.count++;
      this.slot[i] = slot;
      this.low[i] = low;
      this.high[i] = high;
      this.sign[i] = 0;
      if (this.count > LOOKED_THROUGH) this.index();
    } else {
      this.anyTwice = true;
      this.low[known] = sumDown(this.low[known], low);
      this.high[known] = sumUp(this.high[known], high);
    }
  }

  /** +1 or −1 for an argument that pushes one way, 0 for one that is exact or does not matter. */
  signOf(slot: number): number {
    const i = this.placeOf(slot);
    return i < 0 ? 0 : this.sign[i];
  }

  private placeOf(slot: number): number {
    if (this.count > LOOKED_THROUGH) return this.place.get(slot) ?? -1;
    for (let i = 0; i < this.count; i++) if (this.slot[i] === slot) return i;
    return -1;
  }

  private index(): void {
    for (let i = this.place.size; i < this.count; i++) this.place.set(this.slot[i], i);
  }
}

/**
 * Operations that are swept to prove the results of one definition attained: of a network each rests on most of the others, and
 * beyond this, some tens of milliseconds, they are left enclosed.
 */
const MOST_PROVING = 200_000;

/** Most definitions read two or three values, which are found faster by looking at each. */
const LOOKED_THROUGH = 12;

/**
 * Whether a sum or difference is nothing but the noise of decimal fractions: 0.3 − 0.1 − 0.2 on paper is zero, in doubles
 * −2.8·10⁻¹⁷, which would fail a rule that is met exactly.
 */
function isNoise(sum: number, a: number, b: number): boolean {
  return Math.abs(sum) <= slack(a, b);
}

/** As `Object.is`, by comparisons, for which the machine need not make an object of either number. */
function isSameNumber(a: number, b: number): boolean {
  return a === b ? a !== 0 || 1 / a === 1 / b : a !== a && b !== b;
}

/** 0 · ∞ is 0: an operand that cannot move does not pass on a jump. */
function times(a: number, b: number): number {
  return a === 0 || b === 0 ? 0 : a * b;
}

/** Slopes are summed outward where the sum is rounded, so that what cancels is nothing; ∞ − ∞ can be anything. */
function sumDown(a: number, b: number): number {
  const sum = a + b;
  if (Number.isNaN(sum)) return -Infinity;
  return isExactSum(sum, a, b) || !Number.isFinite(sum) ? sum : sum - Math.abs(sum) * 2 ** -50;
}

function sumUp(a: number, b: number): number {
  const sum = a + b;
  if (Number.isNaN(sum)) return Infinity;
  return isExactSum(sum, a, b) || !Number.isFinite(sum) ? sum : sum + Math.abs(sum) * 2 ** -50;
}

/** Whether a sum of two doubles was not rounded: Knuth, The Art of Computer Programming 2, 4.2.2, theorem B. */
function isExactSum(sum: number, a: number, b: number): boolean {
  const partOfB = sum - a;
  return a - (sum - partOfB) + (b - partOfB) === 0;
}

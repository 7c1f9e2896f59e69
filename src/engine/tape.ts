import { widened } from "../syntax/numberColumn";
import type { Node } from "../syntax/tree";
import type { Op } from "./operation";
import type { Sum } from "./piece";

/**
 * The compiled notes: operations on numbered registers, as a struct of arrays.
 *
 * A definition is a run of operations and a run of value slots. An operand ≥ 0 is a slot, which every definition can
 * read; an operand < 0 is the result of an earlier operation of the same definition ({@link temporary}), kept in a
 * scratch file that all definitions share. The results are stored to slots by {@link Op.Store}.
 * Runs that are given back are used again by the next of the same length, so that typing inside a number
 * neither grows nor moves anything.
 */
export interface Run {
  readonly from: number;
  readonly length: number;
}

export const NO_RUN: Run = { from: 0, length: 0 };

/** The operand that names the result of a definition's k-th operation. */
export function temporary(k: number): number {
  return -1 - k;
}

/** Hands out runs of consecutive rows and takes them back. */
class Runs {
  used = 0;
  private readonly free = new Map<number, number[]>();

  take(length: number): Run {
    return length === 0 ? NO_RUN : { from: this.start(length), length };
  }

  /** Where a run of that length begins. */
  start(length: number): number {
    const again = this.free.get(length)?.pop();
    if (again !== undefined) return again;
    const from = this.used;
    this.used += length;
    return from;
  }

  giveBack(run: Run): void {
    if (run.length === 0) return;
    const list = this.free.get(run.length);
    if (list) list.push(run.from);
    else this.free.set(run.length, [run.from]);
  }
}

/** Room for a note of a thousand lines, so that most are never moved. */
const FIRST_ROWS = 4096;

/** The operations of all definitions. */
export class Tape {
  op = new Uint8Array(FIRST_ROWS);
  a = new Int32Array(FIRST_ROWS);
  b = new Int32Array(FIRST_ROWS);
  c = new Int32Array(FIRST_ROWS);
  /** The node that an operation came from, and the entry whose tree it is in (a function's body is inlined). */
  node = new Int32Array(FIRST_ROWS);
  entry = new Int32Array(FIRST_ROWS);
  private readonly runs = new Runs();

  /** Copies a definition's operations, built apart, to the tape. */
  append(code: Code): Run {
    const run = this.runs.take(code.count);
    this.reserve(run.from + run.length);
    for (let k = 0; k < run.length; k++) {
      const at = run.from + k;
      this.op[at] = code.op[k];
      this.a[at] = code.a[k];
      this.b[at] = code.b[k];
      this.c[at] = code.c[k];
      this.node[at] = code.node[k];
      this.entry[at] = code.entry[k];
    }
    return run;
  }

  /** Whether a run has these operations on these operands. */
  holds(run: Run, code: Code): boolean {
    if (run.length !== code.count) return false;
    for (let k = 0; k < run.length; k++) {
      const at = run.from + k;
      const isSame = this.op[at] === code.op[k] && this.a[at] === code.a[k] && this.b[at] === code.b[k];
      if (!isSame || this.c[at] !== code.c[k]) return false;
    }
    return true;
  }

  giveBack(run: Run): void {
    this.runs.giveBack(run);
  }

  private reserve(rows: number): void {
    if (rows <= this.op.length) return;
    const size = Math.max(rows, this.op.length * 2);
    this.op = widened(this.op, size);
    for (const column of ["a", "b", "c", "node", "entry"] as const) this[column] = widened(this[column], size);
  }
}

/** The operations of one definition while it is compiled. Kept by the compiler and used again for the next. */
export class Code {
  count = 0;
  readonly op: Op[] = [];
  readonly a: number[] = [];
  readonly b: number[] = [];
  readonly c: number[] = [];
  readonly node: Node[] = [];
  readonly entry: number[] = [];

  clear(): void {
    this.count = 0;
  }

  /** Appends an operation; the operand that names its result. */
  emit(op: Op, node: Node, entry: number, a: number, b = 0, c = 0): number {
    const k = this.count++;
    this.op[k] = op;
    this.a[k] = a;
    this.b[k] = b;
    this.c[k] = c;
    this.node[k] = node;
    this.entry[k] = entry;
    return temporary(k);
  }
}

/** What a slot's range rests on. */
export const enum Standing {
  /** There is no value, or no range. */
  Undefined,
  /** No uncertain input reaches it: the range is the nominal value. */
  Exact,
  /** Both ends occur together with the inputs that {@link Slots.pushes} names. */
  Attained,
  /** Guaranteed bounds, perhaps too wide. */
  Enclosed,
}

/**
 * Which way the inputs push a value that is monotone in each of them: slots of inputs in rising order, and +1 or −1.
 * Shared between slots and never changed.
 */
export interface Pushes {
  readonly inputs: readonly number[];
  readonly signs: readonly number[];
}

export const NO_PUSHES: Pushes = { inputs: [], signs: [] };
/** An input pushes itself. */
const UPWARD: readonly number[] = [1];

/** The values: constants, uncertain inputs and results, in coherent SI units. */
export class Slots {
  nominal = new Float64Array(FIRST_ROWS);
  low = new Float64Array(FIRST_ROWS);
  high = new Float64Array(FIRST_ROWS);
  standing = new Uint8Array(FIRST_ROWS);
  readonly pushes: Pushes[] = [];
  /** Of inputs that stand for all pieces of a sum: the sums, outermost first. */
  readonly sums = new Map<number, readonly Sum[]>();
  private readonly runs = new Runs();

  take(length: number): Run {
    const run = this.runs.take(length);
    this.reserve(run.from + length);
    for (let slot = run.from; slot < run.from + length; slot++) this.clear(slot);
    return run;
  }

  takeOne(): number {
    const slot = this.runs.start(1);
    this.reserve(slot + 1);
    this.clear(slot);
    return slot;
  }

  giveBack(run: Run): void {
    this.runs.giveBack(run);
  }

  clear(slot: number): void {
    this.nominal[slot] = this.low[slot] = this.high[slot] = NaN;
    this.standing[slot] = Standing.Undefined;
    this.pushes[slot] = NO_PUSHES;
    if (this.sums.size > 0) this.sums.delete(slot);
  }

  setConstant(slot: number, value: number): void {
    this.nominal[slot] = this.low[slot] = this.high[slot] = value;
    this.standing[slot] = Standing.Exact;
    this.pushes[slot] = NO_PUSHES;
  }

  setInput(slot: number, nominal: number, low: number, high: number): void {
    this.nominal[slot] = nominal;
    this.low[slot] = low;
    this.high[slot] = high;
    this.standing[slot] = Standing.Attained;
    this.pushes[slot] = { inputs: [slot], signs: UPWARD };
  }

  /** All that a slot holds, to be put back by {@link write}. */
  read(slot: number): SlotContent {
    const { nominal, low, high, standing, pushes } = this;
    return { nominal: nominal[slot], low: low[slot], high: high[slot], standing: standing[slot], pushes: pushes[slot] };
  }

  write(slot: number, content: SlotContent): void {
    this.nominal[slot] = content.nominal;
    this.low[slot] = content.low;
    this.high[slot] = content.high;
    this.standing[slot] = content.standing;
    this.pushes[slot] = content.pushes;
  }

  copy(from: number, to: number): void {
    this.write(to, this.read(from));
  }

  private reserve(rows: number): void {
    if (rows <= this.nominal.length) return;
    const size = Math.max(rows, this.nominal.length * 2);
    for (const column of ["nominal", "low", "high"] as const) this[column] = widened(this[column], size);
    this.standing = widened(this.standing, size);
  }
}

export interface SlotContent {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  readonly standing: Standing;
  readonly pushes: Pushes;
}

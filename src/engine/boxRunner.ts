import type { Cone } from "./cone";
import { CONE_OPERATIONS } from "./coneOperations";
import type { Ends } from "./interval";
import { Op } from "./operation";

/** Limits of all inputs of a cone, in their order: low, high, low, high, … A point has equal limits. */
export type Box = Float64Array;

/** Fixes one input of a box, or sets its limits. */
export function pin(box: Box, input: number, low: number, high = low): void {
  box[2 * input] = low;
  box[2 * input + 1] = high;
}

/** The middle; of a half-line something inside it. */
export function middle(low: number, high: number): number {
  if (Number.isFinite(low) && Number.isFinite(high)) return low + (high - low) / 2;
  if (low < 0 && high > 0) return 0;
  return Number.isFinite(high) ? 2 * high - 1 : 2 * low + 1;
}

export function middleOf(box: Box): Box {
  const point = box.slice();
  for (let i = 0; 2 * i < box.length; i++) pin(point, i, middle(box[2 * i], box[2 * i + 1]));
  return point;
}

export function isPoint(box: Box): boolean {
  for (let i = 0; i < box.length; i += 2) if (box[i] !== box[i + 1]) return false;
  return true;
}

export function isBounded(box: Box): boolean {
  return box.every(Number.isFinite);
}

/** Where operations have values up to the very edge, so that an operand may touch the edge and rounding pass it. */
const DOMAINS: ReadonlyMap<number, readonly [number, number]> = new Map([
  [Op.SquareRoot, [0, Infinity]],
  [Op.Asin, [-1, 1]],
  [Op.Acos, [-1, 1]],
]);

/** What a run costs beside its operations, in operations: it bounds the time that short formulas take. */
const OVERHEAD = 30;

/**
 * Runs a cone over boxes of its inputs: forward for the enclosure of every register, backward for the enclosure of the
 * derivative by each. It counts the operations it runs, which is how budgets are kept: the same note then gives the
 * same result on any machine.
 */
export class BoxRunner {
  /** Operations run so far, in either direction. */
  operations = 0;
  /** After {@link forward}: the enclosure of each register. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** After {@link backward}: the enclosure of the derivative of the result by each register. */
  readonly slopeLow: Float64Array;
  readonly slopeHigh: Float64Array;
  private readonly numbers: Float64Array;
  private readonly ends: Ends = new Float64Array(6);
  private readonly base: number;

  constructor(readonly cone: Cone) {
    this.base = cone.inputs.length + cone.constants.length;
    const size = this.base + cone.op.length;
    this.low = new Float64Array(size);
    this.high = new Float64Array(size);
    this.slopeLow = new Float64Array(size);
    this.slopeHigh = new Float64Array(size);
    this.numbers = new Float64Array(size);
    for (const registers of [this.low, this.high, this.numbers]) registers.set(cone.constants, cone.inputs.length);
  }

  /**
   * Encloses every register over a box. With `clips`, roots and arcs leave out the part of their operand that has no
   * value: to be asked only where that part is known, or taken, to be an artefact of enclosing.
   */
  forward(box: Box, clips = false): void {
    const { cone, low, high, ends, base } = this;
    const { op, a, b, c } = cone;
    for (let i = 0; i < cone.inputs.length; i++) {
      low[i] = box[2 * i];
      high[i] = box[2 * i + 1];
    }
    for (let k = 0; k < op.length; k++) {
      const x = a[k];
      const y = b[k];
      const z = c[k];
      const domain = clips ? DOMAINS.get(op[k]) : undefined;
      const xLow = domain ? Math.max(low[x], domain[0]) : low[x];
      const xHigh = domain ? Math.min(high[x], domain[1]) : high[x];
      CONE_OPERATIONS[op[k]].range(ends, xLow, xHigh, low[y], high[y], low[z], high[z]);
      low[base + k] = ends[0];
      high[base + k] = ends[1];
    }
    this.operations += OVERHEAD + op.length;
  }

  /** Over the box of the last {@link forward}, whose result must be defined. */
  backward(): void {
    const { cone, low, high, slopeLow, slopeHigh, ends, base } = this;
    const { op, a, b, c } = cone;
    slopeLow.fill(0);
    slopeHigh.fill(0);
    slopeLow[cone.result] = slopeHigh[cone.result] = 1;
    for (let k = op.length - 1; k >= 0; k--) {
      if (slopeLow[base + k] === 0 && slopeHigh[base + k] === 0) continue;
      const { slopes, arity } = CONE_OPERATIONS[op[k]];
      const x = a[k];
      const y = b[k];
      const z = c[k];
      slopes(ends, low[x], high[x], low[y], high[y], low[z], high[z]);
      this.pass(base + k, x, ends[0], ends[1]);
      if (arity > 1) this.pass(base + k, y, ends[2], ends[3]);
      if (arity > 2) this.pass(base + k, z, ends[4], ends[5]);
    }
    this.operations += OVERHEAD + op.length;
  }

  /** The value at a point, as the nominal value is computed; NaN where there is none. */
  number(point: Box): number {
    const { cone, numbers, base } = this;
    const { op, a, b, c } = cone;
    for (let i = 0; i < cone.inputs.length; i++) numbers[i] = point[2 * i];
    for (let k = 0; k < op.length; k++) {
      const value = CONE_OPERATIONS[op[k]].number(numbers[a[k]], numbers[b[k]], numbers[c[k]]);
      numbers[base + k] = Number.isFinite(value) ? value : NaN;
    }
    this.operations += OVERHEAD + op.length;
    return numbers[cone.result];
  }

  /**
   * The largest intermediate result by what it counts for in the result, |derivative · value|, after {@link backward} at
   * a point: rounding errors are a multiple of it.
   */
  largestIntermediate(): number {
    const { low, high, slopeLow, slopeHigh } = this;
    let largest = 0;
    for (let k = 0; k < low.length; k++) {
      const size = Math.max(Math.abs(slopeLow[k]), Math.abs(slopeHigh[k])) * Math.max(-low[k], high[k]);
      if (size > largest && size < Infinity) largest = size;
    }
    return largest;
  }

  /**
   * Where the result of the last {@link forward} lost its range: the first operation, seen from the result, that has none
   * although its operands do. With the inputs that lead there, the conditions of open choices on the way among them.
   */
  loss(): Loss {
    const { cone, base } = this;
    const isOn = new Uint8Array(this.low.length);
    let at = cone.result;
    while (at >= base) {
      const next = this.lostOperand(at - base, isOn);
      if (next === undefined) break;
      at = next;
    }
    const isGuarded = isOn.includes(1);
    isOn[at] = 1;
    for (let register = Math.max(at, cone.result); register >= base; register--) {
      if (!isOn[register]) continue;
      const k = register - base;
      const { arity } = CONE_OPERATIONS[cone.op[k]];
      isOn[cone.a[k]] = 1;
      if (arity > 1) isOn[cone.b[k]] = 1;
      if (arity > 2) isOn[cone.c[k]] = 1;
    }
    this.operations += cone.op.length;
    const inputs = cone.inputs.map((_, i) => i).filter((i) => isOn[i]);
    return { row: at >= base ? cone.row[at - base] : undefined, inputs, isGuarded };
  }

  /** The first operand that was lost already; conditions that are left open are put on the list of what leads there. */
  private lostOperand(k: number, isOn: Uint8Array): number | undefined {
    const { a, b, c, op } = this.cone;
    const isLost = (register: number) => !(Math.abs(this.low[register]) <= Infinity);
    if (op[k] !== Op.If || isLost(a[k])) return [a[k], b[k], c[k]].slice(0, CONE_OPERATIONS[op[k]].arity).find(isLost);
    const isOpen = this.low[a[k]] !== this.high[a[k]];
    if (isOpen) isOn[a[k]] = 1;
    const branches = isOpen ? [b[k], c[k]] : [this.low[a[k]] === 1 ? b[k] : c[k]];
    return branches.find(isLost);
  }

  /** Adds (slope by register `from`) × (its slope by an operand) to that operand. */
  private pass(from: number, operand: number, low: number, high: number): void {
    const { slopeLow, slopeHigh } = this;
    const p = times(slopeLow[from], low);
    const q = times(slopeLow[from], high);
    const r = times(slopeHigh[from], low);
    const s = times(slopeHigh[from], high);
    slopeLow[operand] = outwardDown(slopeLow[operand] + Math.min(p, q, r, s));
    slopeHigh[operand] = outwardUp(slopeHigh[operand] + Math.max(p, q, r, s));
  }
}

/** An operation without a range, as a row of the notes' tape, and the inputs (by place) that lead there. */
export interface Loss {
  readonly row?: number;
  readonly inputs: readonly number[];
  /** The operation is one branch of a choice that is still open over the box. */
  readonly isGuarded: boolean;
}

/** 0 · ∞ is 0: an operand that cannot move does not pass on a jump. */
function times(a: number, b: number): number {
  return a === 0 || b === 0 ? 0 : a * b;
}

/** Slopes are summed outward; ∞ − ∞ can be anything. */
function outwardDown(x: number): number {
  return Number.isNaN(x) ? -Infinity : Number.isFinite(x) ? x - Math.abs(x) * 2 ** -50 : x;
}

function outwardUp(x: number): number {
  return Number.isNaN(x) ? Infinity : Number.isFinite(x) ? x + Math.abs(x) * 2 ** -50 : x;
}

import type { Box, BoxRunner } from "./boxRunner";
import { CONE_OPERATIONS, NOTHING, ONE, SQUARE } from "./coneOperations";
import type { Ends } from "./interval";
import { Op } from "./operation";

/**
 * Linear forms over a box: a value is written as `centre + Σ part·ε + rest`, where each ε in [−1, 1] is the place of one
 * input between its limits, and the rest is bounded. What inputs do together is kept, so that `x·y / (x + y)` is enclosed
 * but for terms of second order, where an interval has forgotten that both x are one. The same is done backward for the
 * derivatives by every register, whose signs then show over boxes that are many times wider.
 *
 * Source: J. Stolfi and L. H. de Figueiredo, Self-Validated Numerical Methods and Applications, IMPA 1997, chapter 3;
 * operations that are no sums, products or quotients by the mean value theorem.
 */
export class LinearForms {
  /** Made when they are first needed, for most searches are over before. */
  private values = NO_FORMS;
  private slopes = NO_FORMS;
  /** For what comes between: two rows behind those of the registers. */
  private readonly spare: number;
  private readonly ends: Ends = new Float64Array(6);
  /** The input of each part. */
  private readonly active: number[] = [];

  constructor(private readonly runner: BoxRunner) {
    this.spare = runner.low.length;
  }

  /** The most operations that {@link narrow} counts for; infinite where that would be felt. */
  get mostOperations(): number {
    const { cone, low } = this.runner;
    const parts = cone.inputs.length;
    return low.length * parts > MOST_PARTS ? Infinity : cone.op.length * (COST + COST_OF_PART * parts);
  }

  /**
   * Narrows the enclosures of all registers, and of the derivatives by the inputs, that the runner holds after a run
   * forward and backward over this box.
   */
  narrow(box: Box): void {
    this.begin(box);
    this.forward();
    this.backward();
    const { runner, active } = this;
    const { length } = runner.cone.op;
    runner.operations += Math.ceil(length * (COST + COST_OF_PART * active.length));
  }

  private begin(box: Box): void {
    const { runner, active, spare } = this;
    const { inputs, constants } = runner.cone;
    if (this.values === NO_FORMS) {
      this.values = new Forms(spare + 2, inputs.length);
      this.slopes = new Forms(spare + 2, inputs.length);
    }
    const { values, slopes } = this;
    active.length = 0;
    for (let i = 0; i < inputs.length; i++) if (box[2 * i] < box[2 * i + 1]) active.push(i);
    values.width = slopes.width = active.length;
    for (let r = 0; r < inputs.length + constants.length; r++) values.setBetween(r, runner.low[r], runner.high[r]);
    active.forEach((i, place) => values.setInput(i, place, runner.low[i], runner.high[i]));
  }

  private forward(): void {
    const { runner, values, ends } = this;
    const { cone, low, high } = runner;
    const { op, a, b, c } = cone;
    const base = cone.inputs.length + cone.constants.length;
    for (let k = 0; k < op.length; k++) {
      const at = base + k;
      const x = a[k];
      const y = b[k];
      const z = c[k];
      CONE_OPERATIONS[op[k]].range(ends, low[x], high[x], low[y], high[y], low[z], high[z]);
      const from = ends[0] > low[at] || Number.isNaN(low[at]) ? ends[0] : low[at];
      const to = ends[1] < high[at] || Number.isNaN(high[at]) ? ends[1] : high[at];
      if (from === to || !this.compute(at, op[k], x, y, z)) values.setBetween(at, from, to);
      const radius = values.radius[at];
      const centre = values.centre[at];
      const rounding = (Math.abs(centre) + radius) * ROUNDING;
      const least = centre - radius - rounding;
      const most = centre + radius + rounding;
      low[at] = least > from ? least : from;
      high[at] = most < to ? most : to;
    }
  }

  /** Writes the form of an operation's result; false where only its range is known. */
  private compute(at: number, op: number, x: number, y: number, z: number): boolean {
    const { values } = this;
    switch (op) {
      case Op.Add:
        return values.combine(at, x, 1, y, 1);
      case Op.Subtract:
        return values.combine(at, x, 1, y, -1);
      case Op.Negate:
        return values.combine(at, x, -1, x, 0);
      case Op.Multiply:
      case Op.Total:
        return values.product(at, values, x, values, y);
      case SQUARE:
        return values.product(at, values, x, values, x);
      case Op.Divide:
        return values.quotient(at, values, x, values, y, this.runner.low[y], this.runner.high[y]);
      case NOTHING:
      case ONE:
        return false;
      default:
        return op < Op.Bracketed && this.byMean(at, op, [x, y, z]);
    }
  }

  /** f(x) is f(c) and slopes over the whole box times x − c, for a point c of the box. */
  private byMean(at: number, op: number, operands: readonly [number, number, number]): boolean {
    const { values, ends, runner } = this;
    const { low, high } = runner;
    const { arity, range, slopes } = CONE_OPERATIONS[op];
    const [a, b, c] = operands.map((r) => Math.min(high[r], Math.max(low[r], values.centre[r])));
    range(ends, a, a, b, b, c, c);
    const [least, most] = ends;
    if (!(Number.isFinite(least) && Number.isFinite(most))) return false;
    const [x, y, z] = operands;
    slopes(ends, low[x], high[x], low[y], high[y], low[z], high[z]);
    const centres = [a, b, c];
    values.setBetween(at, least, most);
    let isKnown = true;
    for (let i = 0; i < arity && isKnown; i++) {
      const register = operands[i];
      if (low[register] === high[register] || (ends[2 * i] === 0 && ends[2 * i + 1] === 0)) continue;
      const middle = ends[2 * i] / 2 + ends[2 * i + 1] / 2;
      const half = (ends[2 * i + 1] - ends[2 * i]) / 2;
      const reach = Math.max(high[register] - centres[i], centres[i] - low[register]);
      isKnown = values.addMultiple(at, register, middle, middle * (values.centre[register] - centres[i]), half * reach);
    }
    values.measure(at);
    return isKnown;
  }

  private backward(): void {
    const { runner, slopes, active } = this;
    const { cone } = runner;
    const { op, a, b, c } = cone;
    const base = cone.inputs.length + cone.constants.length;
    slopes.clear();
    slopes.centre[cone.result] = 1;
    for (let k = op.length - 1; k >= 0; k--) {
      const at = base + k;
      if (slopes.measure(at) === 0 && slopes.centre[at] === 0) continue;
      this.pass(at, op[k], a[k], b[k], c[k]);
    }
    for (const i of active) {
      const radius = slopes.measure(i);
      const rounding = (Math.abs(slopes.centre[i]) + radius) * ROUNDING;
      const least = slopes.centre[i] - radius - rounding;
      const most = slopes.centre[i] + radius + rounding;
      if (least > runner.slopeLow[i]) runner.slopeLow[i] = least;
      if (most < runner.slopeHigh[i]) runner.slopeHigh[i] = most;
    }
  }

  /** Adds to the derivatives by the operands what the derivative by the result is worth to them. */
  private pass(at: number, op: number, x: number, y: number, z: number): void {
    const { slopes, values, spare, runner } = this;
    const { low, high } = runner;
    switch (op) {
      case Op.Add:
        slopes.add(x, at, 1);
        return slopes.add(y, at, 1);
      case Op.Subtract:
        slopes.add(x, at, 1);
        return slopes.add(y, at, -1);
      case Op.Negate:
        return slopes.add(x, at, -1);
      case Op.Multiply:
      case Op.Total:
        this.addProduct(x, at, y, 1);
        return this.addProduct(y, at, x, 1);
      case SQUARE:
        return this.addProduct(x, at, x, 2);
      case Op.Exp:
        return this.addProduct(x, at, at, 1);
      case Op.Divide:
        if (!slopes.quotient(spare, slopes, at, values, y, low[y], high[y])) break;
        slopes.add(x, spare, 1);
        return this.addProduct(y, spare, at, -1);
      case Op.Ln:
        if (!slopes.quotient(spare, slopes, at, values, x, low[x], high[x])) break;
        return slopes.add(x, spare, 1);
      case Op.SquareRoot:
        if (!slopes.quotient(spare, slopes, at, values, at, low[at], high[at])) break;
        return slopes.add(x, spare, 1 / 2);
      case Op.Hypot:
        if (!slopes.quotient(spare, slopes, at, values, at, low[at], high[at])) break;
        this.addProduct(x, spare, x, 1);
        return this.addProduct(y, spare, y, 1);
    }
    this.passBetween(at, op, [x, y, z]);
  }

  private addProduct(target: number, slope: number, value: number, factor: number): void {
    const { slopes, values, spare } = this;
    if (slopes.product(spare + 1, slopes, slope, values, value)) slopes.add(target, spare + 1, factor);
    else slopes.rest[target] = Infinity;
  }

  private passBetween(at: number, op: number, operands: readonly [number, number, number]): void {
    const { slopes, ends, runner } = this;
    const { low, high } = runner;
    const [x, y, z] = operands;
    const operation = CONE_OPERATIONS[op];
    operation.slopes(ends, low[x], high[x], low[y], high[y], low[z], high[z]);
    for (let i = 0; i < operation.arity; i++) {
      const from = ends[2 * i];
      const to = ends[2 * i + 1];
      if (from === 0 && to === 0) continue;
      const middle = from / 2 + to / 2;
      const most = Math.abs(slopes.centre[at]) + slopes.radius[at];
      const isDone = slopes.addMultiple(operands[i], at, middle, middle * slopes.centre[at], ((to - from) / 2) * most);
      if (!isDone) slopes.rest[operands[i]] = Infinity;
    }
  }
}

/** Parts of all forms of a table: a run takes a few milliseconds then, and is not interrupted. */
const MOST_PARTS = 100_000;
/** What an operation on forms costs, there and back, in operations on intervals; measured. */
const COST = 3;
const COST_OF_PART = 0.4;
/** What one step may round, and the sum of a few: many times what it can be. */
const ROUNDING = 2 ** -48;
/** What products may lose by becoming too small. */
const LEAST = 2 ** -1000;

/** A table of forms, one a row. */
class Forms {
  readonly centre: Float64Array;
  /** The bound of the rest; infinite where nothing is known. */
  readonly rest: Float64Array;
  /** Of rows that were measured: the most by which the value can differ from the centre. */
  readonly radius: Float64Array;
  private readonly parts: Float64Array;
  /** How many parts a form has. */
  width = 0;

  constructor(rows: number, mostParts: number) {
    this.centre = new Float64Array(rows);
    this.rest = new Float64Array(rows);
    this.radius = new Float64Array(rows);
    this.parts = new Float64Array(rows * mostParts);
  }

  clear(): void {
    this.centre.fill(0);
    this.rest.fill(0);
    this.parts.fill(0);
  }

  /** Any value between two. */
  setBetween(row: number, low: number, high: number): void {
    const { parts, width } = this;
    for (let j = row * width; j < (row + 1) * width; j++) parts[j] = 0;
    const centre = low === high ? low : low / 2 + high / 2;
    const rest = Math.max(high - centre, centre - low);
    const isKnown = Number.isFinite(centre) && Number.isFinite(rest);
    this.centre[row] = isKnown ? centre : 0;
    this.rest[row] = this.radius[row] = !isKnown ? Infinity : rest === 0 ? 0 : rest + Math.abs(centre) * ROUNDING;
  }

  setInput(row: number, place: number, low: number, high: number): void {
    this.setBetween(row, low, high);
    if (this.rest[row] === Infinity) return;
    this.parts[row * this.width + place] = this.rest[row];
    this.rest[row] = 0;
  }

  /** Sums up what a value can differ by from the centre. */
  measure(row: number): number {
    const { parts, width } = this;
    let sum = 0;
    for (let j = row * width; j < (row + 1) * width; j++) sum += Math.abs(parts[j]);
    return this.setRadius(row, sum);
  }

  private setRadius(row: number, sum: number): number {
    const radius = (sum + this.rest[row]) * this.ofSum;
    return (this.radius[row] = radius >= 0 ? radius : Infinity);
  }

  /** Sets what remains of a row whose parts sum up to that, computed from numbers of that size. */
  private finish(row: number, sum: number, rest: number, size: number): boolean {
    this.rest[row] = rest + size * ROUNDING + LEAST;
    return this.setRadius(row, sum) < Infinity;
  }

  /** What the sum of the parts may be greater by than its terms: it is rounded at each. */
  private get ofSum(): number {
    return 1 + (this.width + 4) * 2 ** -52;
  }

  /** `p` times a row and `q` times another. False, as of all that follow, where there is no such form. */
  combine(row: number, x: number, p: number, y: number, q: number): boolean {
    const { centre, rest, radius, parts, width } = this;
    centre[row] = centre[x] * p + centre[y] * q;
    let sum = 0;
    for (let j = 0; j < width; j++) {
      const part = parts[x * width + j] * p + parts[y * width + j] * q;
      parts[row * width + j] = part;
      sum += Math.abs(part);
    }
    const size = Math.abs(centre[row]) + radius[x] * Math.abs(p) + radius[y] * Math.abs(q);
    return this.finish(row, sum, rest[x] * Math.abs(p) + rest[y] * Math.abs(q), size);
  }

  /** A row of one table times a row of another, both measured: what both vary by together is rest. */
  product(row: number, left: Forms, x: number, right: Forms, y: number): boolean {
    const { centre, parts, width } = this;
    const a = left.centre[x];
    const b = right.centre[y];
    const r = left.radius[x];
    const s = right.radius[y];
    const size = Math.abs(a * b) + Math.abs(a) * s + Math.abs(b) * r + r * s;
    if (!(size < Infinity)) return false;
    let sum = 0;
    for (let j = 0; j < width; j++) {
      const part = a * right.parts[y * width + j] + b * left.parts[x * width + j];
      parts[row * width + j] = part;
      sum += Math.abs(part);
    }
    // A square is never less than nothing: it varies by half as much, about the half of it.
    const isSquare = left === right && x === y;
    const together = isSquare ? (r * s) / 2 : r * s;
    centre[row] = a * b + (isSquare ? together : 0);
    return this.finish(row, sum, Math.abs(a) * right.rest[y] + Math.abs(b) * left.rest[x] + together, size);
  }

  /**
   * A row by a row whose values lie between two of one sign: with the centres a′ and b′, a/b is a′/b′ and
   * (a − (a′/b′)·b) / b.
   */
  quotient(row: number, left: Forms, x: number, right: Forms, y: number, least: number, most: number): boolean {
    const { centre, parts, width } = this;
    if (!(least > 0 || most < 0)) return false;
    const ratio = left.centre[x] / right.centre[y];
    const middle = (1 / least + 1 / most) / 2;
    const half = Math.abs(1 / least - 1 / most) / 2 + Math.abs(middle) * ROUNDING;
    const size =
      Math.abs(left.centre[x]) + left.radius[x] + Math.abs(ratio) * (right.radius[y] + Math.abs(right.centre[y]));
    const remaining = left.rest[x] + Math.abs(ratio) * right.rest[y] + size * ROUNDING;
    let dividend = remaining;
    let sum = 0;
    for (let j = 0; j < width; j++) {
      const part = left.parts[x * width + j] - ratio * right.parts[y * width + j];
      dividend += Math.abs(part);
      const share = part * middle;
      parts[row * width + j] = share;
      sum += Math.abs(share);
    }
    centre[row] = ratio;
    const rest = remaining * Math.abs(middle) + dividend * this.ofSum * half;
    return this.finish(row, sum, rest, size * Math.abs(middle) + Math.abs(ratio));
  }

  /** Adds to a row a multiple of another, whose centre is given apart, and something between ± `more`. */
  addMultiple(row: number, x: number, factor: number, centreOf: number, more: number): boolean {
    const { centre, rest, radius, parts, width } = this;
    centre[row] += centreOf;
    for (let j = 0; j < width; j++) parts[row * width + j] += factor * parts[x * width + j];
    const size = Math.abs(centre[row]) + Math.abs(centreOf) + Math.abs(factor) * (radius[x] + Math.abs(centre[x]));
    rest[row] += Math.abs(factor) * rest[x] + more + (size + more) * ROUNDING + LEAST;
    return rest[row] < Infinity;
  }

  /** Adds a multiple of a row to another. */
  add(row: number, x: number, factor: number): void {
    const { centre, rest, radius, parts, width } = this;
    centre[row] += factor * centre[x];
    // The row so far, not only what is added, is rounded again.
    let size = Math.abs(centre[row]) + Math.abs(factor) * (Math.abs(centre[x]) + radius[x]);
    for (let j = 0; j < width; j++) {
      const part = parts[row * width + j] + factor * parts[x * width + j];
      parts[row * width + j] = part;
      size += Math.abs(part);
    }
    rest[row] += Math.abs(factor) * rest[x] + size * ROUNDING;
  }
}

const NO_FORMS = new Forms(0, 0);

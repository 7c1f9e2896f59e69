import { pin, middle, type Box, type BoxRunner, type Loss } from "./boxRunner";
import type { Cone } from "./cone";
import { Op } from "./operation";

/**
 * A box without a range is halved so often by each input; then its corners decide. Where a choice guards the operation,
 * the boxes along the guard are many, so they are not halved as often.
 */
const MOST_HALVINGS = 20;
const MOST_GUARDED_HALVINGS = 6;

/** Decides by which input a box is split, and where. */
export class Splitter {
  private readonly thresholds: readonly (readonly number[])[];

  constructor(private readonly cone: Cone) {
    this.thresholds = thresholdsOf(cone);
  }

  /**
   * By the input that can move the result most: width times derivative, and for one that can make it jump its share of
   * the width that is left. Asked after a forward and a backward run of the box; undefined where doubles are too coarse.
   */
  split(sides: Box, runner: BoxRunner): readonly Box[] | undefined {
    const { low, high, slopeLow, slopeHigh, cone } = runner;
    const range = high[cone.result] - low[cone.result];
    let chosen = -1;
    let most = 0;
    for (let i = 0; i < cone.inputs.length; i++) {
      const width = sides[2 * i + 1] - sides[2 * i];
      if (width === 0) continue;
      const slope = Math.max(-slopeLow[i], slopeHigh[i]);
      const move = Number.isFinite(slope) ? slope * width : range * this.shareLeft(sides, i);
      // An input that moves nothing is still better than none: the derivative may have been rounded to zero.
      if (chosen < 0 || move > most) {
        chosen = i;
        most = move;
      }
    }
    return chosen < 0 ? undefined : this.splitBy(sides, chosen);
  }

  /** By the input that is left widest, of those that lead to the operation without a range. */
  splitLost(sides: Box, { inputs, isGuarded }: Loss): readonly Box[] | undefined {
    let chosen = -1;
    let most = 2 ** -(isGuarded ? MOST_GUARDED_HALVINGS : MOST_HALVINGS);
    for (const i of inputs) {
      const share = this.shareLeft(sides, i);
      if (share > most) {
        chosen = i;
        most = share;
      }
    }
    return chosen < 0 ? undefined : this.splitBy(sides, chosen);
  }

  private shareLeft(sides: Box, i: number): number {
    const { low, high } = this.cone.inputs[i];
    const width = sides[2 * i + 1] - sides[2 * i];
    return width === 0 ? 0 : width < Infinity ? Math.min(1, width / (high - low)) : 1;
  }

  /** Where a comparison turns if it turns inside, else in the middle. */
  private splitBy(sides: Box, i: number): readonly Box[] | undefined {
    const low = sides[2 * i];
    const high = sides[2 * i + 1];
    const half = middle(low, high);
    const inside = this.thresholds[i].filter((x) => x > low && x < high);
    const at = inside.reduce((best, x) => (Math.abs(x - half) < Math.abs(best - half) ? x : best), inside[0]) ?? half;
    if (!(at > low && at < high)) return undefined;
    const below = sides.slice();
    const above = sides.slice();
    pin(below, i, low, at);
    pin(above, i, at, high);
    return [below, above];
  }
}

const TURNING: ReadonlySet<number> = new Set([Op.Less, Op.LessOrEqual, Op.Equal, Op.Min, Op.Max]);

/** For each input the exact values that it is compared with, and zero, where signs turn. */
function thresholdsOf({ inputs, constants, op, a, b }: Cone): number[][] {
  const result = inputs.map(() => [0]);
  const constantAt = (register: number): number | undefined => constants[register - inputs.length];
  for (let k = 0; k < op.length; k++) {
    if (!TURNING.has(op[k])) continue;
    for (const [input, other] of [
      [a[k], b[k]],
      [b[k], a[k]],
    ]) {
      const value = constantAt(other);
      if (input < inputs.length && value !== undefined) result[input].push(value);
    }
  }
  return result;
}

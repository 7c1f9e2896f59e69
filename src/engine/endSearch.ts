import { BoxQueue, type OpenBox } from "./boxQueue";
import { isBounded, isPoint, middle, middleOf, pin, type Box, type BoxRunner, type Loss } from "./boxRunner";
import type { LinearForms } from "./linearForms";
import type { Splitter } from "./splitter";

/** A search is over at this share of the width of the whole range. */
const CLOSE = 1e-3;
/** As long as it costs no more than this many operations, it goes on to a share that no display shows. */
const CHEAP = 2e4;
const CLOSER = 1e-6;
/** The part of the tolerance that may be spent on inputs whose derivative has the wrong sign somewhere. */
const SLACK = 1 / 4;
/** No search goes below what rounding can do to the largest intermediate result. */
const ROUNDING = 1e-12;
/** A box has two corners to the power of its inputs; more than these are not tried. */
const MOST_CORNER_INPUTS = 8;
/**
 * Linear forms cost as much as a few boxes. They have helped where they closed a box, fixed an input, or took off this
 * share of what the box might still rise; where they did not, so many times, they are passed over but for one in eight.
 */
const WORTH = 3 / 4;
const MOST_TRUST = 8;
const PASSED_OVER = 8;
/** The most tape operations that are spent on one end: about a fifth of a second. */
export const BUDGET = 2e6;

/** Both ends of a range share what is known of its width. */
export interface Extremes {
  least: number;
  greatest: number;
  /** What rounding can do: see {@link BoxRunner.largestIntermediate}. */
  scale: number;
}

/** An operation without a range, and a point in the box where it has none. */
export interface FoundLoss {
  readonly loss: Loss;
  readonly point: Box;
  /** There is no value at the point; else there may be one there and everywhere. */
  readonly isProved: boolean;
}

/**
 * Searches one end of a range: branch and bound by enclosures, mean-value bounds and the signs of derivatives
 * (E. Hansen and G. W. Walster, "Global Optimization Using Interval Analysis", 2nd ed. 2004).
 *
 * The greatest value is sought (`way` 1) or the least (−1). All that follows speaks of *height*, the value times `way`,
 * so that there is one direction only: a box is closed when it cannot rise above the best point found by more than the
 * tolerance, and the bound is the highest of all boxes, open and closed. So nothing that can occur is left out.
 */
export class EndSearch {
  /** Operations spent on this end. */
  operations = 0;
  /** Height that is surely reached, and where; NaN until a point was found that has a value. */
  best = -Infinity;
  bestPoint: Box | undefined;
  /** Set where the value is undefined somewhere in the box, or cannot be shown to be defined. */
  loss: FoundLoss | undefined;
  /** Where the range was last lost. */
  private lastLoss: FoundLoss | undefined;
  private closed = -Infinity;
  private readonly queue = new BoxQueue();
  /** How much linear forms have helped lately, and how many boxes went without since they did not. */
  private trust = MOST_TRUST;
  private passedOver = 0;
  /** The box at hand, as long as inputs of it become fixed. */
  private box: OpenBox | undefined;

  constructor(
    private readonly runner: BoxRunner,
    private readonly splitter: Splitter,
    private readonly forms: LinearForms,
    private readonly way: 1 | -1,
    private readonly extremes: Extremes,
    start: Box,
    private readonly budget: number,
  ) {
    this.queue.push({ sides: start.slice(), height: Infinity, slack: 0, isLost: false, clips: false });
  }

  /** No value is above this height. */
  get bound(): number {
    return Math.max(this.closed, this.openBound);
  }

  /** No value that is still searched for is above this height; −∞ where there is none. */
  private get openBound(): number {
    return Math.max(this.queue.highest, this.box?.height ?? -Infinity);
  }

  get isDone(): boolean {
    return (
      this.loss !== undefined ||
      this.operations >= this.budget ||
      (this.queue.isEmpty && !this.box) ||
      this.isClose(this.openBound)
    );
  }

  /** Whether the bound is as near to the best point as is asked for. */
  get isAttained(): boolean {
    return this.bestPoint !== undefined && this.bound - this.best <= this.tolerance(CLOSE);
  }

  /** Runs the box that may hold the highest value, once, and goes on with it in the next step as long as that fixes inputs. */
  step(): void {
    const before = this.runner.operations;
    const box = this.box ?? this.queue.pop();
    this.box = undefined;
    if (box) this.work(box);
    this.operations += this.runner.operations - before;
    if (this.operations >= this.budget && this.queue.hasLost) this.loss ??= this.lastLoss;
  }

  /** Whether there are parts of the box where no range has been shown yet. */
  get isOpenToLoss(): boolean {
    return this.queue.hasLost;
  }

  private work(box: OpenBox): void {
    const { runner } = this;
    runner.forward(box.sides, box.clips);
    const height = this.upperHeight();
    if (Number.isNaN(height) || (height === Infinity && isBounded(box.sides))) return this.workLost(box);
    box.height = Math.min(box.height, height + box.slack);
    if (this.isClose(box.height)) return this.close(box);
    runner.backward();
    if (this.fix(box)) {
      this.box = box;
      return;
    }
    if (isPoint(box.sides)) {
      this.tryPoint(box.sides);
      return this.close(box);
    }
    if (!box.clips && this.isNarrowingWorthIt()) {
      const before = box.height - this.best;
      this.forms.narrow(box.sides);
      box.height = Math.min(box.height, this.upperHeight() + box.slack);
      const isClosed = this.isClose(box.height);
      const isFixed = !isClosed && this.fix(box);
      this.remember(isClosed || isFixed || box.height - this.best < WORTH * before);
      if (isClosed) return this.close(box);
      if (isFixed) {
        this.box = box;
        return;
      }
    }
    // No bound can be had while an input without a limit pushes both ways or this way.
    if (box.height === Infinity) return this.close(box);
    const parts = this.splitter.split(box.sides, runner);
    this.boundByMean(box);
    if (this.loss) return;
    if (!parts || this.isClose(box.height)) return this.close(box);
    for (const sides of parts) this.queue.push({ ...box, sides, isLost: false });
  }

  /** As long as it helped lately; else once in a while, since smaller boxes are another matter. */
  private isNarrowingWorthIt(): boolean {
    if (this.forms.mostOperations > this.budget - this.operations) return false;
    return this.trust > 0 || ++this.passedOver % PASSED_OVER === 0;
  }

  private remember(hasHelped: boolean): void {
    this.trust = Math.max(0, Math.min(MOST_TRUST, this.trust + (hasHelped ? 2 : -1)));
  }

  /** A box without a range: split until each part has one, or a point is found that has no value, or parts are tiny. */
  private workLost(box: OpenBox): void {
    const loss = this.runner.loss();
    const point = middleOf(box.sides);
    if (Number.isNaN(this.runner.number(point))) {
      this.runner.forward(point);
      const exact = Number.isNaN(this.upperHeight()) ? this.runner.loss() : loss;
      this.loss = { loss: exact, point, isProved: true };
      return;
    }
    this.lastLoss = { loss, point, isProved: false };
    const parts = this.splitter.splitLost(box.sides, loss);
    if (parts) for (const sides of parts) this.queue.push({ ...box, sides, height: Infinity, isLost: true });
    else if (!box.clips && this.hasValueAtCorners(box.sides, loss.inputs))
      this.queue.push({ ...box, height: Infinity, isLost: true, clips: true });
    else this.loss ??= this.lastLoss;
  }

  /**
   * Whether a tiny box has a value at all its corners, by the inputs that lead to where it has no range: then it only
   * touches the edge of a domain, as 1 − x² does at zero, and rounding passes it. A corner without a value is a proof.
   */
  private hasValueAtCorners(sides: Box, inputs: readonly number[]): boolean {
    const wide = inputs.filter((i) => sides[2 * i] < sides[2 * i + 1]);
    if (wide.length > MOST_CORNER_INPUTS) return false;
    const point = middleOf(sides);
    for (let corner = 0; corner < 2 ** wide.length; corner++) {
      wide.forEach((i, bit) => pin(point, i, sides[2 * i + ((corner >> bit) & 1)]));
      if (!Number.isNaN(this.runner.number(point))) continue;
      this.runner.forward(point);
      this.loss = { loss: this.runner.loss(), point, isProved: true };
      return false;
    }
    return true;
  }

  /**
   * Fixes inputs by the derivatives over the box: at the end that leads upward where the sign is proved; where it is not,
   * and what could be lost is small, at the likelier end, adding that to the box's slack. Whether any was fixed.
   */
  private fix(box: OpenBox): boolean {
    const { sides } = box;
    const { cone } = this.runner;
    const wrong: { input: number; at: number; cost: number }[] = [];
    let isChanged = false;
    for (let i = 0; i < cone.inputs.length; i++) {
      const low = sides[2 * i];
      const high = sides[2 * i + 1];
      if (low === high) continue;
      const rise = this.rise(i);
      const fall = this.fall(i);
      isChanged ||= rise <= 0 || fall >= 0;
      if (rise <= 0 && fall >= 0) pin(sides, i, Math.min(high, Math.max(low, cone.inputs[i].nominal)));
      else if (fall >= 0) pin(sides, i, high);
      else if (rise <= 0) pin(sides, i, low);
      else if (rise > -fall) wrong.push({ input: i, at: high, cost: -fall * (high - low) });
      else wrong.push({ input: i, at: low, cost: rise * (high - low) });
    }
    if (isChanged) return true;
    const allowed = this.tolerance() * SLACK;
    for (const { input, at, cost } of wrong.sort((a, b) => a.cost - b.cost || a.input - b.input)) {
      if (!(box.slack + cost <= allowed)) break;
      box.slack += cost;
      pin(sides, input, at);
      isChanged = true;
    }
    return isChanged;
  }

  /**
   * The mean-value form about the point from which neither side rises more than the other (E. Baumann, "Optimal centered
   * forms", BIT 28 (1988) 80–87): height there, and for each input what the derivatives allow on top.
   */
  private boundByMean(box: OpenBox): void {
    const { sides } = box;
    const point = sides.slice();
    const corner = this.bestPoint ? undefined : sides.slice();
    let excess = 0;
    for (let i = 0; 2 * i < sides.length; i++) {
      const low = sides[2 * i];
      const high = sides[2 * i + 1];
      if (low === high) continue;
      const rise = this.rise(i);
      const fall = this.fall(i);
      const share = rise / (rise - fall);
      const isUsable = Number.isFinite(share) && Number.isFinite(high - low);
      pin(point, i, isUsable ? Math.min(high, Math.max(low, low + share * (high - low))) : middle(low, high));
      const at = point[2 * i];
      if (corner) pin(corner, i, rise + fall < 0 ? low : high);
      excess += isUsable ? Math.max(rise * (high - at), fall * (low - at)) : Infinity;
    }
    this.tryPoint(point);
    const height = this.upperHeight() + excess * (1 + 2 ** -40) + box.slack;
    if (height < box.height) box.height = height;
    if (corner && !this.loss) this.tryPoint(corner);
  }

  /** Evaluates a point, by intervals, and keeps it if it is the best. */
  private tryPoint(point: Box): void {
    const { runner, extremes, way } = this;
    runner.forward(point);
    let height = this.lowerHeight();
    if (Number.isNaN(height)) {
      if (Number.isNaN(runner.number(point))) {
        this.loss = { loss: runner.loss(), point, isProved: true };
        return;
      }
      runner.forward(point, true);
      height = this.lowerHeight();
    }
    const isFirst = this.bestPoint === undefined;
    if (!Number.isFinite(height) || !(height > this.best)) return;
    this.best = height;
    this.bestPoint = point.slice();
    extremes.least = Math.min(extremes.least, way * height);
    extremes.greatest = Math.max(extremes.greatest, way * height);
    if (!isFirst) return;
    runner.backward();
    extremes.scale = Math.max(extremes.scale, runner.largestIntermediate());
  }

  private close(box: OpenBox): void {
    this.closed = Math.max(this.closed, box.height);
  }

  private isClose(height: number): boolean {
    return this.bestPoint !== undefined && height - this.best <= this.tolerance();
  }

  private tolerance(share = this.operations < CHEAP ? CLOSER : CLOSE): number {
    const { least, greatest, scale } = this.extremes;
    const width = greatest > least ? greatest - least : 0;
    return Math.max(share * width, ROUNDING * scale);
  }

  private upperHeight(): number {
    const { runner, way } = this;
    return way > 0 ? runner.high[runner.cone.result] : -runner.low[runner.cone.result];
  }

  private lowerHeight(): number {
    const { runner, way } = this;
    return way > 0 ? runner.low[runner.cone.result] : -runner.high[runner.cone.result];
  }

  /** The greatest derivative of the height by an input. */
  private rise(input: number): number {
    return this.way > 0 ? this.runner.slopeHigh[input] : -this.runner.slopeLow[input];
  }

  /** The least derivative of the height by an input. */
  private fall(input: number): number {
    return this.way > 0 ? this.runner.slopeLow[input] : -this.runner.slopeHigh[input];
  }
}

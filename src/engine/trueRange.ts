import { BoxRunner, type Box } from "./boxRunner";
import { coneOf, type Cone, type ConeSource } from "./cone";
import { BUDGET, EndSearch, type Extremes, type FoundLoss } from "./endSearch";
import type { Entry } from "./entry";
import { LinearForms } from "./linearForms";
import { slack } from "./operation";
import { outerStepsOf, type OuterSteps } from "./outerSteps";
import { Splitter } from "./splitter";

/**
 * The range of a result over all that its uncertain inputs allow together, in coherent SI units.
 *
 * `attained`: both ends are reached at the inputs given, but for a thousandth of the width (mostly a millionth, and
 * rounding only where every input pushes one way). `enclosed`: the bounds are guaranteed, and may be too wide; the best
 * points found lie between. `undefined`: somewhere among its inputs it has no value, or none can be shown; both ends NaN.
 * The bounds never leave out a value that can occur.
 */
export interface TrueRange {
  readonly kind: "attained" | "enclosed" | "undefined";
  readonly low: number;
  readonly high: number;
  /** Whether each end by itself is attained; an infinite end never is. */
  readonly lowAttained: boolean;
  readonly highAttained: boolean;
  /** The least and greatest values that were computed, NaN where there are none, and the inputs that give them. */
  readonly bestLow: number;
  readonly bestHigh: number;
  readonly atLow: readonly InputValue[];
  readonly atHigh: readonly InputValue[];
  /** Where it is undefined. */
  readonly loss?: RangeLoss;
  /** It was stopped before the ends were found, because the sign was proved. */
  readonly stoppedBySign: boolean;
  /** Tape operations spent. */
  readonly operations: number;
}

/** An uncertain input, by the slot of its literal, and a value of it. */
export interface InputValue {
  readonly slot: number;
  readonly value: number;
}

export interface RangeLoss {
  /** The operation, as a row of the notes' tape; undefined where an argument had no value already. */
  readonly row?: number;
  /** All inputs there, and which of them lead to the operation. */
  readonly at: readonly InputValue[];
  readonly inputs: readonly number[];
  /** There is no value at that point; else there may be one, and it cannot be shown. */
  readonly isProved: boolean;
}

export interface SearchOptions {
  /** Most tape operations an end. */
  readonly budget?: number;
  /**
   * Most of them once zero is known to lie outside, or values of both signs occur: for the margin of a rule, whose sign
   * is worth more than its size. With 0 the search stops there.
   */
  readonly budgetOnceSignProved?: number;
}

/** The true range of a result of an entry, by its place among the entry's results. */
export function trueRange(source: ConeSource, entry: Entry, result = 0, options: SearchOptions = {}): TrueRange {
  return trueRangeOfCone(coneOf(source, entry, result), options);
}

/** The true range of the result of a cone. */
export function trueRangeOfCone(cone: Cone, options: SearchOptions = {}): TrueRange {
  const search = new RangeSearch(cone, options);
  while (!search.isDone) search.step();
  return search.result();
}

/**
 * The true range of the result of a cone, by a search that pauses after about `slice` tape operations each time: a
 * forward and backward run of the cone is not interrupted.
 */
export function* searchInSlices(cone: Cone, options: SearchOptions, slice: number): Generator<void, TrueRange> {
  const search = new RangeSearch(cone, options);
  for (let pause = slice; !search.isDone;) {
    search.step();
    if (search.operations < pause || search.isDone) continue;
    yield;
    pause = search.operations + slice;
  }
  return search.result();
}

class RangeSearch {
  private readonly cone: Cone;
  /** What takes the result of the cone that is searched to the result. */
  private readonly outer: OuterSteps | undefined;
  private readonly runner: BoxRunner;
  private readonly least: EndSearch;
  private readonly greatest: EndSearch;
  private turn = false;

  constructor(
    whole: Cone,
    private readonly options: SearchOptions,
  ) {
    this.outer = outerStepsOf(whole);
    const cone = (this.cone = this.outer?.inner ?? whole);
    this.runner = new BoxRunner(cone);
    const splitter = new Splitter(cone);
    const forms = new LinearForms(this.runner);
    const extremes: Extremes = { least: Infinity, greatest: -Infinity, scale: 0 };
    const start = Float64Array.from(cone.inputs.flatMap(({ low, high }) => [low, high]));
    const budget = options.budget ?? BUDGET;
    this.least = new EndSearch(this.runner, splitter, forms, -1, extremes, start, budget);
    this.greatest = new EndSearch(this.runner, splitter, forms, 1, extremes, start, budget);
  }

  get operations(): number {
    return this.runner.operations;
  }

  get isDone(): boolean {
    return this.loss !== undefined || (this.least.isDone && this.greatest.isDone) || this.isStoppedBySign;
  }

  /** One box of either end in turn, so that both soon know how wide the range is. */
  step(): void {
    this.turn = this.least.isDone ? true : this.greatest.isDone ? false : !this.turn;
    (this.turn ? this.greatest : this.least).step();
  }

  result(): TrueRange {
    const inner = this.innerResult();
    return this.outer ? taken(this.outer, inner) : inner;
  }

  private innerResult(): TrueRange {
    const { least, greatest, runner, loss } = this;
    const isStopped = this.isStoppedBySign && !(least.isDone && greatest.isDone);
    const lowAttained = loss === undefined && least.isAttained;
    const highAttained = loss === undefined && greatest.isAttained;
    const low = loss ? NaN : 0 - least.bound;
    const high = loss ? NaN : greatest.bound;
    const value = (point: Box | undefined) => (point ? runner.number(point) : NaN);
    return {
      kind: loss ? "undefined" : lowAttained && highAttained ? "attained" : "enclosed",
      low,
      high,
      lowAttained,
      highAttained,
      bestLow: value(least.bestPoint),
      bestHigh: value(greatest.bestPoint),
      atLow: this.inputsAt(least.bestPoint),
      atHigh: this.inputsAt(greatest.bestPoint),
      ...(loss ? { loss: this.described(loss) } : {}),
      stoppedBySign: isStopped,
      operations: runner.operations,
    };
  }

  private get loss(): FoundLoss | undefined {
    return this.least.loss ?? this.greatest.loss;
  }

  private get isStoppedBySign(): boolean {
    const { least, greatest, options } = this;
    const { budgetOnceSignProved = Infinity } = options;
    if (Math.max(least.operations, greatest.operations) < budgetOnceSignProved) return false;
    if (least.isOpenToLoss || greatest.isOpenToLoss) return false;
    const [low, high] = this.outer?.range(-least.bound, greatest.bound) ?? [-least.bound, greatest.bound];
    if (low > 0 || high < 0) return true;
    if (least.bestPoint === undefined || greatest.bestPoint === undefined) return false;
    const found = [-least.best, greatest.best].map((value) => this.outer?.number(value) ?? value);
    return Math.min(...found) < 0 && Math.max(...found) > 0;
  }

  private inputsAt(point: Box | undefined): readonly InputValue[] {
    return point ? this.cone.inputs.map(({ slot }, i) => ({ slot, value: point[2 * i] })) : [];
  }

  private described({ loss, point, isProved }: FoundLoss): RangeLoss {
    return {
      ...(loss.row === undefined ? {} : { row: loss.row }),
      at: this.inputsAt(point),
      inputs: loss.inputs.map((i) => this.cone.inputs[i].slot),
      isProved,
    };
  }
}

/** A part of the width within which an end counts as reached. */
const REACHED = 1e-3;

/** The range of a result for that of what its last operations start from. */
function taken(outer: OuterSteps, inner: TrueRange): TrueRange {
  const { bestLow, bestHigh, atLow, atHigh } = inner;
  if (inner.kind === "undefined") return inner;
  const [low, high] = outer.range(inner.low, inner.high);
  const ends = [
    { best: outer.number(bestLow), at: atLow },
    { best: outer.number(bestHigh), at: atHigh },
  ];
  const [least, greatest] = outer.falls ? ends.reverse() : ends;
  const allowed = Math.max(REACHED * (high - low), slack(low, high));
  const lowAttained = least.best - low <= allowed;
  const highAttained = high - greatest.best <= allowed;
  return {
    ...inner,
    kind: lowAttained && highAttained ? "attained" : "enclosed",
    low,
    high,
    lowAttained,
    highAttained,
    bestLow: least.best,
    bestHigh: greatest.best,
    atLow: least.at,
    atHigh: greatest.at,
  };
}

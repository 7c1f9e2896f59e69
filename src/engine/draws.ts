import type { Cone } from "./cone";
import { correlatedGroups, type CorrelatedGroup, type Correlation } from "./correlation";
import { normalShareBelow } from "./coverageFactor";
import { Random } from "./random";
import type { Spread } from "./spread";

/** What is drawn for a trial. */
export interface DrawSettings {
  /** The same seed gives the same draws, on any machine. */
  readonly seed: string;
  /** Inputs that are not drawn, by place, with the value that they are held at: operating conditions. */
  readonly held?: ReadonlyMap<number, number>;
  readonly correlations?: readonly Correlation[];
}

/**
 * Draws the inputs of a cone, each by its {@link Spread} (JCGM 101:2008, 6.4): even between the limits (6.4.2), normal
 * (6.4.7), Student's t (6.4.9). A condition that is not held at a value stays nominal. What has no limit on one side cannot
 * be drawn, and is NaN.
 *
 * Correlated inputs are made from correlated normal numbers, which JCGM 101 prescribes for normal ones (6.4.8). For the
 * other shapes the normal numbers are correlated more, by closed formulas, so that the inputs have the stated coefficient
 * and each keeps its shape. Two different shapes cannot follow each other wholly: for them ± 1 is as near as they can.
 */
export class Draws {
  private readonly random: Random;
  private readonly groups: readonly CorrelatedGroup[];
  private readonly isGrouped = new Set<number>();

  constructor(
    private readonly inputs: Cone["inputs"],
    private readonly spreads: readonly Spread[],
    private readonly settings: DrawSettings,
  ) {
    this.random = new Random(settings.seed);
    const drawn = (settings.correlations ?? []).filter(({ a, b }) => this.isDrawn(a) && this.isDrawn(b));
    this.groups = correlatedGroups(drawn, ({ a, b, r }) => coefficientOfNormals(spreads[a], spreads[b], r));
    for (const group of this.groups) for (const input of group.inputs) this.isGrouped.add(input);
  }

  /** Writes the first `count` places of the block of each input. */
  fill(blocks: readonly Float64Array[], count: number): void {
    for (let i = 0; i < blocks.length; i++) if (!this.isGrouped.has(i)) this.fillAlone(blocks[i], count, i);
    for (const group of this.groups) this.fillGroup(blocks, count, group);
  }

  private isDrawn(i: number): boolean {
    return this.spreads[i].shape !== "held" && !this.settings.held?.has(i);
  }

  private fillAlone(block: Float64Array, count: number, i: number): void {
    const spread = this.spreads[i];
    const { nominal, low, high } = this.inputs[i];
    const held = this.settings.held?.get(i);
    if (held !== undefined) block.fill(held, 0, count);
    else if (spread.shape === "held") block.fill(nominal, 0, count);
    else if (spread.shape === "even" && !Number.isFinite(high - low)) block.fill(NaN, 0, count);
    else if (spread.shape === "even") this.random.fillEven(block, count, low, high);
    else if (spread.shape === "normal") this.random.fillNormal(block, count, nominal, spread.standardUncertainty);
    else this.random.fillStudent(block, count, nominal, spread.standardUncertainty, spread.degreesOfFreedom);
  }

  private fillGroup(blocks: readonly Float64Array[], count: number, { inputs, factor }: CorrelatedGroup): void {
    for (const input of inputs) this.random.fillNormal(blocks[input], count, 0, 1);
    // From the last row to the first, each needs only numbers that are still independent.
    for (let i = inputs.length - 1; i >= 0; i--) {
      const block = blocks[inputs[i]];
      for (let s = 0; s < count; s++) {
        let sum = 0;
        for (let j = 0; j <= i; j++) sum += factor[i][j] * blocks[inputs[j]][s];
        block[s] = sum;
      }
      this.shape(block, count, inputs[i]);
    }
  }

  /** Turns standard normal numbers into draws of an input. */
  private shape(block: Float64Array, count: number, input: number): void {
    const spread = this.spreads[input];
    const { nominal, low, high } = this.inputs[input];
    for (let s = 0; s < count; s++) {
      if (spread.shape === "even") block[s] = low + (high - low) * normalShareBelow(block[s]);
      else if (spread.shape === "normal") block[s] = nominal + spread.standardUncertainty * block[s];
      else if (spread.shape === "student") {
        const { standardUncertainty, degreesOfFreedom } = spread;
        const root = Math.sqrt(degreesOfFreedom / this.random.chiSquared(degreesOfFreedom));
        block[s] = nominal + standardUncertainty * block[s] * root;
      }
    }
  }
}

/**
 * The coefficient of two normal numbers whose shaped values have the coefficient r. Of two even spreads
 * r = (6/π)·arcsin(ρ/2) (K. Pearson, 1907); otherwise each shape weakens it by a factor of its own.
 */
function coefficientOfNormals(a: Spread, b: Spread, r: number): number {
  const isEven = a.shape === "even" && b.shape === "even";
  const rho = isEven ? 2 * Math.sin((Math.PI * r) / 6) : r / (weakening(a) * weakening(b));
  return Math.max(-1, Math.min(1, rho));
}

/** The correlation of a shaped value with the normal number that it is made of. */
function weakening(spread: Spread): number {
  if (spread.shape === "even") return Math.sqrt(3 / Math.PI);
  return spread.shape === "student" ? studentWeakening(spread.degreesOfFreedom) : 1;
}

/**
 * √((ν − 2)/2)·Γ((ν − 1)/2)/Γ(ν/2): the mean of √(ν/χ²) over the standard deviation of t. Without a variance, for two
 * degrees of freedom or fewer, there is no coefficient to meet, and the normal numbers have the stated one.
 */
function studentWeakening(degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 2)) return 1;
  // The quotient of gamma functions in steps of two, from where its expansion in 1/x is good to all digits.
  let ratio = 1;
  let nu = degreesOfFreedom;
  for (; nu < MANY_DEGREES; nu += 2) ratio *= nu / (nu - 1);
  const x = nu / 2;
  const large = (Math.sqrt(x) / (x - 0.5)) * (1 - 1 / (8 * x) + 1 / (128 * x ** 2) + 5 / (1024 * x ** 3));
  return Math.sqrt((degreesOfFreedom - 2) / 2) * ratio * large;
}

const MANY_DEGREES = 200;

/**
 * Trials of Monte Carlo against a loop written by hand for the same formula, and against mathjs; all of them draw.
 */
import { all, create } from "mathjs";
import { finish } from "../../src/engine/slices";
import { propagate } from "../../src/engine/monteCarlo";
import { BLOCK, Samples } from "../../src/engine/samples";
import { Draws } from "../../src/engine/draws";
import { modelOf, normal, type Model } from "../engine/models";

export interface MonteCarloRow {
  readonly what: string;
  readonly milliseconds: number;
  /** Against what the row says. */
  readonly ratio: number;
  readonly budget: string;
}

const TRIALS = 1_000_000;
const ROUNDS = 7;
/** mathjs is so much slower that fewer trials tell. */
const TRIALS_OF_MATHJS = 20_000;

const math = create(all);
const out = new Float64Array(TRIALS);

/** A note, and the same by hand: even draws by `Math.random`, normal ones by Box and Muller, results to an array. */
interface Case {
  readonly what: string;
  readonly model: Model;
  readonly byHand: () => void;
  readonly formula: string;
  readonly scope: () => Record<string, number>;
}

const even = (low: number, high: number) => low + (high - low) * Math.random();
const bell = (mean: number, deviation: number) =>
  mean + deviation * Math.sqrt(-2 * Math.log(1 - Math.random())) * Math.cos(2 * Math.PI * Math.random());

const CHAIN = 40;

const CASES: readonly Case[] = [
  {
    what: "three even inputs, 4 operations",
    model: modelOf([
      "given supply = 24 ± 1.2",
      "assume V_f = 2.8 .. 3.2",
      "given R = 150 ± 1.5",
      "burden = supply - 7 * V_f",
      "P = burden^2 / R",
    ]),
    byHand: () => {
      for (let i = 0; i < TRIALS; i++) {
        const burden = even(22.8, 25.2) - 7 * even(2.8, 3.2);
        out[i] = (burden * burden) / even(148.5, 151.5);
      }
    },
    formula: "(supply - 7 * V_f)^2 / R",
    scope: () => ({ supply: even(22.8, 25.2), V_f: even(2.8, 3.2), R: even(148.5, 151.5) }),
  },
  {
    what: "three normal inputs, 2 operations",
    model: modelOf(["given a = 1 ± 1", "given b = 1 ± 1", "given c = 9 ± 1", "y = a * b + c"], {
      a: normal(0.1),
      b: normal(0.2),
      c: normal(0.3),
    }),
    byHand: () => {
      for (let i = 0; i < TRIALS; i++) out[i] = bell(1, 0.1) * bell(1, 0.2) + bell(9, 0.3);
    },
    formula: "a * b + c",
    scope: () => ({ a: bell(1, 0.1), b: bell(1, 0.2), c: bell(9, 0.3) }),
  },
  {
    what: "two even inputs, 161 operations",
    model: modelOf([
      "given a = 1 ± 0.1",
      "given b = 2 ± 0.1",
      "x0 = a + b",
      ...Array.from({ length: CHAIN }, (_, i) => `x${i + 1} = x${i} * 1.01 + a / (x${i} + b)`),
    ]),
    byHand: () => {
      for (let i = 0; i < TRIALS; i++) {
        const a = even(0.9, 1.1);
        const b = even(1.9, 2.1);
        let x = a + b;
        for (let k = 0; k < CHAIN; k++) x = x * 1.01 + a / (x + b);
        out[i] = x;
      }
    },
    formula: ["x = a + b", ...Array.from({ length: CHAIN }, () => "x = x * 1.01 + a / (x + b)")].join("; "),
    scope: () => ({ a: even(0.9, 1.1), b: even(1.9, 2.1) }),
  },
];

/** Every case: with generated code, with kernels alone, against mathjs; then a whole run with its figures. */
export function measureMonteCarlo(): readonly MonteCarloRow[] {
  const rows: MonteCarloRow[] = [];
  for (const { what, model, byHand, formula, scope } of CASES) {
    const compiled = math.compile(formula);
    const byMathjs = () => {
      for (let i = 0; i < TRIALS_OF_MATHJS; i++) compiled.evaluate(scope());
    };
    const [ours, kernels, hand] = interleaved(
      () => runTrials(model, true),
      () => runTrials(model, false),
      byHand,
    );
    const theirs = (interleaved(byMathjs)[0] * TRIALS) / TRIALS_OF_MATHJS;
    rows.push(
      { what: `10⁶ trials, ${what}`, milliseconds: ours, ratio: ours / hand, budget: "≤ 1.5 × by hand" },
      { what: "… where no code may be generated", milliseconds: kernels, ratio: kernels / hand, budget: "" },
      { what: "… against mathjs, compiled", milliseconds: ours, ratio: ours / theirs, budget: "" },
    );
  }
  const [{ model, byHand }] = CASES;
  const [ours, hand] = interleaved(
    () => finish(propagate(model.cone, model.spreads, { seed: "bench", trials: TRIALS })),
    () => {
      byHand();
      figuresByHand();
    },
  );
  rows.push({
    what: "10⁶ trials with mean, deviation and both intervals",
    milliseconds: ours,
    ratio: ours / hand,
    budget: "≤ 1.5 × by hand, by a sort",
  });
  return rows;
}

function runTrials({ cone, spreads }: Model, mayGenerate: boolean): void {
  const samples = new Samples(cone, mayGenerate);
  const draws = new Draws(cone.inputs, spreads, { seed: "bench" });
  for (let done = 0; done < TRIALS; done += BLOCK) {
    const now = Math.min(BLOCK, TRIALS - done);
    draws.fill(samples.inputs, now);
    samples.run(now);
    out.set(samples.result.subarray(0, now), done);
  }
}

function figuresByHand(): readonly number[] {
  const mean = out.reduce((sum, value) => sum + value, 0) / TRIALS;
  const squares = out.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const sorted = out.slice().sort();
  const inside = 0.95 * TRIALS;
  let shortest = 0;
  for (let r = 1; r < TRIALS - inside; r++)
    if (sorted[r + inside] - sorted[r] < sorted[shortest + inside] - sorted[shortest]) shortest = r;
  return [mean, Math.sqrt(squares / (TRIALS - 1)), sorted[0.025 * TRIALS], sorted[0.975 * TRIALS], sorted[shortest]];
}

/** Medians of processor time, in ms, of measurements that take turns after a round that does not count. */
function interleaved(...works: readonly (() => unknown)[]): number[] {
  const times = works.map((): number[] => []);
  for (let round = 0; round <= ROUNDS; round++)
    works.forEach((work, i) => {
      const start = process.cpuUsage();
      work();
      const { user, system } = process.cpuUsage(start);
      if (round > 0) times[i].push((user + system) / 1000);
    });
  return times.map((each) => each.sort((a, b) => a - b)[Math.floor(each.length / 2)]);
}

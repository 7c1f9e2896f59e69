import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { correlationOf, readings, sample } from "../../src/engine/statistics";
import { firstOrder } from "../../src/engine/uncertainty";
import { standardUncertaintyOf } from "../../src/engine/spread";
import { openNotes } from "../notation";
import { assumed, modelOf, normal, student } from "../engine/models";

/**
 * Data sets of NIST (Statistical Reference Datasets) and raw observations of JCGM 100 and JCGM GUM-5 are read from the
 * folder of published values beside the project, where there is one, and are not part of the project.
 */
const FOLDER = "../shared/published";

interface Case {
  readonly id: string;
  readonly name: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: unknown;
  readonly tolerance: { readonly abs: number } & Readonly<Record<string, { readonly rel: number }>>;
}

describe("published figures: observations", () => {
  if (!existsSync(`${FOLDER}/nist_strd_univariate.json`)) {
    it("are not here", function () {
      console.log(`    NOT RUN: data sets of NIST and observations of JCGM 100, for there is no folder ${FOLDER}`);
      this.skip();
    });
    return;
  }

  for (const { name, inputs, expected, tolerance } of read("nist_strd_univariate")) {
    const { mean, sd_n_minus_1: deviation } = expected as Readonly<Record<string, string>>;
    it(`${name} (its autocorrelation is not ours to compute)`, () => {
      const data = Array.isArray(inputs.data) ? (inputs.data as string[]).map(Number) : digitsOfPi(5000);
      const found = readings(data);
      assertRelative(found.mean, Number(mean), tolerance.mean.rel);
      assertRelative(found.deviation, Number(deviation), tolerance.sd.rel);
      assertRelative(found.standardUncertainty, Number(deviation) / Math.sqrt(data.length), tolerance.sd.rel);
      assertRelative(
        sample(data).standardUncertainty,
        Number(deviation) * Math.sqrt(1 + 1 / data.length),
        tolerance.sd.rel,
      );
      assert.equal(found.degreesOfFreedom, data.length - 1);
      const { nominal, spread } = readInNote("readings", data);
      assertRelative(nominal, Number(mean), tolerance.mean.rel);
      assertRelative(spread, Number(deviation) / Math.sqrt(data.length), tolerance.sd.rel);
      assertRelative(
        readInNote("sample", data).spread,
        Number(deviation) * Math.sqrt(1 + 1 / data.length),
        tolerance.sd.rel,
      );
    });
  }

  const gum = new Map(read("uncertainty_gum").map((each) => [each.id, each]));

  it("H.4 activity by liquid scintillation: means, their correlation, and the activity from them (JCGM 100)", () => {
    const { inputs } = gum.get("gum-h4-A1")!;
    const cycles = inputs["cycles(tS,CS,tB,CB,tx,Cx)"] as number[][];
    const [counting, decay] = [inputs.T0_min as number, inputs.lambda_per_min as number];
    const rate = (count: number, background: number, time: number) =>
      ((count - background) / counting) * Math.exp(decay * time);
    const ofSample = cycles.map(([, , , background, time, count]) => rate(count, background, time));
    const ofStandard = cycles.map(([time, count, , background]) => rate(count, background, time));
    const ratio = readings(ofSample.map((each, i) => each / ofStandard[i]));
    const [x, s] = [readings(ofSample), readings(ofStandard)];
    const r = correlationOf(ofSample, ofStandard);
    assertCase("gum-h4-Rx", x.mean);
    assertCase("gum-h4-RS", s.mean);
    assertCase("gum-h4-sRS", s.standardUncertainty);
    assertCase("gum-h4-r", r);
    assertCase("gum-h4-R", ratio.mean);
    assertCase("gum-h4-sR", ratio.standardUncertainty);

    const pair = (name: string) => inputs[name] as [number, number];
    const [[AS, uAS], [mS, umS], [mx, umx]] = [pair("AS_Bq_per_g"), pair("mS_g"), pair("mx_g")];
    const known = [assumed("AS", AS), assumed("mS", mS), assumed("mx", mx)];
    const spreads = { AS: normal(uAS), mS: normal(umS), mx: normal(umx) };
    const apart = modelOf([...known, assumed("Rx", x.mean), assumed("RS", s.mean), "A = AS * (mS / mx) * (Rx / RS)"], {
      ...spreads,
      Rx: normal(x.standardUncertainty),
      RS: normal(s.standardUncertainty),
    });
    const first = firstOrder(apart.cone, apart.spreads, apart.correlations([["Rx", "RS", r]]));
    assertCase("gum-h4-A1", first.nominal);
    assertCase("gum-h4-uA1", first.standardUncertainty!);
    const together = modelOf([...known, assumed("R", ratio.mean), "A = AS * (mS / mx) * R"], {
      ...spreads,
      R: student(ratio.standardUncertainty, ratio.degreesOfFreedom),
    });
    const second = firstOrder(together.cone, together.spreads);
    assertCase("gum-h4-A2", second.nominal);
    assertCase("gum-h4-uA2", second.standardUncertainty!);
  });

  it("example 15, breaking force of a wire rope (JCGM GUM-5)", () => {
    const { inputs } = gum.get("gum5-ex15-mean")!;
    const force = readings(inputs.obs_kN as number[]);
    assertCase("gum5-ex15-mean", force.mean);
    assertCase("gum5-ex15-us", force.standardUncertainty);
    const halves = inputs.rectangular_half_widths_kN as number[];
    const corrections = halves.map((half, i) => `assume c${i} = 0 ± ${half}`);
    const { cone, spreads } = modelOf([assumed("F", force.mean), ...corrections, "R = F + c0 + c1 + c2 + c3"], {
      F: student(force.standardUncertainty, force.degreesOfFreedom),
    });
    const first = firstOrder(cone, spreads);
    assertCase("gum5-ex15-uc", first.standardUncertainty!);
    assertCase("gum5-ex15-U95", 1.96 * first.standardUncertainty!);
    const written = modelOf([
      `F = readings [${(inputs.obs_kN as number[]).join(", ")}] kN`,
      ...halves.map((half, i) => `c${i} = 0 kN ± ${half} kN`),
      "R = F + c0 + c1 + c2 + c3",
    ]);
    assertCase("gum5-ex15-uc", firstOrder(written.cone, written.spreads).standardUncertainty! / 1000);
  });

  function assertCase(id: string, actual: number): void {
    const { expected, tolerance } = gum.get(id)!;
    assert.ok(
      Math.abs(actual - (expected as number)) <= tolerance.abs,
      `${id}: ${actual}, published ${String(expected)}`,
    );
  }
});

function read(topic: string): readonly Case[] {
  return (JSON.parse(readFileSync(`${FOLDER}/${topic}.json`, "utf8")) as { cases: Case[] }).cases;
}

function assertRelative(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance * Math.abs(expected), `${actual}, published ${expected}`);
}

/** The mean and the standard uncertainty of observations that are written in a note. */
function readInNote(word: "readings" | "sample", data: readonly number[]): { nominal: number; spread: number } {
  const { outcome } = openNotes(`    x = ${word} [${data.join(", ")}]\n`).snapshot().rows[0];
  assert.ok(outcome.kind === "quantity");
  const { spread } = outcome.values[0].pushes[0].input;
  return { nominal: outcome.values[0].nominal, spread: standardUncertaintyOf(spread, { low: 0, high: 0 }) };
}

/** By Machin's formula in whole numbers. Digit 957 is 3 in the data of NIST, and 8 in π; their figures belong to theirs. */
function digitsOfPi(count: number): number[] {
  const scale = 10n ** BigInt(count + 10);
  const arctangent = (inverse: bigint) => {
    let [power, sum, sign] = [scale / inverse, 0n, 1n];
    for (let n = 1n; power > 0n; n += 2n, power /= inverse * inverse, sign = -sign) sum += (sign * power) / n;
    return sum;
  };
  const pi = 4n * (4n * arctangent(5n) - arctangent(239n));
  const digits = [...pi.toString().slice(0, count)].map(Number);
  assert.equal(digits[956], 8);
  digits[956] = 3;
  return digits;
}

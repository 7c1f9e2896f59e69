import assert from "node:assert/strict";
import { holding, note } from "../features/notes";
import type { PublishedExample } from "./examples";
import published from "./uncertainty.json";

/**
 * The published examples once more, typed as notes and read off the record, as somebody would who has the standard before
 * him. Degrees of freedom can be stated by readings only, so that those of H.1 are left to the test of the formulas.
 */
interface Example extends PublishedExample {
  readonly name: string;
  readonly correlations?: readonly (readonly [string, string, number])[];
  readonly value: readonly number[];
  readonly standardUncertainty?: readonly number[];
  readonly variance?: readonly number[];
  readonly parts?: Readonly<Record<string, readonly number[]>>;
  readonly secondOrder?: readonly number[];
}

describe("published figures: uncertainty, in notes", () => {
  for (const example of published.examples as unknown as readonly Example[]) {
    it(example.name, () => {
      const { values, findings } = holding({ n: note(linesOf(example).join("\n")) }).record("n");
      const errors = findings.filter(({ severity }) => severity === "error");
      assert.deepEqual(errors, []);
      const result = values.find(({ name }) => name === "result")!;
      const u = result.standardUncertainty!;
      assertNear(result.value!, example.value, "value");
      if (example.standardUncertainty) assertNear(u, example.standardUncertainty, "standard uncertainty");
      if (example.variance) assertNear(u * u, example.variance, "variance");
      const bent = result.interactions?.varianceShare ?? 0;
      for (const [name, part] of Object.entries(example.parts ?? {})) {
        const share = result.contributions!.find((each) => each.name === name)?.varianceShare ?? 0;
        assertNear(u * Math.sqrt(share / (1 - bent)), part, `part of ${name}`);
      }
      const sum = result.contributions!.reduce((total, { varianceShare }) => total + varianceShare!, bent);
      assertNear(sum, [1, 1e-3], "sum of the shares");
      if (example.secondOrder) assertNear(u / Math.sqrt(1 - bent), example.secondOrder, "to second order");
    });
  }

  it("of readings has the degrees of freedom of Welch and Satterthwaite (JCGM 100, G.4.1), by hand", () => {
    // s²/n is 1/3 with 2 degrees of freedom, and 5/12 with 3; between them (3/4)² / ((1/3)²/2 + (5/12)²/3).
    const lines = [
      "a = readings [1, 2, 3] V",
      "b = readings [1, 2, 3, 4] V",
      "c = 5 V ± 1 V",
      "y = a + b",
      "z = a + b + c",
    ];
    const { values } = holding({ n: note(lines.join("\n")) }).record("n");
    const [a, b, c, y, z] = values;
    assert.deepEqual([a.degreesOfFreedom, b.degreesOfFreedom, c.degreesOfFreedom], [2, 3, undefined]);
    const sum = (1 / 3) ** 2 / 2 + (5 / 12) ** 2 / 3;
    assertNear(y.standardUncertainty!, [Math.sqrt(3 / 4), 1e-11], "of the sum");
    assertNear(y.degreesOfFreedom!, [(3 / 4) ** 2 / sum, 1e-9], "degrees of the sum");
    assertNear(z.degreesOfFreedom!, [(3 / 4 + 1 / 3) ** 2 / sum, 1e-9], "degrees with limits besides");
  });
});

function linesOf({ inputs, lines = [], formula, correlations = [] }: Example): readonly string[] {
  return [
    ...Object.entries(inputs).map(([name, { nominal, half, u }]) =>
      half === undefined ? `given ${name} = ${nominal} ± ${u} (k = 1)` : `given ${name} = ${nominal} ± ${half}`,
    ),
    ...correlations.map(([a, b, r]) => `correlation ${a}, ${b} = ${r}`),
    ...lines,
    `result = ${formula}`,
  ];
}

function assertNear(actual: number, [expected, tolerance]: readonly number[], what: string): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what}: ${actual}, published ${expected} ± ${tolerance}`);
}

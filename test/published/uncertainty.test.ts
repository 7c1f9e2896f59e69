import assert from "node:assert/strict";
import { coverageFactor } from "../../src/engine/coverageFactor";
import { expanded, firstOrder, sharesOfVariance } from "../../src/engine/uncertainty";
import { modelOfExample, type PublishedExample } from "./examples";
import published from "./uncertainty.json";

/** A figure and how far from it a result may be. */
type Figure = readonly number[];

interface Example extends PublishedExample {
  readonly name: string;
  readonly correlations?: readonly (readonly [string, string, number])[];
  readonly value: Figure;
  readonly standardUncertainty?: Figure;
  readonly variance?: Figure;
  readonly parts?: Readonly<Record<string, Figure>>;
  readonly degreesOfFreedom?: number;
  readonly probability?: number;
  readonly coverageFactor?: Figure;
  readonly expandedUncertainty?: Figure;
  readonly secondOrder?: Figure;
}

describe("published figures: uncertainty (JCGM 100)", () => {
  const { rows, tolerance } = published.coverageFactors;
  for (const { probability, degrees, factor } of rows) {
    it(`coverage factor for ${probability}, ${degrees} degrees of freedom (table G.2)`, () =>
      assertNear(coverageFactor(probability, degrees), [factor, tolerance], "factor"));
  }

  for (const example of published.examples as unknown as readonly Example[]) {
    it(example.name, () => check(example));
  }
});

function check(example: Example): void {
  const model = modelOfExample(example);
  const correlations = model.correlations(example.correlations ?? []);
  const first = firstOrder(model.cone, model.spreads, correlations);
  const u = first.standardUncertainty!;
  assertNear(first.nominal, example.value, "value");
  if (example.standardUncertainty) assertNear(u, example.standardUncertainty, "standard uncertainty");
  if (example.variance) assertNear(u * u, example.variance, "variance");
  for (const [name, part] of Object.entries(example.parts ?? {}))
    assertNear(first.parts[model.place(name)], part, `part of ${name}`);
  if (example.degreesOfFreedom !== undefined)
    assert.equal(Math.floor(first.degreesOfFreedom!), example.degreesOfFreedom, "degrees of freedom");
  const interval = expanded(first, example.probability)!;
  if (example.coverageFactor) assertNear(interval.coverageFactor, example.coverageFactor, "coverage factor");
  if (example.expandedUncertainty) assertNear(interval.expandedUncertainty, example.expandedUncertainty, "expanded");
  const shares = sharesOfVariance(model.cone, model.spreads, first, correlations)!;
  if (example.secondOrder)
    assertNear(u / Math.sqrt(1 - shares.interactions), example.secondOrder, "with terms of second order");
}

function assertNear(actual: number, [expected, tolerance]: Figure, what: string): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${what}: ${actual}, published ${expected} ± ${tolerance}`);
}

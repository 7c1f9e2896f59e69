import assert from "node:assert/strict";
import { coverageFactor, normalShareBelow } from "../../src/engine/coverageFactor";
import { Random } from "../../src/engine/random";
import { howMany } from "../howMany";

const DRAWS = howMany(1_000_000);
/** Standard deviations that a figure of true draws hardly ever is off by; seeds are fixed, so nothing is left to chance. */
const SURE = 5;

describe("random numbers", () => {
  it("are those of the published generator: word 102,401 from the state 1, 2, 3, 4", () => {
    const random = new Random([1, 2, 3, 4]);
    assert.equal(random.word(), 641);
    for (let i = 1; i < 102_400; i++) random.word();
    // The test of the same name in the PHP interpreter prints it byte by byte, the least first: fa 3c 87 2c.
    assert.equal(random.word(), 0x2c873cfa);
  });

  it("are the same for the same seed, and others for a seed that differs in a letter", () => {
    const of = (seed: string) =>
      Array.from(
        { length: 4 },
        (
          (random) => () =>
            random.word()
        )(new Random(seed)),
      );
    assert.deepEqual(of("V = 3 V"), of("V = 3 V"));
    const [a, b] = [of("V = 3 V"), of("V = 4 V")];
    a.forEach((word, i) => assert.ok(bitsApart(word, b[i]) >= 5, `word ${i}`));
  });

  it("drawn in blocks are those drawn one by one", () => {
    const block = new Float64Array(5);
    const [all, each] = [new Random("seed"), new Random("seed")];
    all.fillEven(block, 5, 0, 1);
    assert.deepEqual(
      [...block],
      Array.from({ length: 5 }, () => each.unit()),
    );
    assert.equal(all.word(), each.word());
  });

  it("even draws lie between their limits, as many in each tenth as in the next", () => {
    const values = drawn((random, out) => random.fillEven(out, out.length, -2, 3));
    const tenths = new Array<number>(10).fill(0);
    for (const value of values) tenths[Math.floor(((value + 2) / 5) * 10)]++;
    for (const count of tenths)
      assert.ok(Math.abs(count - DRAWS / 10) < SURE * Math.sqrt(DRAWS * 0.09), `${count} of ${DRAWS} in a tenth`);
  });

  it("normal draws have the shares of a normal distribution, to the far tail", () => {
    const values = drawn((random, out) => random.fillNormal(out, out.length, 10, 2)).map((value) => (value - 10) / 2);
    for (const probability of [0.1, 0.25, 0.5, 0.6827, 0.95, 0.99, 0.999])
      assertShare(values, coverageFactor(probability, Infinity), probability);
    assertShare(values, 3.442619855899, 0.999423903);
    assertEven(values);
  });

  it("a million normal draws fill eighty bins as they should (χ²)", () => {
    const [random, count, bins] = [new Random("bins"), 1_000_000, new Array<number>(80).fill(0)];
    for (let i = 0; i < count; i++) {
      const bin = Math.floor((random.normal() + 4) * 10);
      if (bin >= 0 && bin < 80) bins[bin]++;
    }
    const chi = bins.reduce((sum, found, bin) => {
      const expected = count * (normalShareBelow((bin + 1) / 10 - 4) - normalShareBelow(bin / 10 - 4));
      return sum + (found - expected) ** 2 / expected;
    }, 0);
    assert.ok(chi > 80 - SURE * Math.sqrt(160) && chi < 80 + SURE * Math.sqrt(160), `χ² of ${chi} in 80 bins`);
  });

  for (const degrees of [1, 2, 3, 5, 30]) {
    it(`draws of Student's t with ${degrees} degrees of freedom have its shares`, () => {
      const values = drawn((random, out) => random.fillStudent(out, out.length, 4, 0.5, degrees)).map(
        (v) => (v - 4) / 0.5,
      );
      for (const probability of [0.25, 0.5, 0.95, 0.99])
        assertShare(values, coverageFactor(probability, degrees), probability);
      assertEven(values);
    });
  }

  for (const degrees of [1, 2, 7]) {
    it(`draws of χ² with ${degrees} degrees of freedom have its mean and variance`, () => {
      const random = new Random("chi");
      const values = Float64Array.from({ length: DRAWS }, () => random.chiSquared(degrees));
      const mean = values.reduce((sum, value) => sum + value) / DRAWS;
      const variance = values.reduce((sum, value) => sum + (value - mean) ** 2) / DRAWS;
      assert.ok(Math.abs(mean - degrees) < SURE * Math.sqrt((2 * degrees) / DRAWS), `mean ${mean}`);
      const ofVariance = Math.sqrt((8 * degrees ** 2 + 48 * degrees) / DRAWS);
      assert.ok(Math.abs(variance - 2 * degrees) < SURE * ofVariance, `variance ${variance}`);
    });
  }
});

function drawn(fill: (random: Random, out: Float64Array) => void): Float64Array {
  const out = new Float64Array(DRAWS);
  fill(new Random("draws"), out);
  return out;
}

/** So many of the values lie within −k .. k, as far as chance allows. */
function assertShare(values: Float64Array, k: number, probability: number): void {
  const within = values.reduce((count, value) => count + (Math.abs(value) <= k ? 1 : 0), 0);
  const allowed = SURE * Math.sqrt(DRAWS * probability * (1 - probability));
  assert.ok(Math.abs(within - DRAWS * probability) < allowed, `${within / DRAWS} within ± ${k}, not ${probability}`);
}

/** As many above as below. */
function assertEven(values: Float64Array): void {
  const above = values.reduce((count, value) => count + (value > 0 ? 1 : 0), 0);
  assert.ok(Math.abs(above - DRAWS / 2) < SURE * Math.sqrt(DRAWS / 4), `${above} of ${DRAWS} above the middle`);
}

function bitsApart(a: number, b: number): number {
  return (a ^ b).toString(2).replace(/[^1]/g, "").length;
}

import assert from "node:assert/strict";
import fc from "fast-check";
import { CONE_OPERATIONS } from "../../src/engine/coneOperations";
import { KERNELS } from "../../src/engine/kernels";
import { Op } from "../../src/engine/operation";
import { BLOCK, Samples } from "../../src/engine/samples";
import { howMany } from "../howMany";
import { LOOKED_IN } from "./lookupOperands";
import { modelOf } from "./models";

const TRUTHS: ReadonlySet<number> = new Set([Op.And, Op.Or, Op.Not]);
const number = fc.oneof(
  { weight: 3, arbitrary: fc.double({ min: -10, max: 10, noNaN: true }) },
  fc.integer({ min: -3, max: 3 }),
  fc.constantFrom(NaN, 0, 1, 2, 0.5, 1e200, -1e200, 1e-200, 800, 0.1 + 0.2),
);
const truth = fc.constantFrom(0, 1, NaN);

describe("kernels of samples", () => {
  it("exist for every operation on the tape of a cone", () => {
    assert.equal(KERNELS.length, CONE_OPERATIONS.length);
    assert.ok(CONE_OPERATIONS.length > Op.If);
    KERNELS.forEach((kernel, op) => assert.equal(typeof kernel, "function", CONE_OPERATIONS[op].name));
  });

  CONE_OPERATIONS.forEach((operation, op) => {
    it(`${operation.name} agrees with numbers, place by place`, () => {
      const isTruth = (i: number) => TRUTHS.has(op) || (op === Op.If && i === 0);
      const blocks = fc.tuple(
        ...[0, 1, 2].map((i) => {
          const lookedIn = i === 1 ? LOOKED_IN.get(op) : undefined;
          return fc.array(lookedIn ?? (isTruth(i) ? truth : number), { minLength: 8, maxLength: 8 });
        }),
      );
      fc.assert(
        fc.property(blocks, (block) => {
          const memory = Float64Array.from([...block.flat(), ...new Array<number>(9).fill(77)]);
          KERNELS[op](memory, 24, 0, 8, 16, 8);
          for (let i = 0; i < 8; i++) {
            const value = operation.number(block[0][i], block[1][i], block[2][i]);
            const expected = Number.isFinite(value) ? value : NaN;
            const isSame =
              Object.is(memory[24 + i], expected) || Math.abs(memory[24 + i] - expected) <= 4e-16 * Math.abs(expected);
            assert.ok(
              isSame,
              `${operation.name}(${block.map((column) => column[i]).join(", ")}) is ${expected}, not ${memory[24 + i]}`,
            );
          }
          assert.equal(memory[32], 77, "nothing is written beyond the count");
        }),
        { numRuns: howMany(2000) },
      );
    });
  });

  it("compute a cone block by block as numbers do one by one", () => {
    const { cone, place } = modelOf([
      "given a = 2 ± 1",
      "given b = 3 ± 1",
      "y = if a < b then sqrt(a - 1.5) / b else floor(a) - a^2",
    ]);
    const samples = new Samples(cone);
    for (let i = 0; i < BLOCK; i++) {
      samples.inputs[place("a")][i] = 1 + (2 * i) / BLOCK;
      samples.inputs[place("b")][i] = 2 + ((7 * i) % BLOCK) / BLOCK;
    }
    samples.run(BLOCK);
    let undefinedOnes = 0;
    for (let i = 0; i < BLOCK; i++) {
      const a = samples.inputs[place("a")][i];
      const b = samples.inputs[place("b")][i];
      const expected = a < b ? Math.sqrt(a - 1.5) / b : Math.floor(a) - a * a;
      if (Number.isNaN(expected)) undefinedOnes++;
      assert.ok(Object.is(samples.result[i], expected) || Math.abs(samples.result[i] - expected) < 1e-15);
    }
    assert.ok(undefinedOnes > 0 && undefinedOnes < BLOCK);
  });
});

import assert from "node:assert/strict";
import fc from "fast-check";
import { fused } from "../../src/engine/fused";
import { Gradient } from "../../src/engine/gradient";
import { BLOCK, Samples } from "../../src/engine/samples";
import { howMany } from "../howMany";
import { modelOf } from "./models";

const GIVEN = ["given a = 2 ± 1", "given b = 3 ± 1", "given c = 0.5 ± 1"];

/** Formulas that use every native function, and each other. */
const TERMS = [
  "a * b",
  "a / c",
  "a / exp(1000 * b)",
  "exp(-a)",
  "x / (1e300 * a * 1e300)",
  "1 / (1e300 * a * 1e300)",
  "sqrt(x)",
  "abs(x)",
  "ln(x)",
  "log10(a) + log2(b)",
  "sin(x) + cos(a) * tan(b)",
  "asin(c) + acos(c) + atan(x)",
  "sinh(a) + cosh(c) + tanh(x)",
  "x^2",
  "a^b",
  "cbrt(x)",
  "min(x, a)",
  "max(x, 1e308 * b * 10)",
  "if x < a then b else x",
  "if a < b and not (c > 0 or x > 1) then x - b else c",
  "floor(x) + ceil(a, 0.1) + round(b)",
  "sign(c)",
  "mod(a, b)",
  "atan2(a, c)",
  "a || b",
  "x - x",
  "x / x",
  "x * x",
];

describe("samples of a cone", () => {
  it("agree with numbers, generated or not, wherever they overflow or have no value", () => {
    const place = fc.oneof(
      { weight: 4, arbitrary: fc.double({ min: -4, max: 4, noNaN: true }) },
      fc.constantFrom(0, 1, -1, 1e200, -1e300),
    );
    const terms = fc.array(fc.constantFrom(...TERMS), { minLength: 1, maxLength: 6 });
    const [run, undefinedOnes] = [{ count: 0 }, { count: 0 }];
    fc.assert(
      fc.property(terms, fc.array(fc.tuple(place, place, place), { minLength: 1, maxLength: 12 }), (terms, points) => {
        const lines = terms.map((term, i) => `x${i + 1} = x${i} * 0.5 + ${term.replaceAll("x", `x${i}`)}`);
        const { cone } = modelOf([...GIVEN, "x0 = a - c", ...lines.map(keepNames)]);
        const gradient = new Gradient(cone);
        for (const samples of [new Samples(cone, true), new Samples(cone, false)]) {
          points.forEach((point, s) => samples.inputs.forEach((block, i) => (block[s] = point[i])));
          samples.run(points.length);
          points.forEach((point, s) => {
            const expected = gradient.at(point.slice(0, cone.inputs.length));
            run.count++;
            if (Number.isNaN(expected)) undefinedOnes.count++;
            assert.ok(Object.is(samples.result[s] + 0, expected + 0), `${samples.result[s]}, not ${expected}`);
          });
        }
      }),
      { numRuns: howMany(2000) },
    );
    assert.ok(undefinedOnes.count > run.count / 20 && undefinedOnes.count < run.count * 0.9);
  });

  it("have no value behind one that became too large, whatever would make it small again", () => {
    for (const term of [
      "atan(x)",
      "tanh(x)",
      "1 / x",
      "exp(-x)",
      "min(x, 1)",
      "sign(x)",
      "if x > 1 then 1 else 0",
      "x || 1",
    ]) {
      const { cone } = modelOf([...GIVEN, "x = a * 1e300 * 1e300 * b", `y = ${term}`]);
      for (const mayGenerate of [true, false]) {
        const samples = new Samples(cone, mayGenerate);
        samples.inputs.forEach((block) => block.fill(2));
        samples.run(1);
        assert.ok(Number.isNaN(samples.result[0]), `${term} is ${samples.result[0]}`);
      }
    }
  });

  it("of more operations than one function takes go from one to the next", () => {
    const lines = Array.from({ length: 700 }, (_, i) => `x${i + 1} = x${i} * 0.99 + a / (x${i} + b)`);
    const { cone } = modelOf([...GIVEN, "x0 = a + b", ...lines, "y = x700 - x3 * x499 + c"]);
    const memory = new Float64Array(1);
    const places = new Int32Array(cone.inputs.length + cone.constants.length + cone.op.length);
    assert.equal(fused(cone, memory, places)!.length, Math.ceil(cone.op.length / 500));
    assert.ok(cone.op.length > 2500);
    const [generated, kernels] = [new Samples(cone, true), new Samples(cone, false)];
    for (const samples of [generated, kernels]) {
      samples.inputs.forEach((block, i) => block.forEach((_, s) => (block[s] = 1 + i + s / BLOCK)));
      samples.run(BLOCK);
    }
    assert.deepEqual(generated.result, kernels.result);
    const at = (s: number) => new Gradient(cone).at(cone.inputs.map((_input, i) => 1 + i + s / BLOCK));
    for (const s of [0, 77, BLOCK - 1]) assert.equal(generated.result[s], at(s));
  });

  it("keep few blocks in use, so that a long formula stays in the nearest cache", () => {
    const lines = Array.from({ length: 200 }, (_, i) => `x${i + 1} = x${i} * 0.99 + a / (x${i} + b)`);
    const { cone } = modelOf([...GIVEN, "x0 = a + b", ...lines]);
    const bytes = new Samples(cone, false).result.buffer.byteLength;
    assert.ok(bytes <= 10 * BLOCK * 8, `${bytes} bytes`);
  });

  it("do without generated code where it is forbidden, and not where it is wrong", () => {
    const { cone } = modelOf([...GIVEN, "y = a + b"]);
    const original = globalThis.Function;
    const forbid = (error: Error) => {
      globalThis.Function = function () {
        throw error;
      } as unknown as FunctionConstructor;
    };
    try {
      forbid(new EvalError("Code generation from strings disallowed for this context"));
      const samples = new Samples(cone);
      samples.inputs.forEach((block) => block.fill(2));
      samples.run(1);
      assert.equal(samples.result[0], 4);
      forbid(new SyntaxError("Unexpected token"));
      assert.throws(() => new Samples(cone), SyntaxError);
    } finally {
      globalThis.Function = original;
    }
  });
});

/** `exp` and `max` have an x of their own. */
function keepNames(line: string): string {
  return line.replace(/e(x\d+)p\(/g, "exp(").replace(/ma(x\d+)\(/g, "max(");
}

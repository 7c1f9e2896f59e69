import assert from "node:assert/strict";
import fc from "fast-check";
import { all, create, type MathJsInstance } from "mathjs";
import { divide, multiply, power, RATIO, siUnit, type Dimension } from "../../src/quantity/dimension";
import { howMany } from "../howMany";
import { si, unit } from "./reading";

/** One factor of a generated product: a literal as we read it and as mathjs does, and its exponent. */
interface Factor {
  readonly number: string;
  readonly ours: string;
  readonly theirs: string;
  readonly exponent: number;
}

/** Units that both have, and mean the same by: ours, and mathjs's name. */
const COMMON: readonly (readonly [ours: string, theirs: string])[] = [
  ...[
    "m",
    "mm",
    "kg",
    "g",
    "s",
    "ms",
    "A",
    "mA",
    "K",
    "cd",
    "mol",
    "Hz",
    "kHz",
    "N",
    "kPa",
    "J",
    "W",
    "mW",
    "C",
    "V",
    "kV",
  ],
  ...["F", "nF", "S", "Wb", "T", "mH", "h", "L", "mL", "in", "mil", "ft", "oz", "lb", "lbf", "bar", "Ah", "Wh", "VA"],
].map((name) => [name, name] as const);
const RENAMED = [
  ["kΩ", "kohm"],
  ["µA", "uA"],
  // Its `min` is a function where a unit is meant.
  ["min", "minute"],
  ["d", "day"],
  ["ha", "hectare"],
  ["bit", "bit"],
] as const;

/** Few factors: mathjs keeps a list of every unit that went into a product, so long expressions cost it without limit. */
const MAXIMUM_FACTORS = 5;

const factor: fc.Arbitrary<Factor> = fc
  .record({
    digits: fc.integer({ min: 1, max: 9999 }),
    scale: fc.integer({ min: -4, max: 4 }),
    names: fc.constantFrom(...COMMON, ...RENAMED),
    exponent: fc.constantFrom(-2, -1, 1, 2, 0.5, -0.5),
  })
  .map(({ digits, scale, names: [ours, theirs], exponent }) => ({
    number: `${digits}e${scale}`,
    ours,
    theirs,
    exponent,
  }));

describe("our arithmetic and whole mathjs's, on generated products of quantities", () => {
  let math: MathJsInstance;
  before(() => (math = create(all)));

  it("agree on the number in coherent SI and on the dimension", () => {
    fc.assert(
      fc.property(fc.array(factor, { minLength: 1, maxLength: MAXIMUM_FACTORS }), (factors) => {
        const text = factors.map(({ number, theirs, exponent }) => `(${number} ${theirs})^(${exponent})`).join(" * ");
        const theirs: unknown = math.evaluate(text);
        const [value, dimension] = ourProduct(factors);
        if (typeof theirs === "number") {
          assert.equal(dimension, RATIO, text);
          assertClose(value, theirs, text);
        } else {
          const inSi = math.evaluate(`number(x, ${theirSiUnit(dimension)})`, { x: theirs }) as number;
          assertClose(value, inSi, text);
        }
      }),
      { numRuns: howMany(10000) },
    );
  });

  it("agree on which sums are allowed", () => {
    const pair = fc.tuple(
      fc.array(factor, { minLength: 1, maxLength: 3 }),
      fc.array(factor, { minLength: 1, maxLength: 3 }),
    );
    const theirProduct = (factors: readonly Factor[]): string =>
      factors.map(({ number, theirs, exponent }) => `(${number} ${theirs})^(${exponent})`).join(" * ");
    fc.assert(
      fc.property(pair, fc.boolean(), ([left, other], isSame) => {
        const right = isSame ? [...left].reverse() : other;
        const [[a, dimensionA], [b, dimensionB]] = [ourProduct(left), ourProduct(right)];
        const text = `${theirProduct(left)} + ${theirProduct(right)}`;
        if (dimensionA === dimensionB) {
          const sum: unknown = math.evaluate(text);
          const inSi =
            typeof sum === "number"
              ? sum
              : (math.evaluate(`number(x, ${theirSiUnit(dimensionA)})`, { x: sum }) as number);
          assertClose(a + b, inSi, text);
        } else {
          assert.throws(() => math.evaluate(text), text);
        }
      }),
      { numRuns: howMany(4000) },
    );
  });
});

function ourProduct(factors: readonly Factor[]): [value: number, dimension: Dimension] {
  let [value, dimension] = [1, RATIO];
  for (const { number, ours, exponent } of factors) {
    const size = Math.abs(exponent);
    const part = power(unit(ours).dimension, size)!;
    const x = si(`${number} ${ours}`) ** size;
    [value, dimension] = exponent > 0 ? [value * x, multiply(dimension, part)] : [value / x, divide(dimension, part)];
  }
  return [value, dimension];
}

/** Our coherent unit in mathjs's spelling. */
function theirSiUnit(dimension: Dimension): string {
  const [above, below] = siUnit(dimension).split("/");
  const product = (text: string): string =>
    text
      .replace(/[()]/g, "")
      .split("·")
      .map((word) => word.replace(/^√(.*)$/, "$1^0.5").replace("Ω", "ohm"))
      .join(" ");
  if (below === undefined) return product(above);
  return `${above === "1" ? "" : product(above)} ${product(below).replace(/(\S+?)(?:\^(\S+))?(?= |$)/g, (_, name, n = "1") => `${name}^-${n}`)}`;
}

function assertClose(ours: number, theirs: number, text: string): void {
  assert.ok(Math.abs(ours - theirs) <= 1e-12 * Math.abs(theirs), `${text}: ${ours} and ${theirs}`);
}

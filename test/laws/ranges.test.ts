import assert from "node:assert/strict";
import fc from "fast-check";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import type { Extent, QuantityOutcome, RuleOutcome } from "../../src/engine/outcome";
import type { Snapshot } from "../../src/engine/snapshot";
import { howMany } from "../howMany";
import { formula, type Estimate, type Formula, type Point } from "./formulas";
import { plainNote } from "./plain";

/** Some uncertain inputs, and definitions that rest on them and on each other. */
interface Model {
  readonly inputs: readonly { readonly name: string; readonly text: string }[];
  readonly definitions: readonly { readonly name: string; readonly formula: Formula }[];
}

const NAMES = ["x", "y", "z"] as const;
const DEFINED = ["p", "q", "r", "s"] as const;
const EXPRESSIONS_A_NOTE = DEFINED.length;
/** Estimates of rounding are doubled, since the engine may take the operations of a definition in another order. */
const GENEROUS = 2;
/** A range that was searched for is known to this share of its width. */
const SEARCHED_TO = 1e-3;

const digits = fc.integer({ min: -80, max: 80 }).map((n) => n / 8);
const limits = fc.oneof(
  fc.tuple(digits, fc.integer({ min: 0, max: 40 })).map(([low, width]) => `${low} .. ${low + width / 8}`),
  fc
    .tuple(digits, fc.nat(20), fc.nat(20))
    .map(([low, below, above]) => `${low} .. ${low + below / 8} .. ${low + (below + above) / 8}`),
  fc.tuple(digits, fc.constantFrom("1 %", "5 %", "20 %")).map(([x, share]) => `${x} ± ${share}`),
  digits.map(String),
);
const model: fc.Arbitrary<Model> = fc.record({
  inputs: fc.tuple(limits, limits, limits).map((texts) => texts.map((text, i) => ({ name: NAMES[i], text }))),
  definitions: fc
    .tuple(...DEFINED.map((name, i) => formula([...NAMES, ...DEFINED.slice(0, i)]).map((f) => ({ name, formula: f }))))
    .map((definitions) => [...definitions]),
});
const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
  minLength: NAMES.length,
  maxLength: NAMES.length,
});
const howManyNotes = howMany(20000 / EXPRESSIONS_A_NOTE);

describe("ranges", () => {
  it("never leave out a value, and have none where there can be none", () => {
    fc.assert(
      fc.property(model, fc.array(shares, { minLength: 20, maxLength: 20 }), (m, points) => {
        const snapshot = settled(textOf(m));
        const box = boxOf(snapshot, m);
        const all = [box.map(({ nominal }) => nominal), ...cornersOf(box), ...points.map((at) => pointAt(box, at))];
        for (const [place, at] of all.entries()) {
          const values = evaluate(m, at);
          for (const { name } of m.definitions) {
            const extent = extentOf(snapshot, name);
            if (place === 0) isClose(extent.nominal, values.get(name)!, `${name} at nominal`);
            if (isBounded(extent)) isInside(values.get(name)!, extent, name);
          }
        }
      }),
      { numRuns: howManyNotes },
    );
  });

  it("that are attained are the value at the corner that is named", () => {
    let attained = 0;
    fc.assert(
      fc.property(model, (m) => {
        const snapshot = settled(textOf(m));
        const box = boxOf(snapshot, m);
        for (const { name } of m.definitions) {
          const extent = extentOf(snapshot, name);
          if ((extent.standing !== "attained" && !extent.found) || !isBounded(extent)) continue;
          attained++;
          for (const end of ["low", "high"] as const) {
            const at = evaluate(m, cornerOf(box, extent, end)).get(name)!;
            isClose((extent.found ?? extent)[end], at, `${name}, ${end}`);
          }
        }
      }),
      { numRuns: howManyNotes },
    );
    assert.ok(attained > howManyNotes / 2, `Only ${attained} ranges were attained: the test says little.`);
  });

  it("that are attained do not become wider when an input becomes narrower", () => {
    const part = fc.tuple(fc.nat(NAMES.length - 1), fc.nat(8), fc.nat(8));
    fc.assert(
      fc.property(model, part, (m, [which, from, to]) => {
        const wide = settled(textOf(m));
        const { low, high } = boxOf(wide, m)[which];
        const [a, b] = [Math.min(from, to), Math.max(from, to)].map((n) => low + ((high - low) * n) / 8);
        // Written with all digits, so that the narrow input lies within the wide one.
        const inputs = m.inputs.map((input, i) => (i === which ? { ...input, text: `${a} .. ${b}` } : input));
        if (/e/.test(inputs[which].text)) return;
        const narrow = settled(textOf({ ...m, inputs }));
        for (const { name } of m.definitions) {
          const [outer, inner] = [extentOf(wide, name), extentOf(narrow, name)];
          if (outer.standing !== "attained" || inner.standing === "undefined") continue;
          if (outer.found && inner.standing !== "attained") continue;
          const searched = outer.found || inner.found ? 2 * SEARCHED_TO * (outer.high - outer.low) : 0;
          const slack = roundingIn(m, boxOf(wide, m), name) + searched;
          const isWithin = inner.low >= outer.low - slack && inner.high <= outer.high + slack;
          assert.ok(isWithin, `${name}: ${inner.low} .. ${inner.high} is not in ${outer.low} .. ${outer.high}`);
        }
      }),
      { numRuns: howMany(4000) },
    );
  });

  it("are the same figures for the same text", () => {
    fc.assert(
      fc.property(model, (m) => {
        const text = textOf(m);
        const other = new Program(WHOLE_PARTS);
        other.setText("other.calcs.md", "\n    a = 1 ± 2 %\n    b = a * 3\n");
        other.setText("note.calcs.md", text);
        other.settle();
        assert.deepEqual(plainNote(other.snapshot("note.calcs.md")!), plainNote(settled(text)));
      }),
      { numRuns: howMany(1000) },
    );
  });
});

describe("rules", () => {
  it("claim what a grid of points confirms", () => {
    const seen = { holds: 0, failsAtLimits: 0, fails: 0, undecided: 0 };
    const limit = fc.integer({ min: -40, max: 40 }).map((n) => n / 4);
    const relation = fc.constantFrom("<", "<=", ">", ">=");
    fc.assert(
      fc.property(model, relation, limit, fc.boolean(), (m, sign, bound, isShifted) => {
        const text = `${textOf(m)}\n    must s ${sign} ${isShifted ? `p + ${bound}` : `${bound}`}`;
        const snapshot = settled(text);
        const rule = snapshot.rows.at(-1)!.outcome as RuleOutcome;
        const box = boxOf(snapshot, m);
        seen[rule.state]++;
        const verdict = (at: readonly number[]) => {
          const values = evaluate(m, at);
          const [s, p] = [values.get("s")!, isShifted ? values.get("p")! : { value: 0, error: 0 }];
          const margin = s.value - (p.value + bound);
          // What is equal but for rounding proves nothing.
          const size = Math.max(Math.abs(s.value), Math.abs(p.value), Math.abs(bound));
          if (!(Math.abs(margin) > GENEROUS * (s.error + p.error) + 1e-11 * size)) return undefined;
          return sign.startsWith("<") ? margin < 0 : margin > 0;
        };
        const nominal = verdict(box.map((input) => input.nominal));
        if (rule.state === "holds") for (const at of gridOf(box)) assert.notEqual(verdict(at), false, "holds");
        if (rule.state === "fails") assert.notEqual(nominal, true, "fails");
        if (rule.state !== "failsAtLimits") return;
        assert.notEqual(nominal, false, "fails at the limits");
        const worst = sign.startsWith("<") ? "high" : "low";
        assert.notEqual(verdict(cornerOf(box, rule.clauses[0].margin, worst)), true, "fails at the limits");
      }),
      { numRuns: howMany(8000) },
    );
    for (const [state, count] of Object.entries(seen)) assert.ok(count > 0, `No rule was found that ${state}.`);
  });
});

function textOf({ inputs, definitions }: Model): string {
  const lines = [
    ...inputs.map(({ name, text }) => `    assume ${name} = ${text}`),
    ...definitions.map(({ name, formula: f }) => `    ${name} = ${f.text}`),
  ];
  return ["", ...lines].join("\n");
}

function settled(text: string): Snapshot {
  const program = new Program(WHOLE_PARTS);
  program.setText("note.calcs.md", text);
  program.settle();
  return program.snapshot("note.calcs.md")!;
}

function extentOf(snapshot: Snapshot, name: string): Extent {
  const outcome = snapshot.find(name)!.outcome as QuantityOutcome;
  assert.equal(outcome.values.length, 1, `${name} has no value: ${JSON.stringify(outcome.problems)}`);
  return outcome.values[0];
}

interface Input {
  readonly name: string;
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
}

function boxOf(snapshot: Snapshot, { inputs }: Model): readonly Input[] {
  return inputs.map(({ name }) => {
    const { low, nominal, high } = extentOf(snapshot, name);
    return { name, low, nominal, high };
  });
}

function pointAt(box: readonly Input[], at: readonly number[]): number[] {
  return box.map(({ low, high }, i) => Math.min(high, Math.max(low, low + at[i] * (high - low))));
}

function cornersOf(box: readonly Input[]): number[][] {
  return box.reduce<number[][]>(
    (all, { low, high }) =>
      all.flatMap((at) => [
        [...at, low],
        [...at, high],
      ]),
    [[]],
  );
}

function gridOf(box: readonly Input[]): number[][] {
  const STEPS = 6;
  const along = ({ low, high }: Input) =>
    Array.from({ length: STEPS + 1 }, (_, i) => (i === STEPS ? high : low + ((high - low) * i) / STEPS));
  return box.reduce<number[][]>((all, input) => all.flatMap((at) => along(input).map((x) => [...at, x])), [[]]);
}

/** The inputs where they are named for one end of a value; those that are not named do not matter. */
function cornerOf(box: readonly Input[], { pushes, found }: Extent, end: "low" | "high"): number[] {
  const at = found?.[end === "low" ? "atLow" : "atHigh"];
  return box.map((input) => {
    if (at) return at.find(({ input: { name } }) => name === input.name)?.value ?? input.nominal;
    const push = pushes.find(({ input: { name } }) => name === input.name);
    if (!push) return input.nominal;
    return (push.highestAt === "high") === (end === "high") ? input.high : input.low;
  });
}

function evaluate(m: Model, at: readonly number[]): Point {
  const values = new Map<string, Estimate>(m.inputs.map(({ name }, i) => [name, { value: at[i], error: 0 }]));
  for (const { name, formula: f } of m.definitions) values.set(name, f.at(values));
  return values;
}

function isClose(ours: number, { value, error }: Estimate, what: string): void {
  if (error === Infinity) return;
  const isSame = Number.isNaN(value) ? Number.isNaN(ours) : Math.abs(ours - value) <= GENEROUS * error;
  assert.ok(isSame, `${what}: ${ours} and ${value}`);
}

/** Whether a range is claimed; one that is undefined or unbounded is reported as such, with the operation. */
function isBounded({ standing, low, high }: Extent): boolean {
  return standing !== "undefined" && Number.isFinite(low) && Number.isFinite(high);
}

function isInside({ value, error }: Estimate, { low, high }: Extent, what: string): void {
  if (error === Infinity) return;
  const slack = GENEROUS * error;
  assert.ok(value >= low - slack && value <= high + slack, `${what}: ${value} is not in ${low} .. ${high}`);
}

/** The rounding that an end may carry, at whatever corner it is. */
function roundingIn(m: Model, box: readonly Input[], name: string): number {
  return GENEROUS * Math.max(...cornersOf(box).map((at) => evaluate(m, at).get(name)!.error));
}

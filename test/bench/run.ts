/**
 * `npm run bench`: the budgets of the engine, as ratios of two measurements of one run. A machine that is slow today is
 * slow for both. Where a budget is a time, it is set against the reference too: a loop of whole mathjs's `evaluate` over
 * a thousand of the same formulas on plain numbers, in this run. Nothing here fails a build; the table goes to DEVELOPERS.md.
 */
import { all, create } from "mathjs";
import { statSync } from "node:fs";
import { Program } from "../../src/engine/program";
import { Service } from "../../src/service";
import { generate, oneBlock, type GeneratedNote } from "./notes";

const PATH = "bench.calcs.md";
const math = create(all);

interface Measured {
  readonly what: string;
  readonly milliseconds: number;
  /** Against the reference, or against what the row says. */
  readonly ratio: number;
  readonly budget: string;
}

const rows: Measured[] = [];

/** Milliseconds of the reference: mathjs over 1,000 formulas. */
const reference = median(repeat(7, () => evaluateAll(generate("chain", 1000))));

measureScratch();
measureEdits();
measureHover();
measureGrowth();
measureBundle();
print();

/** The whole note from scratch to stage A, against mathjs over the same formulas. */
function measureScratch(): void {
  for (const shape of ["chain", "fan-in", "sections"] as const) {
    const note = generate(shape, 1000);
    const [ours, theirs] = interleaved(
      15,
      () => fromScratch(note.text),
      () => evaluateAll(note),
    );
    rows.push({
      what: `from scratch, 1,000 definitions, ${shape}`,
      milliseconds: ours,
      ratio: ours / theirs,
      budget: "≤ 0.25 × mathjs",
    });
  }
}

/** One digit of one line changed: 95 of 100 edits take no longer. */
function measureEdits(): void {
  for (const [definitions, budget] of [
    [1000, "p95 ≤ 3 ms"],
    [10_000, "p95 ≤ 8 ms"],
  ] as const) {
    for (const shape of ["chain", "fan-in"] as const) {
      const time = percentile(editTimes(generate(shape, definitions), 300), 95);
      rows.push(against(`edit, ${definitions} definitions, ${shape}`, time, budget));
    }
  }
  const everything = percentile(editTimes(generate("sections", 10_000), 60, 0), 95);
  rows.push(against("edit that everything rests on, 10,000 definitions", everything, "≤ 40 ms"));
  rows.push(
    against("edit, 10,000 definitions in one block", percentile(editTimes(oneBlock(10_000), 200), 95), "p95 ≤ 8 ms"),
  );
}

function measureHover(): void {
  const note = generate("chain", 10_000);
  const service = newService();
  service.open(PATH, note.text);
  const offset = note.text.lastIndexOf("q") + 1;
  service.hover(PATH, offset);
  rows.push(
    against("hover, 10,000 definitions", median(repeat(50, () => time(() => service.hover(PATH, offset)))), "≤ 5 ms"),
  );
}

/** The slope of log time over log size, 100 to 10,000 definitions of bounded cones. */
function measureGrowth(): void {
  const sizes = [100, 300, 1000, 3000, 10_000];
  const points = sizes.map((size) => {
    const { text } = generate("chain", size);
    return [Math.log(size), Math.log(median(repeat(size > 1000 ? 7 : 25, () => fromScratch(text))))] as const;
  });
  const [meanX, meanY] = [0, 1].map((axis) => points.reduce((sum, point) => sum + point[axis], 0) / points.length);
  const slope =
    points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0) /
    points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  rows.push({ what: "growth from 100 to 10,000 definitions, slope", milliseconds: NaN, ratio: slope, budget: "≤ 1.1" });
}

function measureBundle(): void {
  const { size } = statSync("dist/extension.js");
  rows.push({ what: "extension bundle, kB", milliseconds: NaN, ratio: size / 1000, budget: "≤ 400 kB" });
}

function newService(): Service {
  const nothing = { read: () => Promise.resolve({ trouble: "missing", detail: "" } as const) };
  return new Service(nothing, { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } });
}

function fromScratch(text: string): number {
  return time(() => {
    const program = new Program();
    program.setText(PATH, text);
    program.settle();
    program.snapshot(PATH);
  });
}

function evaluateAll(note: GeneratedNote): number {
  return time(() => {
    const scope = {};
    for (const formula of note.formulas) math.evaluate(formula, scope);
  });
}

/** Times of edits that each change one digit of a definition's first number; always the same one, if one is named. */
function editTimes(note: GeneratedNote, count: number, always?: number): number[] {
  const program = new Program();
  program.setText(PATH, note.text);
  program.settle();
  program.snapshot(PATH);
  const lines = note.text.split("\n");
  const starts: number[] = [];
  lines.reduce((at, line) => (starts.push(at), at + line.length + 1), 0);
  const WARM_UP = 30;
  const times: number[] = [];
  for (let i = 0; i < count + WARM_UP; i++) {
    const line = note.definitionLines[always ?? (i * 7919) % note.definitionLines.length];
    const column = lines[line].search(/\d\.\d/);
    if (column < 0) continue;
    const digit = String((Number(lines[line][column]) % 9) + 1);
    lines[line] = lines[line].slice(0, column) + digit + lines[line].slice(column + 1);
    const start = starts[line] + column;
    const taken = time(() => {
      program.edit(PATH, { span: { start, end: start + 1 }, text: digit });
      program.settle();
      program.snapshot(PATH);
    });
    if (i >= WARM_UP) times.push(taken);
  }
  return times;
}

function against(what: string, milliseconds: number, budget: string): Measured {
  return { what, milliseconds, ratio: milliseconds / reference, budget };
}

/** Medians of two measurements that take turns, so that both see the same machine. */
function interleaved(times: number, first: () => number, second: () => number): [number, number] {
  const a: number[] = [];
  const b: number[] = [];
  for (let i = 0; i < times; i++) {
    a.push(first());
    b.push(second());
  }
  return [median(a), median(b)];
}

function time(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function repeat(times: number, measure: () => number): number[] {
  return Array.from({ length: times }, measure);
}

function median(values: readonly number[]): number {
  return percentile(values, 50);
}

function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor((sorted.length * share) / 100))];
}

function print(): void {
  console.log(`reference: mathjs over 1,000 formulas, ${reference.toFixed(1)} ms\n`);
  console.log("| work | ms | ratio | budget |\n| --- | ---: | ---: | --- |");
  for (const { what, milliseconds, ratio, budget } of rows)
    console.log(
      `| ${what} | ${Number.isNaN(milliseconds) ? "" : milliseconds.toFixed(2)} | ${ratio.toFixed(3)} | ${budget} |`,
    );
}

/**
 * `npm run bench`: the budgets of the engine, as ratios of two measurements of one run. A machine that is slow today is
 * slow for both. Where a budget is a time, it is set against the reference too: a loop of whole mathjs's `evaluate` over
 * a thousand of the same formulas on plain numbers, in this run. Times are processor time. Nothing here fails a build; the table goes to DEVELOPERS.md.
 */
import { all, create } from "mathjs";
import { execFileSync } from "node:child_process";
import { statSync } from "node:fs";
import { resolve } from "node:path";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { trueRange } from "../../src/engine/trueRange";
import { Service } from "../../src/service";
import { readChapter } from "../handbook/chapters";
import { measureMonteCarlo } from "./monteCarlo";
import { generate, network, oneBlock, oneRange, searched, table, type GeneratedNote, type Shape } from "./notes";
import { time } from "./time";

const PATH = "bench.calcs.md";
const math = create(all);

/** What a definition may spend on an end of its range. */
const BUDGET_OF_ONE = 100_000;

interface Measured {
  readonly what: string;
  readonly milliseconds: number;
  /** Against the reference, or against what the row says. */
  readonly ratio: number;
  readonly budget: string;
}

/** Rounds after which the machine has compiled what it will of both sides. */
const WARM_UP = 60;

const rows: Measured[] = [];

/** Milliseconds of the reference: mathjs over 1,000 formulas, warmed up. */
const reference = median(repeat(2 * WARM_UP, () => evaluateAll(generate("chain", 1000))).slice(WARM_UP));

measureActivation();
measureScratch();
measureEdits();
measureHover();
measureSearches();
measureGrowth();
measureTables();
measureNetworks();
measureHandbook();
measureBundle();
rows.push(...measureMonteCarlo());
print();

/** The bundle loaded, and a note of 300 lines opened and what stands beside its lines asked for, each the first time in a process. */
function measureActivation(): void {
  const load = median(repeat(9, loadBundle));
  const first = median(repeat(9, () => cold("coldNote", "chain", 260, ({ state, beside }) => state + beside)));
  rows.push(against("activation: the extension's first file loaded", load, "together ≤ 100 ms"));
  rows.push(against("activation: 300 lines opened, first values", first, "together ≤ 100 ms"));
}

/**
 * Milliseconds in which a fresh process loads the extension. The editor's interface is one that gives itself for whatever
 * is asked: nothing of it matters before activation.
 */
function loadBundle(): number {
  const script = `
    const Module = require("node:module");
    const anything = new Proxy(class {}, { get: (_, name) => (name === Symbol.toPrimitive ? () => "" : anything), apply: () => anything });
    const load = Module._load;
    Module._load = (request, ...rest) => (request === "vscode" ? Object.create(anything) : load(request, ...rest));
    const start = process.cpuUsage();
    require(${JSON.stringify(resolve("dist/extension.js"))});
    const { user, system } = process.cpuUsage(start);
    console.log((user + system) / 1000);`;
  return Number(execFileSync(process.execPath, ["-e", script], { encoding: "utf8" }));
}

/**
 * The whole note from scratch to stage A, against mathjs over the same formulas: as the first work of a process, its code
 * loaded, and in one where both have run many times.
 */
function measureScratch(): void {
  const add = (what: string, milliseconds: number, theirs: number) =>
    rows.push({ what, milliseconds, ratio: milliseconds / theirs, budget: "≤ 0.25 × mathjs" });
  for (const shape of ["chain", "fan-in", "sections"] as const) {
    const note = generate(shape, 1000);
    const [first, theirFirst] = interleaved(
      9,
      () => cold("coldNote", shape, 1000, ({ state }) => state),
      () => cold("coldMathjs", shape, 1000, ({ state }) => state),
    );
    const [warm, theirWarm] = interleaved(
      60,
      () => fromScratch(note.text),
      () => evaluateAll(note),
      WARM_UP,
    );
    add(`from scratch, 1,000 definitions, ${shape}, warmed up`, warm, theirWarm);
    add("… as the first work of a process", first, theirFirst);
  }
}

/** What a process of its own measured of its first work. */
function cold<T>(script: string, shape: Shape, count: number, pick: (measured: Cold) => T): T {
  const path = resolve(__dirname, `${script}.js`);
  const printed = execFileSync(process.execPath, [path, shape, String(count)], { encoding: "utf8" });
  return pick(JSON.parse(printed) as Cold);
}

interface Cold {
  readonly state: number;
  readonly beside: number;
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
    const time = percentile(editTimes(searched(definitions), 300), 95);
    rows.push(against(`edit, ${definitions} definitions, ranges to be searched pending`, time, budget));
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
  const digit = note.text.lastIndexOf(".") - 1;
  const first: number[] = [];
  const again: number[] = [];
  for (let i = 0; i < 60; i++) {
    service.edit(PATH, [{ span: { start: digit, end: digit + 1 }, text: String((i % 9) + 1) }]);
    service.snapshot(PATH);
    first.push(time(() => service.hover(PATH, offset)));
    again.push(time(() => service.hover(PATH, offset)));
  }
  rows.push(against("hover, 10,000 definitions, the first after an edit", median(first), "≤ 5 ms"));
  rows.push(against("hover, 10,000 definitions, the next", median(again), "≤ 5 ms"));
}

/** What stage A leaves to be searched. */
function measureSearches(): void {
  const { text } = searched(1000);
  const all = median(
    repeat(7, () => {
      const program = new Program(WHOLE_PARTS);
      program.setText(PATH, text);
      program.update();
      return time(() => program.settle());
    }),
  );
  rows.push(against("all ranges settled, 1,000 definitions, cones ≤ 50", all, "≤ 500 ms"));
  const one = median(
    Array.from({ length: 25 }, (_, seed) => {
      const program = new Program(WHOLE_PARTS);
      program.setText(PATH, oneRange(seed + 1));
      program.settle();
      const entry = [...program.notes.get(PATH)!.entries()].at(-1)!;
      return time(() => trueRange(program, entry, 0, { budget: BUDGET_OF_ONE }));
    }),
  );
  rows.push(against("one range asked for, cone ≤ 400, 20 inputs", one, "median ≤ 5 ms"));
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

/** A long parts list from scratch, and with one digit of one cell changed. */
function measureTables(): void {
  const note = table(5000);
  const scratch = median(repeat(9, () => fromScratch(note.text)));
  rows.push(against("from scratch, a table of 5,000 rows with four computed columns", scratch, ""));
  const edits = percentile(editTimes(note, 60), 95);
  rows.push(against("edit of a cell in it", edits, "p95 ≤ 40 ms"));
}

/** A network with all its ranges, against the nodal matrix alone, sparse and in plain numbers, solved once by mathjs. */
function measureNetworks(): void {
  const BRANCHES = 2000;
  const note = network(BRANCHES);
  const [ours, theirs] = interleaved(
    7,
    () => fromScratch(note.text),
    () => solveNodes(BRANCHES / 2),
  );
  rows.push({
    what: "from scratch, a network of 2,000 branches",
    milliseconds: ours,
    ratio: ours / theirs,
    budget: "≤ 15 × mathjs's sparse solution of its voltages",
  });
  rows.push(against("edit of a resistance in it", percentile(editTimes(note, 60), 95), "ratio ≤ 6"));
}

/** Milliseconds of the nodal analysis of the same ring: its matrix made and solved. */
function solveNodes(nodes: number): number {
  return time(() => {
    const matrix = math.sparse();
    matrix.resize([nodes, nodes]);
    for (let i = 0; i < nodes; i++) {
      const next = (i + 1) % nodes;
      const last = (i + nodes - 1) % nodes;
      const entries = [
        [i, 2 / 1.5e-3 + (i === 0 ? 1 / 20.5e-3 : 0)] as const,
        [next, -1 / 1.5e-3] as const,
        [last, -1 / 1.5e-3] as const,
      ];
      for (const [j, value] of entries) matrix.set([i, j], value);
    }
    const currents = Array.from({ length: nodes }, (_, i) => [-1.2e-3 + (i === 0 ? 24 / 20.5e-3 : 0)]);
    math.lusolve(matrix, currents);
  });
}

/** What the handbook adds to the start: chapters are read when a note first mentions one, and the others never. */
function measureHandbook(): void {
  const start = (text: string): number => {
    let read = 0;
    const milliseconds = median(
      repeat(9, () =>
        time(() => {
          const program = new Program(WHOLE_PARTS);
          program.setText(PATH, text);
          program.update();
          for (let wanted = program.wanted(); wanted.length > 0; wanted = program.wanted()) {
            for (const path of wanted) program.provide(path, readChapter(path)!);
            program.update();
          }
          read = program.notes.size - 1;
        }),
      ),
    );
    rows.push(against(`start of a note of three lines, chapters read: ${read}`, milliseconds, ""));
    return milliseconds;
  };
  start("    a = 2 V\n    b = 3 * a\n    c = a + b\n");
  start("    a = db.field_ratio(20)\n    b = 3 * a\n    c = a + b\n");
}

function measureBundle(): void {
  for (const [file, budget] of [
    ["extension.js", "≤ 400 kB"],
    ["extension.answers.js", ""],
  ]) {
    const { size } = statSync(`dist/${file}`);
    rows.push({ what: `dist/${file}, kB`, milliseconds: NaN, ratio: size / 1000, budget });
  }
}

function newService(): Service {
  const nothing = { read: () => Promise.resolve({ trouble: "missing", detail: "" } as const) };
  return new Service(nothing, { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } });
}

function fromScratch(text: string): number {
  return time(() => {
    const program = new Program(WHOLE_PARTS);
    program.setText(PATH, text);
    program.update();
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
  const program = new Program(WHOLE_PARTS);
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
      program.update();
      program.snapshot(PATH);
    });
    program.settle();
    if (i >= WARM_UP) times.push(taken);
  }
  return times;
}

function against(what: string, milliseconds: number, budget: string): Measured {
  return { what, milliseconds, ratio: milliseconds / reference, budget };
}

/** Medians of two measurements that take turns, so that both see the same machine; the first rounds may not count. */
function interleaved(times: number, first: () => number, second: () => number, warmUp = 0): [number, number] {
  const a: number[] = [];
  const b: number[] = [];
  for (let i = 0; i < times + warmUp; i++) {
    a.push(first());
    b.push(second());
  }
  return [median(a.slice(warmUp)), median(b.slice(warmUp))];
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

/** Generated notes for the benchmark. Every shape has a seed, so that two runs measure the same text. */

export type Shape = "chain" | "fan-in" | "sections";

/** A pseudo-random sequence in [0, 1): mulberry32, good enough to vary numbers. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A note as lines of Markdown: headings and calculation lines, twenty to a section. */
export interface GeneratedNote {
  readonly text: string;
  /** Formulas on plain numbers, in order, as the reference evaluates them: `name = expression`. */
  readonly formulas: readonly string[];
  /** Lines (from 0) of definitions, for edits. */
  readonly definitionLines: readonly number[];
}

const PER_SECTION = 20;

/**
 * `chain`: sections of twenty in which each line uses the one above; `fan-in`: each line sums a few inputs, and a total
 * gathers each section; `sections`: every section takes the result of the one before.
 * Every tenth definition is an uncertain input, so cones stay below about 50 but in `sections`, where all depends on all.
 */
export function generate(shape: Shape, definitions: number, seed = 1): GeneratedNote {
  const next = random(seed);
  const lines: string[] = ["# Generated", ""];
  const formulas: string[] = [];
  const definitionLines: number[] = [];
  const number = () => (1 + 9 * next()).toFixed(2);
  const define = (name: string, formula: string, note = formula) => {
    definitionLines.push(lines.length);
    lines.push(`    ${name} = ${note}`);
    formulas.push(`${name} = ${formula}`);
  };
  for (let i = 0; i < definitions; i++) {
    const k = i % PER_SECTION;
    if (k === 0) lines.push("", `## Section ${i / PER_SECTION}`, "");
    const name = `q${i}`;
    const before = `q${i - 1}`;
    const start = i - k;
    if (k === 0) {
      const value = number();
      const feeds = shape === "sections" && i > 0 ? ` + ${before} / 100` : "";
      define(name, `${value}${feeds}`, `${value} V ± 5 %${feeds}`);
    } else if (k === 10) {
      const value = number();
      define(name, value, `${value} V ± 2 %`);
    } else if (shape === "fan-in") {
      const a = start + Math.floor(next() * k);
      const b = start + Math.floor(next() * k);
      define(name, `q${a} * ${number()} + q${b}`);
    } else {
      define(name, next() < 0.5 ? `${before} * ${number()} / ${number()}` : `(${before} + q${start}) / ${number()}`);
    }
  }
  return { text: lines.join("\n") + "\n", formulas, definitionLines };
}

/**
 * Sections of ten in which each line divides by a sum of itself and of the section's two inputs, so that its range has to
 * be searched: every input comes in by several ways. Cones stay below 50 operations.
 */
export function searched(definitions: number, seed = 1): GeneratedNote {
  const next = random(seed);
  const lines: string[] = ["# Searched", ""];
  const formulas: string[] = [];
  const definitionLines: number[] = [];
  const number = () => (1 + 9 * next()).toFixed(2);
  for (let i = 0; i < definitions; i++) {
    const k = i % 10;
    if (k === 0) lines.push("", `## Section ${i / 10}`, "");
    const [a, b, before] = [`q${i - k}`, `q${i - k + 1}`, `q${i - 1}`];
    const value = number();
    const formula = k < 2 ? value : `${before} * ${a} / (${before} + ${b} * ${value})`;
    definitionLines.push(lines.length);
    lines.push(`    q${i} = ${formula}${k < 2 ? " ± 5 %" : ""}`);
    formulas.push(`q${i} = ${formula}`);
  }
  return { text: lines.join("\n") + "\n", formulas, definitionLines };
}

/**
 * One range over twenty inputs, by way of a hundred lines and some three hundred operations as sheets have them: dividers,
 * resistors in parallel, sums and differences of what stands above. The last line is the range to be asked for.
 */
export function oneRange(seed: number): string {
  const INPUTS = 20;
  const STEPS = 100;
  const next = random(seed);
  const lines = Array.from({ length: INPUTS }, (_, i) => `    x${i} = ${(1 + 9 * next()).toFixed(2)} ± 5 %`);
  for (let i = INPUTS; i < INPUTS + STEPS; i++) {
    const [a, b, c] = [0, 1, 2].map(() => `x${Math.floor(next() * i)}`);
    const kind = next();
    const divider = `${a} * ${b} / (${b} + ${c})`;
    lines.push(`    x${i} = ${kind < 0.4 ? divider : kind < 0.7 ? `${a} || ${b}` : `${a} + ${b} - ${c} / 4`}`);
  }
  const ends = Array.from({ length: 8 }, (_, i) => `x${INPUTS + STEPS - 1 - i}`);
  return `# One range\n\n${lines.join("\n")}\n    last = ${ends.join(" + ")}\n`;
}

/** The same as a chain, with neither headings nor blank lines between: one calculation block. */
export function oneBlock(definitions: number): GeneratedNote {
  const { text, formulas } = generate("chain", definitions);
  const lines = text.split("\n").filter((line) => line.startsWith("    "));
  return { text: `# One block\n\n${lines.join("\n")}\n`, formulas, definitionLines: lines.map((_, i) => i + 2) };
}

/** A parts list of so many rows with four computed columns, one of them uncertain, and their totals. */
export function table(rows: number, seed = 1): GeneratedNote {
  const next = random(seed);
  const lines = [
    "# Table",
    "",
    "    cost = sum(parts.total)",
    "    mass = sum(parts.all)",
    "",
    "| parts: | qty | price | mass [g] | total = qty * price | all = qty * mass | share = total / (1 EUR) | heavy = all > 30 g |",
    "| ------ | --: | ----: | -------: | ------------------: | ---------------: | ----------------------: | -----------------: |",
  ];
  const definitionLines: number[] = [];
  for (let i = 0; i < rows; i++) {
    const [qty, price, mass] = [1 + 8 * next(), 1 + next(), 1 + 8 * next()].map((x) => x.toFixed(1));
    definitionLines.push(lines.length);
    lines.push(`| r${i} | ${qty} | ${price} EUR | ${mass} ± 2 % | | | | |`);
  }
  return { text: lines.join("\n") + "\n", formulas: [], definitionLines };
}

/** A ring of boards, each joined to the next and drawing a current: a network of so many branches, its joints uncertain. */
export function network(branches: number): GeneratedNote {
  const boards = branches / 2;
  const rows = Array.from({ length: boards }, (_, i) => [
    `| J${i} | N${i} | N${(i + 1) % boards} | 1.5 mΩ ± 30 % | | |`,
    `| B${i} | N${(i + 1) % boards} | 0V | | | 1.2 mA |`,
  ]).flat();
  const lines = [
    "# Network",
    "",
    "    lowest = min(net.supply)",
    "",
    "| net: | from | to | R | V | I |",
    "| --- | --- | --- | --- | --- | --- |",
    "| adapter | 0V | N0 | 20.5 mΩ | 24 V ± 5 % | |",
    ...rows,
  ];
  const definitionLines = lines.flatMap((line, i) => (line.startsWith("| J") ? [i] : []));
  return { text: `${lines.join("\n")}\n`, formulas: [], definitionLines };
}

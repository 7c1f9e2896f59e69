import assert from "node:assert/strict";
import fc from "fast-check";
import { all, create } from "mathjs";
import type { ColumnOutcome, Extent } from "../../src/engine/outcome";
import { howMany } from "../howMany";
import { openNotes } from "../notation";

const math = create(all);

/** A branch as a test knows it; node 0 is the reference. */
interface Part {
  readonly from: number;
  readonly to: number;
  readonly resistance?: number;
  readonly source?: number;
  readonly load?: number;
}

interface Circuit {
  readonly nodes: number;
  readonly parts: readonly Part[];
}

/** What is known of a circuit: node voltages, and the current through each branch. */
interface Solved {
  /** What could flow: a current that is nothing is known no better than this allows. */
  readonly largestCurrent: number;
  readonly voltages: readonly number[];
  readonly currents: readonly number[];
}

/** Values over several powers of ten, in few digits, so that the note and the test mean the same number. */
const ohms = fc
  .tuple(fc.integer({ min: 1, max: 99 }), fc.integer({ min: -2, max: 2 }))
  .map(([x, e]) => digits(x * 10 ** e));
const volts = fc.integer({ min: -240, max: 240 }).map((x) => digits(x / 10));
const amperes = fc.integer({ min: -50, max: 50 }).map((x) => digits(x / 10));

function digits(x: number): number {
  return Number(x.toPrecision(4));
}

/** A tree of resistances, or sources, to the reference, so that every node has a voltage; then any further branches. */
const circuit: fc.Arbitrary<Circuit> = fc
  .record({
    tree: fc.array(fc.record({ parent: fc.nat(), resistance: ohms, source: fc.option(volts), isIdeal: fc.boolean() }), {
      minLength: 1,
      maxLength: 9,
    }),
    more: fc.array(
      fc.record({ a: fc.nat(), b: fc.nat(), resistance: ohms, source: fc.option(volts), load: fc.option(amperes) }),
      { maxLength: 12 },
    ),
  })
  .map(({ tree, more }) => {
    const nodes = tree.length + 1;
    const parts: Part[] = tree.map(({ parent, resistance, source, isIdeal }, i) => ({
      from: parent % (i + 1),
      to: i + 1,
      ...(source !== null && isIdeal ? { source } : { resistance, ...(source === null ? {} : { source }) }),
    }));
    for (const { a, b, resistance, source, load } of more) {
      const [from, to] = [a % nodes, b % nodes];
      if (from === to) continue;
      if (load !== null) parts.push({ from, to, load });
      else parts.push({ from, to, resistance, ...(source === null ? {} : { source }) });
    }
    return { nodes, parts };
  });

const nodeName = (node: number) => (node === 0 ? "0V" : `N${node}`);

function noteOf(
  { parts }: Circuit,
  statements: readonly string[] = [],
  value = (x: number, unit: string) => `${x} ${unit}`,
): string {
  const cell = (x: number | undefined, unit: string) => (x === undefined ? "" : value(x, unit));
  const rows = parts.map(
    ({ from, to, resistance, source, load }, i) =>
      `| b${i} | ${nodeName(from)} | ${nodeName(to)} | ${cell(resistance, "Ω")} | ${cell(source, "V")} | ${cell(load, "A")} |`,
  );
  const head = ["| net: | from | to | resistance | source | load |", "| - | - | - | - | - | - |"];
  return [...statements.map((line) => `    ${line}`), "", ...head, ...rows, ""].join("\n");
}

/** Modified nodal analysis with dense matrices: nodes and sources without resistance are unknown. */
function byMatrix({ nodes, parts }: Circuit): Solved {
  const ideal = parts.flatMap(({ source, resistance }, i) =>
    source !== undefined && resistance === undefined ? [i] : [],
  );
  const size = nodes - 1 + ideal.length;
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const right = new Array<number>(size).fill(0);
  const add = (row: number, column: number, x: number) => {
    if (row >= 0 && column >= 0) matrix[row][column] += x;
  };
  parts.forEach(({ from, to, resistance, source = 0, load }, i) => {
    const [a, b] = [from - 1, to - 1];
    if (load !== undefined) {
      if (a >= 0) right[a] -= load;
      if (b >= 0) right[b] += load;
    } else if (resistance === undefined) {
      const k = nodes - 1 + ideal.indexOf(i);
      add(a, k, 1);
      add(b, k, -1);
      add(k, b, 1);
      add(k, a, -1);
      right[k] = source;
    } else {
      add(a, a, 1 / resistance);
      add(b, b, 1 / resistance);
      add(a, b, -1 / resistance);
      add(b, a, -1 / resistance);
      if (a >= 0) right[a] -= source / resistance;
      if (b >= 0) right[b] += source / resistance;
    }
  });
  const x = (math.lusolve(matrix, right) as number[][]).map(([value]) => value);
  const voltages = [0, ...x.slice(0, nodes - 1)];
  const currents = parts.map(({ from, to, resistance, source = 0, load }, i) =>
    load !== undefined
      ? load
      : resistance === undefined
        ? x[nodes - 1 + ideal.indexOf(i)]
        : (voltages[from] - voltages[to] + source) / resistance,
  );
  const possible = parts.map(
    ({ resistance = Infinity, source = 0 }) => (greatest(voltages) + Math.abs(source)) / resistance,
  );
  return { voltages, currents, largestCurrent: Math.max(greatest(currents), ...possible) };
}

function columns(note: string): (name: string) => ColumnOutcome {
  const notes = openNotes(note);
  return (name) => {
    const outcome = notes.snapshot().find(`net.${name}`)?.outcome;
    assert.ok(outcome?.kind === "column", `${name}: ${outcome?.kind}`);
    return outcome;
  };
}

/** The voltages that a note gives, by the number of the node. */
function voltagesOf(column: ColumnOutcome, nodes: number): readonly (Extent | undefined)[] {
  return Array.from({ length: nodes }, (_, node) => column.values[column.names!.indexOf(nodeName(node))]);
}

/** Differences are small beside the largest voltage or current of the circuit, whose noise both ways of solving have. */
function close(actual: number, expected: number, largest: number, what: string): void {
  assert.ok(Math.abs(actual - expected) <= 1e-9 * Math.max(largest, 1e-3), `${what}: ${actual}, not ${expected}`);
}

const greatest = (values: readonly number[]) => Math.max(...values.map(Math.abs));

describe("a network of resistances, sources and loads", () => {
  it("has the voltages and currents that a dense matrix gives", () => {
    fc.assert(
      fc.property(circuit, (each) => {
        const expected = byMatrix(each);
        const column = columns(noteOf(each));
        voltagesOf(column("voltage"), each.nodes).forEach((extent, node) => {
          if (extent) close(extent.nominal, expected.voltages[node], greatest(expected.voltages), nodeName(node));
        });
        const [currents, drops, power] = ["current", "drop", "power"].map((name) => column(name).values);
        each.parts.forEach(({ from, to }, i) => {
          const drop = expected.voltages[from] - expected.voltages[to];
          close(currents[i].nominal, expected.currents[i], expected.largestCurrent, `current of b${i}`);
          close(drops[i].nominal, drop, greatest(expected.voltages), `drop of b${i}`);
          const largest = greatest(expected.voltages) * expected.largestCurrent;
          close(power[i].nominal, drop * expected.currents[i], largest, `power of b${i}`);
        });
      }),
      { numRuns: howMany(2000) },
    );
  });

  it("has as much current to every node as from it, and as much power taken as given", () => {
    fc.assert(
      fc.property(circuit, (each) => {
        const column = columns(noteOf(each));
        const currents = column("current").values.map(({ nominal }) => nominal);
        const sums = new Array<number>(each.nodes).fill(0);
        each.parts.forEach(({ from, to }, i) => {
          sums[from] -= currents[i];
          sums[to] += currents[i];
        });
        sums.forEach((sum, node) => close(sum, 0, greatest(currents), nodeName(node)));
        const power = column("power").values.map(({ nominal }) => nominal);
        close(
          power.reduce((a, b) => a + b, 0),
          0,
          greatest(power),
          "power",
        );
        each.parts.forEach(({ resistance = 0 }, i) => {
          const loss = column("loss").values[i].nominal;
          close(loss, resistance * currents[i] ** 2, Math.max(...power.map(Math.abs), loss), `loss of b${i}`);
        });
      }),
      { numRuns: howMany(1000) },
    );
  });

  it("has the voltages and loads that a dense matrix gives, for each resistance that opens", () => {
    let compared = 0;
    fc.assert(
      fc.property(circuit, (each) => {
        const opened = each.parts.flatMap(({ resistance, source }, i) =>
          resistance !== undefined && source === undefined ? [i] : [],
        );
        if (opened.length === 0) return;
        const nodes = Array.from({ length: each.nodes - 1 }, (_, i) => i + 1);
        const loads = each.parts.flatMap(({ load }, i) => (load === undefined ? [] : [i]));
        const note = noteOf(each, [
          ...nodes.map((node) => `v${node} = with_open(net.N${node}.voltage)`),
          ...loads.map((i) => `i${i} = with_open(net.b${i}.current)`),
        ]);
        const snapshot = openNotes(note).snapshot();
        opened.forEach((open, place) => {
          const expected = byMatrix(withOpen(each, open));
          const compare = (name: string, value: number, largest: number) => {
            const outcome = snapshot.find(name)?.outcome;
            assert.ok(outcome?.kind === "quantity");
            close(outcome.values[place].nominal, value, largest, `${name}, b${open} open`);
            compared++;
          };
          for (const node of nodes) compare(`v${node}`, expected.voltages[node], greatest(expected.voltages));
          for (const i of loads) compare(`i${i}`, expected.currents[i], expected.largestCurrent);
        });
      }),
      { numRuns: howMany(1000) },
    );
    assert.ok(compared > 0);
  });

  it("has ranges that leave out nothing that occurs", () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 22, maxLength: 22 });
    fc.assert(
      fc.property(circuit, shares, (each, places) => {
        const column = columns(noteOf(each, [], (x, unit) => `${x} ${unit} ± 20 %`));
        const points = [
          places.map(Math.round),
          places.map((share) => 1 - Math.round(share)),
          places,
          places.map(() => 0.5),
        ];
        for (const point of points) {
          const value = (x: number, i: number) => x * (0.8 + 0.4 * point[i % 22]);
          const parts = each.parts.map((part, i) => ({
            ...part,
            ...(part.resistance === undefined ? {} : { resistance: value(part.resistance, 2 * i) }),
            ...(part.source === undefined ? {} : { source: value(part.source, 2 * i + 1) }),
            ...(part.load === undefined ? {} : { load: value(part.load, 2 * i + 1) }),
          }));
          const { voltages, currents, largestCurrent } = byMatrix({ nodes: each.nodes, parts });
          voltagesOf(column("voltage"), each.nodes).forEach((extent, node) => {
            if (extent) inside(voltages[node], extent, greatest(voltages), nodeName(node));
          });
          column("current").values.forEach((extent, i) =>
            inside(currents[i], extent, largestCurrent, `current of b${i}`),
          );
        }
      }),
      { numRuns: howMany(100) },
    );
  });
});

/**
 * A circuit with one resistance open. What has no way to the reference any more is at its voltage, and takes no part. Loads
 * whose last source is lost draw nothing.
 */
function withOpen(each: Circuit, open: number): Circuit {
  const left = each.parts.map((part, i) => (i === open ? NO_BRANCH : part));
  const reached = ledTo(left, new Set([0]), (node) => node < each.nodes);
  const alone = Array.from({ length: each.nodes }, (_, node) => node).filter((node) => !reached.has(node));
  const parts = left.map((part) => (reached.has(part.from) && reached.has(part.to) ? part : NO_BRANCH));
  const grounds = alone.map((node): Part => ({ from: 0, to: node, resistance: 1 }));
  const [before, now] = [each, { nodes: each.nodes, parts: [...parts, ...grounds] }].map(unloaded);
  const isLost = ({ from, to, load }: Part) => load !== undefined && before(from, to) && !now(from, to);
  return { nodes: each.nodes, parts: [...parts.map((part) => (isLost(part) ? NO_BRANCH : part)), ...grounds] };
}

const NO_BRANCH: Part = { from: 0, to: 0, load: 0 };

/** Whether there is a voltage between two nodes while nothing is drawn, at values of which none is balanced by others. */
function unloaded({ nodes, parts }: Circuit): (from: number, to: number) => boolean {
  const value = (i: number) => 1 + (((i + 1) * 0.6180339887) % 1);
  const { voltages } = byMatrix({
    nodes,
    parts: parts.map(({ from, to, resistance, source, load }, i) => ({
      from,
      to,
      ...(resistance === undefined ? {} : { resistance: value(i) }),
      ...(source === undefined ? {} : { source: value(3 * i + 1) }),
      ...(load === undefined ? {} : { load: 0 }),
    })),
  });
  return (from, to) => Math.abs(voltages[from] - voltages[to]) > 1e-9;
}

/** Where resistances and sources lead from some nodes. */
function ledTo(parts: readonly Part[], reached: Set<number>, isMeant: (node: number) => boolean): ReadonlySet<number> {
  for (let size = -1; size < reached.size;) {
    size = reached.size;
    for (const { from, to, load } of parts) {
      if (load !== undefined) continue;
      if (reached.has(from) && isMeant(to)) reached.add(to);
      if (reached.has(to) && isMeant(from)) reached.add(from);
    }
  }
  return reached;
}

/** Inside a range, but for the noise of the matrix. */
function inside(value: number, { low, high }: Extent, largest: number, what: string): void {
  const noise = 1e-9 * Math.max(largest, 1e-3);
  assert.ok(value >= low - noise && value <= high + noise, `${what}: ${value} is not in ${low} .. ${high}`);
}

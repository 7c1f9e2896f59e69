import { blocksOf, eliminationOrder, type NetworkBlock } from "./networkGraph";
import { NOTHING, type NetworkTerms, type Term } from "./networkTerms";
import { Op } from "./operation";

/** A resistance between two vertices. Operands of the tape, in S and Ω. */
interface Part {
  readonly conductance: number;
  readonly resistance: number;
}

/** All that lies between two vertices: resistances, and what eliminated vertices left there. */
interface Edge {
  readonly parts: Part[];
  /** Conductance that stands for eliminated vertices. */
  fill?: number;
  /** From the vertex of the lower number to the other, once known. */
  current?: Term;
  drop?: Term;
}

/** A vertex as it was when it was eliminated. */
interface Eliminated {
  readonly vertex: number;
  readonly neighbours: readonly number[];
  /** Conductances to the neighbours, and of each the share of what flows in; none where it is alone. */
  readonly conductances: readonly number[];
  readonly shares: readonly (() => number)[];
  readonly injected: Term;
}

/**
 * Nodal analysis of resistances between vertices, some of which are terminals of known voltage, with currents that are
 * injected: the elimination of one vertex after the other, and the way back.
 *
 * A vertex k with the conductances gᵢ to its neighbours and the current J is replaced by conductances gᵢgⱼ/Σg between them,
 * and J by its shares gᵢ/Σg (the star-mesh transformation; A. Rosen, J. IEE 62 (1924) 916). Unlike the elimination of a
 * matrix it never subtracts, so that in intervals each conductance stays positive and nothing is divided by what could be zero.
 * On the way back the current from k to i is wᵢJ − Σⱼ(gᵢgⱼ/Σg)(Uᵢ − Uⱼ), and the voltage between them J/Σg − Σⱼwⱼ(Uᵢ − Uⱼ):
 * voltages between neighbours are known by then, so that small ones are not found as differences of large ones. Derivatives
 * come from the sweep back over these operations, which is the transposed solution.
 */
export class Elimination {
  private readonly edges: Map<number, Edge>[] = [];
  private readonly terminals: Term[] = [];
  private readonly terminalNumbers = new Map<string, number>();
  private readonly injections: Term[] = [];
  private islandNumbers?: readonly number[];
  private bases: readonly Term[] = [];
  private readonly steps: Eliminated[] = [];
  private readonly voltages: Term[] = [];

  constructor(private readonly terms: NetworkTerms) {}

  /** All vertices are added before the first terminal. */
  addVertex(): number {
    this.injections.push(NOTHING);
    return this.edges.push(new Map()) - 1;
  }

  /** The vertex that stands for what has this voltage. */
  terminal(voltage: Term): number {
    const key = voltage ? `${voltage.at} ${voltage.isNegative}` : "";
    let number = this.terminalNumbers.get(key);
    if (number === undefined) {
      number = this.edges.length + this.terminals.push(voltage) - 1;
      this.terminalNumbers.set(key, number);
    }
    return number;
  }

  /** Whether the resistance has a part in the elimination: it lies between two vertices of which one is not known. */
  addEdge(a: number, b: number, part: Part): boolean {
    if (a === b || (this.isTerminal(a) && this.isTerminal(b))) return false;
    this.edge(a, b).parts.push(part);
    return true;
  }

  /** Adds a current that flows into a vertex. */
  inject(vertex: number, current: Term): void {
    if (this.isTerminal(vertex)) return;
    this.injections[vertex] = this.terms.plus(this.injections[vertex], current);
  }

  islandOf(vertex: number): number {
    return this.islandNumbers![vertex] ?? -1;
  }

  /** The islands of vertices that hang together by resistances, once all are there: the voltages of the terminals that each reaches. */
  islands(): readonly (readonly Term[])[] {
    const { edges } = this;
    const numbers = new Array<number>(edges.length).fill(-1);
    const islands: (readonly Term[])[] = [];
    for (let start = 0; start < edges.length; start++) {
      if (numbers[start] >= 0) continue;
      const terminals = new Set<number>();
      const members = [start];
      numbers[start] = islands.length;
      for (const vertex of members) {
        for (const other of edges[vertex].keys()) {
          if (this.isTerminal(other)) terminals.add(other);
          else if (numbers[other] < 0) {
            numbers[other] = islands.length;
            members.push(other);
          }
        }
      }
      islands.push([...terminals].map((terminal) => this.voltageOf(terminal)));
    }
    this.islandNumbers = numbers;
    return islands;
  }

  /** The voltage of each island from which those of its vertices are to count. */
  setBases(bases: readonly Term[]): void {
    this.bases = bases;
  }

  /**
   * Works out all voltages, or those of some vertices, which are then eliminated last.
   * @returns whether that takes less than `most` operations; nothing is worked out if it takes more
   */
  eliminate(wanted: ReadonlySet<number> | undefined, most: number): boolean {
    const neighbours = this.edges.map((edges) => new Set(edges.keys()));
    const blocks = blocksOf(neighbours).map((block) => ({ ...block, ...orderIn(block, neighbours, wanted) }));
    if (blocks.reduce((sum, { operations }) => sum + operations, 0) > most) return false;
    for (const { top, vertices, order } of blocks) {
      // All that a block draws comes by its top: that is exact, and the shares of each of its currents are not.
      if (top !== undefined) for (const vertex of vertices) this.inject(top, this.injections[vertex]);
      for (const vertex of order) this.takeOut(vertex, top);
    }
    const isNeeded = this.edges.map((_, vertex) => !wanted || wanted.has(vertex));
    for (const { vertex, neighbours: around } of this.steps)
      if (isNeeded[vertex]) for (const other of around) if (!this.isTerminal(other)) isNeeded[other] = true;
    for (let i = this.steps.length - 1; i >= 0; i--) if (isNeeded[this.steps[i].vertex]) this.solve(this.steps[i]);
    return true;
  }

  /** The voltage of a vertex over the base of its island. */
  voltage(vertex: number): Term {
    return this.voltages[vertex];
  }

  /** The voltage of one vertex over another, where something lies between them. */
  drop(a: number, b: number): Term | "unknown" {
    if (a === b) return NOTHING;
    if (this.isTerminal(a) && this.isTerminal(b)) return this.terms.minus(this.voltageOf(a), this.voltageOf(b));
    const edge = this.find(a, b);
    return edge && "drop" in edge ? this.turned(edge.drop, a, b) : "unknown";
  }

  /** The current through one of the resistances from a vertex to another. */
  current(a: number, b: number, conductance: number): Term {
    const { terms } = this;
    if (a === b) return NOTHING;
    if (this.isTerminal(a) && this.isTerminal(b))
      return terms.times(conductance, terms.minus(this.voltageOf(a), this.voltageOf(b)));
    const edge = this.find(a, b)!;
    const current = this.turned(edge.current, a, b);
    const others = edge.parts.map((part) => part.conductance);
    others.splice(others.indexOf(conductance), 1);
    if (edge.fill !== undefined) others.push(edge.fill);
    if (others.length === 0) return current;
    return terms.times(terms.emit(Op.Share, conductance, this.sum(others)), current);
  }

  /** Replaces a vertex by what it is to its neighbours. */
  private takeOut(vertex: number, top: number | undefined): void {
    const { terms, edges, injections } = this;
    const neighbours = [...edges[vertex].keys()];
    const conductances = neighbours.map((other) => this.sumOf(edges[vertex].get(other)!));
    const shares = this.sharesOf(conductances);
    const injected = injections[vertex];
    const step = { vertex, neighbours, conductances, shares, injected };
    this.steps.push(step);
    neighbours.forEach((other, i) => {
      if (this.isTerminal(other)) return;
      edges[other].delete(vertex);
      if (injected && other !== top) injections[other] = terms.plus(injections[other], this.shareOf(step, i, injected));
      neighbours.forEach((third, j) => {
        if (j === i || (j < i && !this.isTerminal(third))) return;
        const edge = this.edge(other, third);
        const mesh = this.mesh(step, i, j);
        edge.fill = edge.fill === undefined ? mesh : terms.sum(edge.fill, mesh);
      });
    });
  }

  /** Finds the voltage of an eliminated vertex, and the currents and voltages from it to its neighbours. */
  private solve(step: Eliminated): void {
    const { terms } = this;
    const { vertex, neighbours, conductances, injected } = step;
    const over = terms.over(injected, this.sum(conductances));
    neighbours.forEach((other, i) => {
      let current = this.shareOf(step, i, injected);
      let drop = over;
      neighbours.forEach((third, j) => {
        if (j === i) return;
        const between = this.drop(other, third) as Term;
        if (!between) return;
        current = terms.minus(current, terms.times(this.mesh(step, i, j), between));
        drop = terms.minus(drop, terms.times(step.shares[j](), between));
      });
      const edge = this.edgeOf.get(this.key(vertex, other))!;
      const [only] = edge.parts;
      const isAlone = neighbours.length === 1 && edge.parts.length === 1 && edge.fill === undefined;
      if (isAlone) drop = terms.times(only.resistance, current);
      edge.current = this.turned(current, vertex, other);
      edge.drop = this.turned(drop, vertex, other);
    });
    const mean = neighbours
      .map((other) => this.relative(other, vertex))
      .reduceRight((rest, voltage, i) =>
        terms.blend(terms.emit(Op.Share, conductances[i], this.sum(conductances.slice(i + 1))), voltage, rest),
      );
    const [first] = neighbours;
    this.voltages[vertex] = terms.plus(mean, neighbours.length === 1 ? (this.drop(vertex, first) as Term) : over);
  }

  /** The voltage of a neighbour over the base of a vertex's island. */
  private relative(other: number, vertex: number): Term {
    if (!this.isTerminal(other)) return this.voltages[other];
    return this.terms.minus(this.voltageOf(other), this.bases[this.islandOf(vertex)]);
  }

  private shareOf({ shares, neighbours }: Eliminated, i: number, current: Term): Term {
    if (!current || neighbours.length === 1) return current;
    return this.terms.times(shares[i](), current);
  }

  /** The conductance that stands between two neighbours for the vertex. */
  private mesh({ conductances, shares }: Eliminated, i: number, j: number): number {
    const [a, b] = [Math.min(i, j), Math.max(i, j)];
    if (conductances.length === 2) return this.terms.emit(Op.Parallel, conductances[0], conductances[1]);
    return this.terms.emit(Op.Multiply, conductances[a], shares[b]());
  }

  private sharesOf(conductances: readonly number[]): readonly (() => number)[] {
    const { terms } = this;
    // The sum of all others, from the sums before and behind.
    const before: number[] = [];
    const behind: number[] = [];
    const others = (i: number): number => {
      if (before.length === 0) {
        for (let k = 1; k < conductances.length; k++)
          before[k] = k === 1 ? conductances[0] : terms.sum(before[k - 1], conductances[k - 1]);
        for (let k = conductances.length - 2; k >= 0; k--)
          behind[k] =
            k === conductances.length - 2 ? conductances[k + 1] : terms.sum(behind[k + 1], conductances[k + 1]);
      }
      if (i === 0) return behind[0];
      return i === conductances.length - 1 ? before[i] : terms.sum(before[i], behind[i]);
    };
    return conductances.map((conductance, i) => () => terms.emit(Op.Share, conductance, others(i)));
  }

  private sumOf({ parts, fill }: Edge): number {
    const conductances = parts.map(({ conductance }) => conductance);
    return this.sum(fill === undefined ? conductances : [...conductances, fill]);
  }

  private sum(values: readonly number[]): number {
    return values.reduce((sum, value) => this.terms.sum(sum, value));
  }

  /** What was between two vertices, also when one of them is eliminated. */
  private readonly edgeOf = new Map<number, Edge>();

  private find(a: number, b: number): Edge | undefined {
    return this.edgeOf.get(this.key(a, b));
  }

  private edge(a: number, b: number): Edge {
    const key = this.key(a, b);
    let edge = this.edgeOf.get(key);
    if (!edge) this.edgeOf.set(key, (edge = { parts: [] }));
    if (!this.isTerminal(a)) this.edges[a].set(b, edge);
    if (!this.isTerminal(b)) this.edges[b].set(a, edge);
    return edge;
  }

  private key(a: number, b: number): number {
    return Math.min(a, b) * MOST_VERTICES + Math.max(a, b);
  }

  /** A value from the lower number to the higher as one from a to b, and back. */
  private turned(x: Term, a: number, b: number): Term {
    return a < b ? x : this.terms.negative(x);
  }

  private isTerminal(vertex: number): boolean {
    return vertex >= this.edges.length;
  }

  private voltageOf(terminal: number): Term {
    return this.terminals[terminal - this.edges.length];
  }
}

/** The order in which the vertices of a block are eliminated; its top stays. */
function orderIn(
  { vertices }: NetworkBlock,
  neighbours: readonly ReadonlySet<number>[],
  wanted: ReadonlySet<number> | undefined,
): ReturnType<typeof eliminationOrder> {
  const place = new Map(vertices.map((vertex, i) => [vertex, i]));
  const beyond = vertices.length;
  const around = vertices.map(
    (vertex) => new Set([...neighbours[vertex]].map((other) => place.get(other) ?? beyond + other)),
  );
  const last = new Set(wanted ? vertices.flatMap((vertex, i) => (wanted.has(vertex) ? [i] : [])) : []);
  const { order, operations } = eliminationOrder(around, last);
  return { order: order.map((i) => vertices[i]), operations };
}

/** So that two vertices make one exact number. */
const MOST_VERTICES = 2 ** 26;

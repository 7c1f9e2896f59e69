import { Elimination } from "./networkElimination";
import {
  isIdealSource,
  reachable,
  sourceTrees,
  unloadedPotentials,
  type Branch,
  type BranchNumber,
  type SourceTrees,
} from "./networkGraph";
import { NOTHING, type NetworkTerms, type Term } from "./networkTerms";
import { Op } from "./operation";

/** What is asked of a network. */
export interface Wanted {
  /** Nodes whose voltage, and branches, but for sources, whose current or voltage is asked for. */
  readonly nodes: ReadonlySet<number>;
  readonly branches: ReadonlySet<BranchNumber>;
}

/** A case in which a branch is open. */
export interface OpenCase {
  readonly open: BranchNumber;
  /** All where nothing is said. */
  readonly wanted?: Wanted;
}

/** More operations than this, and a network is too meshed to be worked out: some tenths of a second. */
export const MOST_NETWORK_OPERATIONS = 400_000;

/** Where a node is among the vertices that are left when those joined by sources are one. */
interface Place {
  readonly vertex: number;
  /** The voltage of the node over that of its vertex. */
  readonly offset: Term;
}

/** A resistance between two vertices, as the elimination needs it. */
interface Link {
  readonly branch: BranchNumber;
  readonly conductance: number;
  readonly from: Place;
  readonly to: Place;
}

/**
 * A network of resistances, sources of voltage and loads of current, written out on the tape: every voltage and current as
 * plain operations, by nodal analysis.
 *
 * Nodes joined by sources are one vertex, and those of the reference's tree are known: they are terminals. The other vertices
 * are eliminated ({@link Elimination}). Where a node has no way to the reference, its branches are left out.
 */
export class NetworkSolution {
  readonly isReached: readonly boolean[];
  /** It was given up: see {@link MOST_NETWORK_OPERATIONS}. */
  readonly isTooLarge: boolean;
  private readonly trees: SourceTrees;
  private readonly places: readonly Place[];
  private readonly links = new Map<BranchNumber, Link>();
  private readonly elimination: Elimination;
  /** For each node the voltage from which that of its vertex counts. */
  private readonly bases: readonly Term[];
  /** Whether a load draws its current. */
  private readonly isDriven: (load: Branch) => boolean;
  private readonly currents = new Map<BranchNumber, Term>();

  constructor(
    private readonly terms: NetworkTerms,
    private readonly nodeCount: number,
    private readonly all: readonly Branch[],
    openCase?: OpenCase,
  ) {
    const closed = all.map((branch, number) => (number === openCase?.open ? OPEN : branch));
    this.trees = sourceTrees(nodeCount, closed);
    const loops = new Set(this.trees.loops);
    this.branches = closed.map((branch, number) => (loops.has(number) ? OPEN : branch));
    this.isReached = reachable(nodeCount, this.branches.filter(isThere));
    this.elimination = new Elimination(terms);
    this.places = this.placesOfNodes();
    this.addLinks();
    const islands = this.elimination.islands();
    const bases = islands.map((terminals) =>
      terminals.length === 0 || terminals.some((terminal) => !terminal) ? NOTHING : terminals[0],
    );
    const islandOf = (node: number) => this.elimination.islandOf(this.places[node].vertex);
    this.bases = this.places.map((_, node) => (this.isTerminal(node) ? NOTHING : bases[islandOf(node)]));
    this.isDriven = openCase ? this.drivenIn() : () => true;
    this.addLoads();
    this.elimination.setBases(bases);
    const { wanted } = openCase ?? {};
    this.isTooLarge = !this.elimination.eliminate(wanted && this.verticesOf(wanted), MOST_NETWORK_OPERATIONS);
  }

  private readonly branches: readonly (Branch | undefined)[];

  /** A load that had a source in a loop with it goes on as long as it has one; what is fed by loads alone goes on as it did. */
  private drivenIn(): (load: Branch) => boolean {
    const [before, now] = [this.all, this.branches.filter(isThere)].map((branches) =>
      unloadedPotentials(this.nodeCount, branches),
    );
    return ({ from, to }) => before[from] === before[to] || now[from] !== now[to];
  }

  private isDead(node: number): boolean {
    return !this.isReached[node];
  }

  /** The voltage of a node against the reference. */
  voltage(node: number): Term {
    if (this.isDead(node)) return NOTHING;
    const { vertex, offset } = this.places[node];
    if (this.isTerminal(node)) return offset;
    return this.terms.plus(this.bases[node], this.terms.plus(this.elimination.voltage(vertex), offset));
  }

  /** The current through a branch, from its first end to its second. */
  current(number: BranchNumber): Term {
    if (this.currents.has(number)) return this.currents.get(number);
    const current = this.currentOf(number);
    this.currents.set(number, current);
    return current;
  }

  /** The voltage of the first end of a branch less that of its second. */
  drop(number: BranchNumber): Term {
    const { terms } = this;
    const { from, to, source, load } = this.all[number];
    const branch = this.branches[number];
    // Between what has a voltage and what hangs in the air, a load gets nothing.
    if (load !== undefined && (this.isDead(from) || this.isDead(to))) return NOTHING;
    if (branch && isIdealSource(branch)) return this.isDead(from) ? NOTHING : terms.negative(terms.term(source));
    const link = this.links.get(number);
    if (link && source === undefined && !this.isDead(from)) {
      const between = this.elimination.drop(link.from.vertex, link.to.vertex);
      if (between !== "unknown") {
        return terms.plus(between, terms.minus(link.from.offset, link.to.offset));
      }
    }
    return this.between(from, to);
  }

  /** A base that two nodes have in common is left out. */
  private between(from: number, to: number): Term {
    const { terms } = this;
    if (this.isDead(from) || this.isDead(to) || this.bases[from]?.at !== this.bases[to]?.at)
      return terms.minus(this.voltage(from), this.voltage(to));
    const over = (node: number) =>
      this.isTerminal(node)
        ? this.places[node].offset
        : terms.plus(this.elimination.voltage(this.places[node].vertex), this.places[node].offset);
    return terms.minus(over(from), over(to));
  }

  private currentOf(number: BranchNumber): Term {
    const { terms } = this;
    const branch = this.branches[number];
    if (!branch || this.isDead(branch.from) || this.isDead(branch.to)) return NOTHING;
    if (branch.load !== undefined) return this.isDriven(branch) ? terms.term(branch.load) : NOTHING;
    if (isIdealSource(branch)) return this.throughSource(number, branch);
    const link = this.links.get(number)!;
    const offsets = terms.times(link.conductance, terms.minus(link.from.offset, link.to.offset));
    return terms.plus(this.elimination.current(link.from.vertex, link.to.vertex, link.conductance), offsets);
  }

  /** What flows through a source is what leaves the nodes that are reached by it, by all other branches. */
  private throughSource(number: BranchNumber, { from, to }: Branch): Term {
    const end = this.trees.by.get(to) === number ? to : from;
    const leaving = this.leaving.get(end);
    return end === to ? leaving : this.terms.negative(leaving);
  }

  private leavingNodes?: ReadonlyMap<number, Term>;

  /** For each node of a tree of sources what leaves it, and those that are reached by way of it, by other branches. */
  private get leaving(): ReadonlyMap<number, Term> {
    if (this.leavingNodes) return this.leavingNodes;
    const { terms, trees } = this;
    const leaving = new Map<number, Term>();
    const add = (node: number, term: Term) => void leaving.set(node, terms.plus(leaving.get(node), term));
    this.branches.forEach((branch, number) => {
      if (!branch || isIdealSource(branch)) return;
      const isOfTree = (node: number) => trees.by.has(node) || trees.root[node] !== node;
      if (isOfTree(branch.from)) add(branch.from, this.current(number));
      if (isOfTree(branch.to)) add(branch.to, terms.negative(this.current(number)));
    });
    for (let i = trees.order.length - 1; i >= 0; i--) {
      const node = trees.order[i];
      const by = trees.by.get(node);
      if (by === undefined) continue;
      const { from, to } = this.all[by];
      const parent = from === node ? to : from;
      if (trees.by.has(parent)) add(parent, leaving.get(node));
    }
    return (this.leavingNodes = leaving);
  }

  private isTerminal(node: number): boolean {
    return this.trees.root[node] === 0;
  }

  /** Each node at its vertex; those of the reference's tree are known, and are terminals where something ends on them. */
  private placesOfNodes(): readonly Place[] {
    const { terms, trees, nodeCount, all } = this;
    const offsets: Term[] = new Array<Term>(nodeCount).fill(NOTHING);
    for (const node of trees.order) {
      const by = trees.by.get(node);
      if (by === undefined) continue;
      const { from, to, source } = all[by];
      const raised = terms.term(source);
      offsets[node] = node === to ? terms.plus(offsets[from], raised) : terms.minus(offsets[to], raised);
    }
    const vertices = new Map<number, number>();
    for (const node of trees.order)
      if (trees.root[node] !== 0 && trees.root[node] === node && this.isReached[node])
        vertices.set(node, this.elimination.addVertex());
    return offsets.map((offset, node) => ({ vertex: vertices.get(trees.root[node]) ?? -1, offset }));
  }

  private addLinks(): void {
    const { terms, elimination } = this;
    this.branches.forEach((branch, number) => {
      if (branch?.resistance === undefined || !this.isReached[branch.from]) return;
      const resistance = terms.emit(Op.Resistance, branch.resistance, 0, 0, branch.node);
      const conductance = terms.emit(Op.Divide, terms.one, resistance);
      const from = this.linkEnd(branch.from, terms.term(branch.source));
      const to = this.linkEnd(branch.to, NOTHING);
      this.links.set(number, { branch: number, conductance, from, to });
      const isAcross = elimination.addEdge(from.vertex, to.vertex, { conductance, resistance });
      const offsets = isAcross ? terms.minus(from.offset, to.offset) : NOTHING;
      if (!offsets) return;
      const driven = terms.times(conductance, offsets);
      elimination.inject(from.vertex, terms.negative(driven));
      elimination.inject(to.vertex, driven);
    });
  }

  /** An end of a resistance, behind the source that is in series with it: a vertex, or a terminal of that voltage. */
  private linkEnd(node: number, raised: Term): Place {
    const { vertex, offset } = this.places[node];
    const over = this.terms.plus(offset, raised);
    return this.isTerminal(node)
      ? { vertex: this.elimination.terminal(over), offset: NOTHING }
      : { vertex, offset: over };
  }

  private addLoads(): void {
    const { terms, elimination, places } = this;
    for (const branch of this.branches) {
      if (branch?.load === undefined || this.isDead(branch.from) || this.isDead(branch.to)) continue;
      if (!this.isDriven(branch)) continue;
      const load = terms.term(branch.load);
      if (!this.isTerminal(branch.from)) elimination.inject(places[branch.from].vertex, terms.negative(load));
      if (!this.isTerminal(branch.to)) elimination.inject(places[branch.to].vertex, load);
    }
  }

  private verticesOf({ nodes, branches }: Wanted): ReadonlySet<number> {
    const wanted = new Set(nodes);
    for (const number of branches) for (const node of [this.all[number].from, this.all[number].to]) wanted.add(node);
    const vertices = [...wanted].map((node) => this.places[node].vertex);
    return new Set(vertices.filter((vertex) => vertex >= 0));
  }
}

/** In the place of a branch that is left out. */
const OPEN = undefined;

function isThere(branch: Branch | undefined): branch is Branch {
  return branch !== undefined;
}

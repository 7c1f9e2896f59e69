import type { Node } from "../syntax/tree";

/** A branch between two nodes; node 0 is the reference. Its parts are operands of the tape, in V, Ω and A. */
export interface Branch {
  readonly from: number;
  readonly to: number;
  /** Alone, or in series with a source. */
  readonly resistance?: number;
  /** By how much it raises the voltage on the way from `from` to `to`. */
  readonly source?: number;
  /** The current from `from` to `to`, whatever the voltage. */
  readonly load?: number;
  /** Where something that is wrong with its resistance is told. */
  readonly node?: Node;
}

/** A branch by its number in the network. */
export type BranchNumber = number;

/** A source without resistance joins two nodes, so that one is known by the other. */
export function isIdealSource({ resistance, source }: Branch): boolean {
  return source !== undefined && resistance === undefined;
}

/** Nodes that are joined by sources, as trees: the reference's, and one for each group of others. */
export interface SourceTrees {
  /** For each node the root of its tree; 0 in that of the reference. */
  readonly root: readonly number[];
  /** The nodes of all trees from the roots on, each behind the one by which it is reached. */
  readonly order: readonly number[];
  /** For each node but roots, the source by which it is reached. */
  readonly by: ReadonlyMap<number, BranchNumber>;
  /** Sources that close a loop of sources: there the current is not known, nor do the voltages agree unless by chance. */
  readonly loops: readonly BranchNumber[];
}

/** @param nodeCount how many nodes there are, the reference among them */
export function sourceTrees(nodeCount: number, branches: readonly (Branch | undefined)[]): SourceTrees {
  const sources: BranchNumber[][] = Array.from({ length: nodeCount }, () => []);
  branches.forEach((branch, number) => {
    if (!branch || !isIdealSource(branch)) return;
    sources[branch.from].push(number);
    sources[branch.to].push(number);
  });
  const root = new Array<number>(nodeCount).fill(-1);
  const by = new Map<number, BranchNumber>();
  const order: number[] = [];
  const used = new Set<BranchNumber>();
  for (let start = 0; start < nodeCount; start++) {
    if (root[start] >= 0) continue;
    root[start] = start;
    let at = order.push(start) - 1;
    for (; at < order.length; at++) {
      const node = order[at];
      for (const number of sources[node]) {
        const { from, to } = branches[number]!;
        const other = from === node ? to : from;
        if (root[other] >= 0) continue;
        root[other] = start;
        by.set(other, number);
        used.add(number);
        order.push(other);
      }
    }
  }
  const loops = branches.flatMap((branch, number) =>
    branch && isIdealSource(branch) && !used.has(number) ? [number] : [],
  );
  return { root, order, by, loops };
}

/** Which nodes have a way to the reference by resistances and sources; loads are no way, since their current is given. */
export function reachable(nodeCount: number, branches: readonly Branch[]): readonly boolean[] {
  const ways: number[][] = Array.from({ length: nodeCount }, () => []);
  for (const { from, to, load } of branches) {
    if (load !== undefined) continue;
    ways[from].push(to);
    ways[to].push(from);
  }
  const isReached = new Array<boolean>(nodeCount).fill(false);
  const waiting = [0];
  isReached[0] = true;
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    for (const other of ways[node]) {
      if (isReached[other]) continue;
      isReached[other] = true;
      waiting.push(other);
    }
  }
  return isReached;
}

/**
 * An order in which vertices are eliminated that keeps the work small: by minimum degree, as many at a time as do not touch
 * (J. W. H. Liu, "Modification of the minimum-degree algorithm by multiple elimination", ACM Trans. Math. Softw. 11 (1985)
 * 141–153). So chains are halved again and again, and a tree is taken in from its leaves.
 * @param neighbours of each vertex; those at or beyond its length stay to the end, and are never eliminated
 * @param last vertices that come after all others
 * @returns the order, and about how many operations the elimination and the way back take
 */
export function eliminationOrder(
  neighbours: readonly ReadonlySet<number>[],
  last: ReadonlySet<number> = new Set(),
): { readonly order: readonly number[]; readonly operations: number } {
  const around = neighbours.map((set) => new Set(set));
  const order: number[] = [];
  let operations = 0;
  for (const group of [(v: number) => !last.has(v), (v: number) => last.has(v)]) {
    let waiting = around.map((_, v) => v).filter(group);
    while (waiting.length > 0) {
      const least = waiting.reduce((degree, v) => Math.min(degree, around[v].size), Infinity);
      const touched = new Set<number>();
      const left: number[] = [];
      for (const v of waiting) {
        if (touched.has(v) || around[v].size > least) {
          left.push(v);
          continue;
        }
        order.push(v);
        operations += around[v].size * (8 + 5 * around[v].size);
        eliminate(around, v);
        for (const other of around[v]) touched.add(other);
      }
      waiting = left;
    }
  }
  return { order, operations };
}

/** Takes a vertex out; its neighbours become neighbours of each other. */
function eliminate(around: readonly Set<number>[], v: number): void {
  const others = [...around[v]];
  for (const other of others) {
    if (other >= around.length) continue;
    around[other].delete(v);
    for (const third of others) if (third !== other) around[other].add(third);
  }
}

/** Vertices that hang on the rest of a network by one vertex, or on what is known. */
export interface NetworkBlock {
  /** The vertex by which all others of the block hang on the rest; undefined where that is a terminal, or several. */
  readonly top?: number;
  readonly vertices: readonly number[];
}

/**
 * The blocks of a graph, those that hang on others before these: parts that no single vertex parts any further
 * (J. Hopcroft, R. Tarjan, "Efficient algorithms for graph manipulation", Comm. ACM 16 (1973) 372–378). All that a block
 * draws comes by its top, whatever lies between.
 * @param neighbours of each vertex; those at or beyond its length are known, and count as one
 */
export function blocksOf(neighbours: readonly ReadonlySet<number>[]): readonly NetworkBlock[] {
  const count = neighbours.length;
  const depth = new Array<number>(count).fill(0);
  /** The least depth that is reached from a vertex or from below it. */
  const least = new Array<number>(count).fill(0);
  const blocks: NetworkBlock[] = [];
  const waiting: number[] = [];
  const walk = (start: number): void => {
    const path = [{ vertex: start, others: [...neighbours[start]] }];
    depth[start] = least[start] = 1;
    waiting.push(start);
    while (path.length > 0) {
      const { vertex, others } = path[path.length - 1];
      const next = others.pop();
      const above = path.length > 1 ? path[path.length - 2].vertex : undefined;
      if (next === undefined) {
        path.pop();
        if (above === undefined) continue;
        least[above] = Math.min(least[above], least[vertex]);
        if (least[vertex] >= depth[above])
          blocks.push({ top: above, vertices: waiting.splice(waiting.lastIndexOf(vertex)) });
      } else if (next >= count) least[vertex] = 0;
      else if (depth[next] === 0) {
        depth[next] = least[next] = depth[vertex] + 1;
        waiting.push(next);
        path.push({ vertex: next, others: [...neighbours[next]] });
      } else if (next !== above) least[vertex] = Math.min(least[vertex], depth[next]);
    }
    blocks.push({ vertices: waiting.splice(0) });
  };
  // What is known is the root: an island is walked from a vertex beside it.
  const isBeside = (vertex: number) => [...neighbours[vertex]].some((other) => other >= count);
  for (const isStart of [isBeside, () => true])
    for (let vertex = 0; vertex < count; vertex++) if (depth[vertex] === 0 && isStart(vertex)) walk(vertex);
  return blocks;
}

/**
 * For each node one that is at the same voltage as long as nothing is drawn, whatever the values: between two nodes a source
 * makes a difference where it is in a block on the way from one to the other. Nodes without a way to the reference count as
 * wherever they are.
 */
export function unloadedPotentials(nodeCount: number, branches: readonly Branch[]): readonly number[] {
  const ways = branches.filter(({ load }) => load === undefined);
  // The reference is behind all other nodes, where what is known stands.
  const reference = nodeCount - 1;
  const vertexOf = (node: number) => (node === 0 ? reference : node - 1);
  const neighbours = Array.from({ length: reference }, () => new Set<number>());
  for (const { from, to } of ways) {
    neighbours[vertexOf(from)]?.add(vertexOf(to));
    neighbours[vertexOf(to)]?.add(vertexOf(from));
  }
  const blocks = blocksOf(neighbours);
  const blockOf = new Map(blocks.flatMap((block) => block.vertices.map((vertex) => [vertex, block] as const)));
  const withSource = new Set<NetworkBlock | undefined>();
  for (const { from, to, source } of ways) {
    if (source === undefined) continue;
    const [a, b] = [vertexOf(from), vertexOf(to)];
    const isBelow = a !== reference && (blockOf.get(a) === blockOf.get(b) || (blockOf.get(a)?.top ?? reference) === b);
    withSource.add(blockOf.get(isBelow ? a : b));
  }
  const potentials = Array.from({ length: nodeCount }, (_, vertex) => vertex);
  for (const block of [...blocks].reverse()) {
    if (withSource.has(block)) continue;
    for (const vertex of block.vertices) potentials[vertex] = potentials[block.top ?? reference];
  }
  return Array.from({ length: nodeCount }, (_, node) => potentials[vertexOf(node)]);
}

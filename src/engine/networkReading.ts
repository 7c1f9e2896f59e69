import { isReference, networkWord, type NetworkColumns } from "../syntax/network";
import type { Column, Solved } from "../syntax/statement";
import { NONE, type Node } from "../syntax/tree";
import { cellName } from "./columns";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import { reachable, sourceTrees, type Branch } from "./networkGraph";
import type { EngineTrouble } from "./problem";
import { nearestName } from "./suggest";

/** A network as it is read from its table. */
export interface Network {
  readonly branches: readonly Branch[];
  /** For each row its branch; undefined where it is left out, for which there is a finding. */
  readonly byRow: readonly (number | undefined)[];
  readonly nodeCount: number;
}

/** The statement of a network's voltages, which says between which nodes its branches lie. */
export type VoltageColumn = Column & { readonly solved: Solved };

export function isVoltageColumn(entry: Entry): entry is Entry & { readonly statement: VoltageColumn } {
  return entry.statement.kind === "column" && entry.statement.solved?.quantity === "voltage";
}

/** Names of nodes that a finding lists. */
const NODES_NAMED = 5;

/**
 * Reads the network that a table is; undefined where it cannot be, for which there is a reason. What is wrong with a branch
 * costs that branch, and is reported where the voltages are compiled.
 */
export function readNetwork(
  compiler: Compiler,
  entry: Entry & { readonly statement: VoltageColumn },
): Network | undefined {
  return new NetworkReader(compiler, entry).read();
}

class NetworkReader {
  private readonly statement: VoltageColumn;
  private readonly rows: NonNullable<Solved["branches"]>;
  private readonly nodes = new Map<string, number>();
  private readonly parts: Readonly<Record<keyof NetworkColumns, Entry | undefined>>;

  constructor(
    private readonly compiler: Compiler,
    private readonly entry: Entry & { readonly statement: VoltageColumn },
  ) {
    this.statement = entry.statement;
    const { names, branches = [], columns } = this.statement.solved;
    this.rows = branches;
    names.forEach((node, i) => this.nodes.set(this.text(node), i + 1));
    const { table } = entry;
    const part = (name: string | undefined) =>
      name === undefined || !table ? undefined : compiler.columnOf(table, name);
    this.parts = { resistance: part(columns.resistance), source: part(columns.source), load: part(columns.load) };
  }

  read(): Network | undefined {
    const { rows } = this;
    if (!this.hasReference() || !this.hasValues()) return undefined;
    const nodeCount = this.nodes.size + 1;
    const read = rows.map((_, row) => this.branch(row));
    const loops = new Set(sourceTrees(nodeCount, read).loops);
    for (const row of loops) this.report(rows[row].name, { code: "network.sourceLoop", branch: this.nameOf(row) });
    const branches: Branch[] = [];
    const byRow = read.map((branch, row) => (branch && !loops.has(row) ? branches.push(branch) - 1 : undefined));
    if (branches.length === rows.length) this.checkFed(branches);
    this.checkReached(nodeCount, branches);
    this.checkDeadEnds(read);
    return { branches, byRow, nodeCount };
  }

  /** One node is the reference, by one name. */
  private hasReference(): boolean {
    const ends = this.rows.flatMap(({ from, to }) => [this.text(from), this.text(to)]);
    const found = [...new Set(ends.filter(isReference))];
    if (found.length !== 1) this.report(this.statement.name, { code: "network.reference", found });
    return found.length === 1;
  }

  /** A value that cannot be read leaves no branch out, since all would be computed as if it were not there. */
  private hasValues(): boolean {
    const { compiler, entry, statement } = this;
    for (const part of Object.values(this.parts)) {
      if (!part) continue;
      if (part.type.kind !== "column") return (compiler.block(part.name ?? ""), false);
      const [failed] = part.type.failed ?? [];
      if (failed === undefined) continue;
      const column = part.statement.kind === "column" ? part.statement.tree.text(part.statement.name) : "";
      compiler.block(cellName(entry.table?.name ?? statement.table, this.text(this.rows[failed].name), failed, column));
      return false;
    }
    return true;
  }

  private branch(row: number): Branch | undefined {
    const { from, to, name } = this.rows[row];
    const branch = this.nameOf(row);
    const missing = [from, to].find((node) => this.text(node) === "");
    if (missing !== undefined) return this.report(missing, { code: "network.end", branch });
    if (this.text(from) === this.text(to)) return this.report(to, { code: "network.end", branch, node: this.text(to) });
    const [resistance, source, load] = [this.parts.resistance, this.parts.source, this.parts.load].map((part) =>
      part && isThere(part, row) ? part.results.from + row : undefined,
    );
    const has = [
      ...(resistance === undefined ? [] : ["resistance"]),
      ...(source === undefined ? [] : ["source"]),
      ...(load === undefined ? [] : ["load"]),
    ];
    if (has.length === 0 || (load !== undefined && has.length > 1))
      return this.report(name, { code: "network.between", branch, has });
    const [a, b] = [from, to].map((node) => this.nodes.get(this.text(node)) ?? 0);
    return {
      from: a,
      to: b,
      ...(resistance === undefined ? {} : { resistance, node: name }),
      ...(source === undefined ? {} : { source }),
      ...(load === undefined ? {} : { load }),
    };
  }

  /** Loads draw from a source; a current that is fed in leads from the reference, and is one as well. */
  private checkFed(branches: readonly Branch[]): void {
    const loads = branches.filter(({ load }) => load !== undefined);
    if (loads.length === 0 || loads.some(({ from }) => from === 0)) return;
    if (branches.some(({ source }) => source !== undefined)) return;
    const { table } = this.entry;
    const column = (table ? this.compiler.columnsOf(table) : []).find((name) =>
      ["source", "V"].includes(networkWord(name) ?? ""),
    );
    this.report(this.statement.name, { code: "network.noSource", ...(column === undefined ? {} : { column }) });
  }

  /** Nodes without a way to the reference have no voltage. */
  private checkReached(nodeCount: number, branches: readonly Branch[]): void {
    const isReached = reachable(nodeCount, branches);
    const { names } = this.statement.solved;
    const floating = names.filter((_, i) => !isReached[i + 1]);
    if (floating.length === 0) return;
    const reference = this.rows.flatMap(({ from, to }) => [this.text(from), this.text(to)]).find(isReference) ?? "";
    const nodes = floating.slice(0, NODES_NAMED).map((node) => this.text(node));
    this.report(floating[0], { code: "network.floating", nodes, left: floating.length - nodes.length, reference });
  }

  /** A node at which only one branch ends, as when its name was mistyped: nothing flows there. */
  private checkDeadEnds(branches: readonly (Branch | undefined)[]): void {
    const ends = new Array<number>(this.nodes.size + 1).fill(0);
    for (const { from, to } of this.rows) for (const node of [from, to]) ends[this.nodes.get(this.text(node)) ?? 0]++;
    branches.forEach((branch, row) => {
      if (!branch || branch.load !== undefined) return;
      const { from, to } = this.rows[row];
      for (const [number, node] of [[branch.from, from] as const, [branch.to, to] as const]) {
        if (number === 0 || ends[number] > 1) continue;
        const name = this.text(node);
        const suggestion = nearestName(
          [...this.nodes.keys()].filter((other) => other !== name && ends[this.nodes.get(other)!] > 0),
          name,
        );
        this.report(node, {
          code: "network.deadEnd",
          node: name,
          branch: this.nameOf(row),
          ...(suggestion === undefined ? {} : { suggestion }),
        });
      }
    });
  }

  /** Only where the voltages are compiled; whoever else reads the network would say it again. */
  private report(node: Node, trouble: EngineTrouble): undefined {
    if (this.compiler.isTop(this.entry)) this.compiler.fail(node, trouble);
    return undefined;
  }

  private nameOf(row: number): string {
    return this.text(this.rows[row].name) || `row ${row + 1}`;
  }

  private text(node: Node): string {
    return node === NONE ? "" : this.statement.tree.text(node);
  }
}

/** Whether a column has a value in a row. */
export function isThere({ type }: Entry, row: number): boolean {
  return type.kind === "column" && type.of === "quantity" && (type.present?.[row] ?? true);
}

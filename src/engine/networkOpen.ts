import { NONE, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import { isThere, isVoltageColumn, readNetwork, type Network, type VoltageColumn } from "./networkReading";
import { isIdealSource } from "./networkGraph";
import { lossIn } from "./network";
import { NetworkSolution, type Wanted } from "./networkSolution";
import { NetworkTerms } from "./networkTerms";
import { NATIVES } from "./natives";
import { quantity, type Operand } from "./operand";
import { Op } from "./operation";

/** While an expression is compiled for a case of a network: what stands for the values of the network's columns. */
export interface NetworkCase {
  /** The operand of a value of a column; undefined where the column is of no network, or of another one. */
  readonly valueAt: (column: Entry, index: number) => number | undefined;
}

/**
 * `with_open(min(bar.supply))`: an expression of what a network comes to, with one resistance open after the other; a value for
 * each. A load that has lost the last source of voltage in a loop with it draws nothing then, and so does a current that is
 * fed in, which is a load to the network.
 */
export function compileWithOpen(compiler: Compiler, node: Node): Operand | undefined {
  const { tree } = compiler;
  const argument = tree.next(tree.first(node));
  if (argument === NONE || tree.next(argument) !== NONE) return refuse(compiler, node, "takes one expression");
  compiler.isWatchful = true;
  const asked = askedIn(compiler, argument);
  if (asked === undefined) return undefined;
  if (typeof asked === "string") return refuse(compiler, argument, asked);
  const { voltages, columns } = asked;
  const network = readNetwork(compiler, voltages);
  if (!network) return compiler.block(voltages.name ?? "");
  return new OpenCases(compiler, node, argument, voltages, network).compile(columns);
}

function refuse(compiler: Compiler, at: Node, reason: string): undefined {
  const { signature } = NATIVES.get("with_open")!;
  return compiler.fail(at, { code: "function.arguments", name: "with_open", reason, signature });
}

interface Asked {
  readonly voltages: Entry & { readonly statement: VoltageColumn };
  /** Columns of the network, and which of their values. */
  readonly columns: ReadonlyMap<Entry, ReadonlySet<number>>;
}

/**
 * What an expression asks of a network: it is compiled as it stands, and what that wrote is taken back.
 * @returns a text where it asks nothing of a network, or of several; undefined where it has no value
 */
function askedIn(compiler: Compiler, argument: Node): Asked | string | undefined {
  const columns = new Map<Entry, Set<number>>();
  const { code, domains } = compiler;
  const before = [code.count, domains.checks.length, domains.stores.length];
  const whole = inCase(compiler, argument, {
    valueAt: (column, index) => {
      const indices = columns.get(column) ?? new Set();
      columns.set(column, indices.add(index));
      return undefined;
    },
  });
  [code.count, domains.checks.length, domains.stores.length] = before;
  if (!whole) return undefined;
  if (!compiler.isQuantity(whole, "in with_open(…)")) return undefined;
  if (whole.isList) return "takes a single value, such as the `min(…)` of a list";
  const tables = [...new Set([...columns.keys()].map(({ table }) => table))];
  const voltages = tables[0] && compiler.columnOf(tables[0], "voltage");
  if (tables.length !== 1 || !voltages || !isVoltageColumn(voltages))
    return "takes an expression of what one network comes to, such as `min(bar.supply)`";
  return { voltages, columns };
}

function inCase(compiler: Compiler, argument: Node, networkCase: NetworkCase): Operand | undefined {
  const outer = compiler.networkCase;
  compiler.networkCase = networkCase;
  try {
    return compiler.expression(argument);
  } finally {
    compiler.networkCase = outer;
  }
}

class OpenCases {
  private readonly terms: NetworkTerms;

  constructor(
    private readonly compiler: Compiler,
    private readonly node: Node,
    private readonly argument: Node,
    private readonly voltages: Asked["voltages"],
    private readonly network: Network,
  ) {
    this.terms = new NetworkTerms(compiler, node);
  }

  compile(columns: Asked["columns"]): Operand | undefined {
    const { compiler, node, network, voltages } = this;
    const { branches, byRow, nodeCount } = network;
    const rows = byRow.flatMap((branch, row) => (branch !== undefined && isOpened(branches[branch]) ? [row] : []));
    if (rows.length === 0) return refuse(compiler, this.argument, "opens resistances, and the network has none");
    const wanted = this.wantedOf(columns);
    const at: number[] = [];
    let first: Operand | undefined;
    for (const row of rows) {
      const solution = new NetworkSolution(this.terms, nodeCount, branches, {
        open: byRow[row]!,
        ...(wanted ? { wanted } : {}),
      });
      const value = solution.isTooLarge
        ? compiler.fail(node, { code: "function.tooLarge", name: "with_open" })
        : inCase(compiler, this.argument, this.caseOf(solution));
      if (!value) return undefined;
      first ??= value;
      at.push(value.at[0]);
    }
    const { tree, solved } = voltages.statement;
    compiler.seeRows(
      rows.map((row) => tree.text(solved.branches![row].name)),
      true,
    );
    return quantity(node, first!.dimension, at, { isList: true, unit: first!.unit });
  }

  private caseOf(solution: NetworkSolution): NetworkCase {
    const { compiler, terms, network, voltages } = this;
    const { resistance } = voltages.statement.solved.columns;
    const ohms = resistance === undefined ? undefined : compiler.columnOf(voltages.table!, resistance);
    const valueAt = (column: Entry, index: number): number | undefined => {
      const solved = column.statement.kind === "column" ? column.statement.solved : undefined;
      if (!solved || column.table !== voltages.table) return undefined;
      if (solved.quantity === "voltage") return terms.value(solution.voltage(index + 1));
      const row = solved.rows[index];
      const branch = network.byRow[row];
      if (branch === undefined) return compiler.constant(NaN);
      const current = () => terms.value(solution.current(branch));
      const drop = () => terms.value(solution.drop(branch));
      switch (solved.quantity) {
        case "current":
          return current();
        case "power":
          return terms.emit(Op.Multiply, drop(), current());
        case "loss":
          return ohms && isThere(ohms, row)
            ? lossIn(compiler, terms, current(), ohms.results.from + row)
            : compiler.constant(0);
        default:
          return drop();
      }
    };
    return { valueAt };
  }

  /** What has to be worked out; all where a source's current is asked for, which is that of all that it feeds. */
  private wantedOf(columns: Asked["columns"]): Wanted | undefined {
    const { branches, byRow } = this.network;
    const wanted = { nodes: new Set<number>(), branches: new Set<number>() };
    for (const [column, indices] of columns) {
      const solved = column.statement.kind === "column" ? column.statement.solved : undefined;
      for (const index of solved ? indices : []) {
        if (solved!.quantity === "voltage") wanted.nodes.add(index + 1);
        const branch = solved!.quantity === "voltage" ? undefined : byRow[solved!.rows[index]];
        if (branch === undefined) continue;
        if (isIdealSource(branches[branch])) return undefined;
        wanted.branches.add(branch);
      }
    }
    return wanted;
  }
}

/** A joint or a wire can open; a source that opens is a supply that fails, and a load is taken off. */
function isOpened({ resistance, source }: { readonly resistance?: number; readonly source?: number }): boolean {
  return resistance !== undefined && source === undefined;
}

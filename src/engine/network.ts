import type { Column, Solved } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { columnName, NO_TYPE, type ColumnType, type Entry, type EntryType } from "./entry";
import { isThere, isVoltageColumn, readNetwork, type VoltageColumn } from "./networkReading";
import { NetworkSolution } from "./networkSolution";
import { NetworkTerms, type Term } from "./networkTerms";
import { NETWORK_UNITS } from "./networkUnits";
import { Op } from "./operation";

/** What a column of a network comes to: its type, and the operands to be stored. */
export interface SolvedColumn {
  readonly type: EntryType;
  readonly stores: readonly { readonly at: number; readonly node: Node }[];
}

type SolvedStatement = Column & { readonly solved: Solved };

const NO_COLUMN: SolvedColumn = { type: NO_TYPE, stores: [] };

/**
 * Compiles a column that a network comes to. With the voltages all currents and drops are worked out, and stored behind them;
 * the other columns read those.
 */
export function compileSolved(compiler: Compiler, entry: Entry, statement: SolvedStatement): SolvedColumn {
  if (isVoltageColumn(entry)) return compileVoltages(compiler, entry);
  const main = entry.table && compiler.columnOf(entry.table, "voltage");
  const known = main?.type.kind === "column" ? main.type.network : undefined;
  if (!main || !known) {
    compiler.block(columnName(statement.table, "voltage"));
    return NO_COLUMN;
  }
  const { quantity, rows, columns } = statement.solved;
  const terms = new NetworkTerms(compiler, statement.name);
  const resistance = columns.resistance === undefined ? undefined : compiler.columnOf(entry.table, columns.resistance);
  const valueIn = (row: number): number => {
    const current = main.results.from + known.nodes + row;
    const drop = current + known.isBranch.length;
    if (quantity === "current") return current;
    if (quantity === "power") return terms.emit(Op.Multiply, drop, current);
    if (quantity !== "loss") return drop;
    return resistance && isThere(resistance, row)
      ? lossIn(compiler, terms, current, resistance.results.from + row)
      : compiler.constant(0);
  };
  return columnOf(
    compiler,
    statement,
    rows.map((row) => (known.isBranch[row] ? valueIn(row) : undefined)),
  );
}

/** R·I², in which the current stands once. */
export function lossIn(compiler: Compiler, terms: NetworkTerms, current: number, resistance: number): number {
  return terms.emit(Op.Multiply, terms.emit(Op.Power, current, compiler.constant(2)), resistance);
}

function compileVoltages(compiler: Compiler, entry: Entry & { readonly statement: VoltageColumn }): SolvedColumn {
  const { statement } = entry;
  const network = readNetwork(compiler, entry);
  if (!network) return NO_COLUMN;
  const { branches, byRow, nodeCount } = network;
  const terms = new NetworkTerms(compiler, statement.name);
  const solution = new NetworkSolution(terms, nodeCount, branches);
  if (solution.isTooLarge) {
    compiler.startAgain();
    compiler.fail(statement.name, { code: "network.tooMeshed", branches: branches.length });
    return NO_COLUMN;
  }
  const { isReached } = solution;
  const voltages = statement.solved.names.map((_, i) =>
    isReached[i + 1] ? terms.value(solution.voltage(i + 1)) : undefined,
  );
  const isBranch = byRow.map((n) => n !== undefined && isReached[branches[n].from] && isReached[branches[n].to]);
  const inRows = (value: (branch: number) => Term) =>
    byRow.map((n, row) => (isBranch[row] ? terms.value(value(n!)) : undefined));
  const behind = [...inRows((n) => solution.current(n)), ...inRows((n) => solution.drop(n))];
  return columnOf(compiler, statement, voltages, { isBranch, nodes: voltages.length }, behind);
}

function columnOf(
  compiler: Compiler,
  { tree, solved, name }: SolvedStatement,
  values: readonly (number | undefined)[],
  network?: ColumnType["network"],
  behind: readonly (number | undefined)[] = [],
): SolvedColumn {
  const isPresent = values.map((value) => value !== undefined);
  const type: ColumnType = {
    kind: "column",
    length: values.length,
    of: "quantity",
    dimension: NETWORK_UNITS[solved.quantity].dimension,
    point: false,
    names: solved.names.map((node) => tree.text(node)),
    ...(isPresent.includes(false) ? { present: isPresent } : {}),
    ...(network ? { network } : {}),
  };
  const stores = [...values, ...behind].map((at, i) => ({
    at: at ?? compiler.constant(NaN),
    node: solved.names[i] ?? name,
  }));
  return { type, stores };
}

import { RATIO } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import { isName } from "../syntax/name";
import { isBetween } from "../syntax/network";
import { CellKind, type Column } from "../syntax/statement";
import { Kind, type Node } from "../syntax/tree";
import { ownCircle } from "./circles";
import { checkAssembly } from "./assembly";
import type { Compiler, Surroundings } from "./compile";
import { columnName, NO_TYPE, type ColumnType, type Entry, type EntryType } from "./entry";
import { SPARSE } from "./mentions";
import { NATIVES } from "./natives";
import { NETWORK_UNITS } from "./networkUnits";
import { quantity, textual, truth, type Operand } from "./operand";
import type { EngineProblem } from "./problem";
import { bracketUnit, shownIn } from "./shownIn";
import { commonUnit } from "./statedUnit";

/** A column while it is compiled: the cells that names, and paths into the column itself, stand for. */
export interface RowScope {
  cellOf(name: string, node: Node): Operand | undefined | "unnamed";
  cell(row: number): Operand | undefined;
}

/** A column compiled: its type, and for each row what is stored, undefined where the row has no value. */
export interface CompiledColumn {
  readonly type: EntryType;
  readonly unit?: Unit;
  readonly rows: readonly (Operand | undefined)[];
  /** It has no value in any row. */
  readonly isBlocked: boolean;
}

/** Rows named in one finding about a computed column; the others are counted. */
const ROWS_NAMED = 5;

/**
 * Compiles a column of a data table row by row. A row that has no value, or one of the wrong kind, costs that row only.
 * Cells may use cells of their own column, as long as they do not go round in a circle.
 */
export class ColumnCompiler implements RowScope {
  private readonly names: readonly string[];
  private readonly cells: (Operand | undefined)[] = [];
  private readonly state: ("open" | "done" | undefined)[] = [];
  private readonly unit?: Unit;
  /** The row whose cells names stand for. */
  private row = 0;

  constructor(
    private readonly compiler: Compiler,
    private readonly around: Surroundings,
    private readonly entry: Entry,
    private readonly statement: Column,
  ) {
    const head = entry.table?.type;
    this.names = head?.kind === "table" ? head.rows : [];
    if (statement.unit !== undefined) this.unit = bracketUnit(compiler, statement.unit);
  }

  compile(): CompiledColumn {
    const { statement, compiler } = this;
    const none: CompiledColumn = { type: NO_TYPE, rows: [], isBlocked: true };
    if (statement.tree.kind(statement.name) !== Kind.Name) return none;
    this.checkName();
    const length = statement.cells.length;
    if (statement.isText) {
      const texts = statement.cells.map((cell) => statement.tree.text(cell));
      if (this.entry.table) checkAssembly(compiler, { ...statement, of: texts }, this.entry.table);
      const type: ColumnType = { kind: "column", length, of: "text", ...PLAIN, texts };
      return { type, rows: [], isBlocked: false };
    }
    compiler.column = this;
    if (statement.value === undefined) for (let row = 0; row < length; row++) this.cell(row);
    else this.compute(statement.value, length);
    compiler.column = undefined;
    this.complainOfEmpty();
    return this.typed(none);
  }

  /** The value of a cell of this column; undefined where it has none, for which there is a reason. */
  cell(row: number): Operand | undefined {
    if (this.state[row] === "done") return this.cells[row];
    if (this.state[row] === "open" || this.statement.value !== undefined) return this.circle(row);
    this.state[row] = "open";
    const cell = this.stated(row);
    this.cells[row] = cell && this.inNetwork(this.fitting(cell));
    this.state[row] = "done";
    return this.cells[row];
  }

  /** What a name means in a computed column: the cell of the row at hand. */
  cellOf(name: string, node: Node): Operand | undefined | "unnamed" {
    const { entry, around, compiler } = this;
    if (!this.isComputing) return "unnamed";
    const column = entry.table && around.column(entry.table, name);
    if (!column) return "unnamed";
    if (column !== entry) return cellInRow(compiler, column, this.row, node);
    return compiler.fail(node, ownCircle(column));
  }

  private isComputing = false;

  private compute(value: Node, length: number): void {
    const { compiler, statement } = this;
    const troubles = new Map<string, { problem: EngineProblem; rows: number[] }>();
    this.isComputing = true;
    for (this.row = 0; this.row < length; this.row++) {
      const before = compiler.problems.length;
      compiler.allowMore();
      const operand = compiler.expression(value);
      const shown = operand && this.single(operand);
      this.cells[this.row] = this.inNetwork(
        shown && statement.unit !== undefined && this.unit
          ? shownIn(compiler, shown, this.unit, statement.unit)
          : shown,
      );
      for (const problem of compiler.problems.splice(before)) {
        const key = `${problem.code} ${problem.span.start} ${problem.span.end}`;
        const known = troubles.get(key);
        if (known) known.rows.push(this.row);
        else troubles.set(key, { problem, rows: [this.row] });
      }
    }
    this.isComputing = false;
    for (const { problem, rows } of troubles.values())
      compiler.problems.push(rows.length === length ? problem : this.inRows(problem, rows));
  }

  private inRows(problem: EngineProblem, rows: readonly number[]): EngineProblem {
    const named = rows.slice(0, ROWS_NAMED).map((row) => this.rowName(row));
    return { span: problem.span, code: "table.rows", rows: named, left: rows.length - named.length, problem };
  }

  private rowName(row: number): string {
    const name = this.names[row];
    return name ? name : `row ${row + 1}`;
  }

  private stated(row: number): Operand | undefined {
    const { compiler, statement } = this;
    const node = statement.cells[row];
    switch (statement.kinds[row]) {
      case CellKind.Value:
        return compiler.literalCell(node, this.unit, this.cellName(row));
      case CellKind.Expression: {
        const operand = compiler.expression(node);
        return operand && this.single(operand);
      }
      default:
        return undefined;
    }
  }

  /** A cell holds one value. */
  private single(operand: Operand): Operand | undefined {
    const { compiler } = this;
    const text = compiler.text(operand.node);
    if (operand.kind === "text")
      return compiler.fail(operand.node, { code: "text.unexpected", where: "in a cell", text });
    if (operand.isList) return compiler.fail(operand.node, { code: "list.unexpected", where: "in a cell", text });
    return operand;
  }

  /** A cell under a header with a unit is of that kind; a bare zero is taken for it. */
  private fitting(cell: Operand): Operand | undefined {
    const { compiler, unit } = this;
    if (!unit) return cell;
    if (cell.kind !== "quantity") return compiler.isQuantity(cell, "under a header with a unit") ? cell : undefined;
    const { isTemperatureScale: point } = unit;
    if (cell.isZero && !point) return { ...cell, dimension: unit.dimension, unit };
    if (cell.dimension === unit.dimension && cell.point === point) return { ...cell, unit };
    const side = compiler.side(cell);
    return compiler.fail(cell.node, {
      code: "unit.shownIn",
      wanted: unit.text,
      wantedDimension: unit.dimension,
      side,
    });
  }

  /** What lies between the ends of a network's branch is of the kind that its column says, and a resistance above zero. */
  private inNetwork(cell: Operand | undefined): Operand | undefined {
    const { role } = this.statement;
    if (!cell || !isBetween(role)) return cell;
    const { dimension } = NETWORK_UNITS[role];
    const text = this.compiler.text(cell.node);
    const isKind = cell.kind === "quantity" && (cell.isZero || (cell.dimension === dimension && !cell.point));
    if (!isKind) {
      const of = cell.kind === "quantity" ? { dimension: cell.dimension } : {};
      return this.compiler.fail(cell.node, { code: "network.kind", role, text, ...of });
    }
    if (role === "resistance" && cell.constant !== undefined && cell.constant <= 0)
      return this.compiler.fail(cell.node, { code: "network.resistance", text, isZero: cell.constant === 0 });
    return cell.isZero ? { ...cell, dimension } : cell;
  }

  private circle(row: number): undefined {
    const { compiler, statement } = this;
    const cell = statement.value === undefined ? this.cellName(row) : (this.entry.name ?? "");
    return compiler.fail(statement.value ?? statement.cells[row], ownCircle(this.entry, cell));
  }

  private cellName(row: number): string {
    const { table, tree, name } = this.statement;
    return cellName(table, this.names[row] ?? "", row, tree.text(name));
  }

  private checkName(): void {
    const { compiler, statement, names } = this;
    const name = statement.tree.text(statement.name);
    // A column is called `total` everywhere, and `total(n, x)` with its two arguments is not taken for it.
    if (NATIVES.has(name) && name !== "total") compiler.fail(statement.name, { code: "table.native", column: name });
    const { role, networkWord } = statement;
    if (networkWord !== undefined)
      compiler.fail(statement.name, { code: "network.header", column: name, word: networkWord });
    if (role === "result" || role === "second")
      compiler.fail(statement.name, { code: "network.column", column: name, is: role });
    if (names.includes(name))
      compiler.fail(statement.name, { code: "table.rowLikeColumn", table: statement.table, row: name });
  }

  /** In an assembly and in a circuit a cell may be left empty; elsewhere what rests on it has no value. */
  private complainOfEmpty(): void {
    const { statement, compiler, entry, around } = this;
    if (statement.value !== undefined || !entry.table) return;
    const isCount = statement.tree.text(statement.name) === "qty";
    if (!isCount && SPARSE.some((names) => names.every((name) => around.column(entry.table!, name)))) return;
    const column = columnName(statement.table, statement.tree.text(statement.name));
    statement.kinds.forEach((kind, row) => {
      if (kind !== CellKind.Empty) return;
      const start = lineStart(statement.text, row + 1);
      compiler.complain({ start, end: start }, { code: "table.emptyCell", row: this.rowName(row), column });
    });
  }

  /** Of what lies between the ends of a network's branches: the rows that say something and have no value. */
  private failedRows(): Pick<ColumnType, "failed"> {
    const { statement, cells } = this;
    if (!isBetween(statement.role)) return {};
    const isEmpty = (row: number) => statement.value === undefined && statement.kinds[row] === CellKind.Empty;
    const failed = statement.cells.map((_, row) => row).filter((row) => cells[row] === undefined && !isEmpty(row));
    return failed.length > 0 ? { failed } : {};
  }

  private typed(none: CompiledColumn): CompiledColumn {
    const { cells, compiler } = this;
    const length = this.statement.cells.length;
    const known = cells.filter((cell) => cell !== undefined);
    // What is wrong with a list of nothing is said where one is needed.
    if (length === 0) return { type: { kind: "column", length, of: "quantity", ...PLAIN }, rows: [], isBlocked: false };
    if (known.length === 0) return none;
    const failed = this.failedRows();
    const odd = known.find(({ kind }) => kind !== known[0].kind);
    if (odd) {
      compiler.isQuantity(odd.kind === "truth" ? odd : known[0], "in a column of quantities");
      return none;
    }
    const present = known.length < length ? { present: cells.map((cell) => cell !== undefined) } : {};
    if (known[0].kind === "truth")
      return { type: { kind: "column", length, of: "truth", ...PLAIN, ...present }, rows: cells, isBlocked: false };
    const first = known.find(({ isZero }) => !isZero) ?? known[0];
    const { dimension, point } = first;
    const isUniform = known.every((cell) => cell.isZero || (cell.dimension === dimension && cell.point === point));
    const base = { kind: "column", length, of: "quantity", dimension, point, ...present, ...failed } as const;
    if (isUniform) return { type: base, unit: this.unit ?? commonUnit(known), rows: cells, isBlocked: false };
    const mixed = cells.map((cell) =>
      cell ? { dimension: cell.dimension, point: cell.point, unit: commonUnit([cell]) } : { dimension, point },
    );
    return { type: { ...base, mixed }, rows: cells, isBlocked: false };
  }
}

const PLAIN = { dimension: RATIO, point: false } as const;

/** How a cell is named: `parts.bar.price`, `parts["M3×8"].price`. */
export function cellName(table: string, row: string, index: number, column: string): string {
  if (row === "") return `${columnName(table, column)}[${index + 1}]`;
  return isName(row) ? `${table}.${row}.${column}` : `${table}["${row}"].${column}`;
}

/** The names of a column's rows: those of its table, or of what a network comes to its own. */
export function rowNames({ type, table }: Entry): readonly string[] {
  if (type.kind === "column" && type.names) return type.names;
  return table?.type.kind === "table" ? table.type.rows : [];
}

/** A column as a list of its cells. */
export function columnOperand(compiler: Compiler, column: Entry, node: Node): Operand | undefined {
  const { type, unit } = column;
  const name = column.name ?? "";
  if (type.kind !== "column") return compiler.block(name);
  const names = rowNames(column);
  if (type.length === 0)
    return compiler.fail(node, { code: "list.unexpected", where: "here, because its table has no rows", text: name });
  compiler.seeRows(names);
  if (type.of === "text") return textual(node, type.texts ?? [], true);
  const at = Array.from({ length: type.length }, (_, i) => valueAt(compiler, column, i, node));
  if (type.of === "truth") return truth(node, at, true);
  if (!type.mixed || compiler.isCounting)
    return quantity(node, type.dimension, at, { point: type.point, isList: true, unit });
  const { mixed } = type;
  const kindAt = (row: number) => ({ row: names[row] || `row ${row + 1}`, ...mixed[row] });
  const odd = mixed.findIndex(({ dimension, point }) => dimension !== mixed[0].dimension || point !== mixed[0].point);
  return compiler.fail(node, { code: "table.mixed", column: name, left: kindAt(0), right: kindAt(odd) });
}

/** The cell of a column in a row of its table. A network's voltages are of nodes, and stand in no row. */
export function cellInRow(compiler: Compiler, column: Entry, row: number, node: Node): Operand | undefined {
  const { statement, type } = column;
  const solved = statement.kind === "column" ? statement.solved : undefined;
  const index = solved ? solved.rows.indexOf(row) : row;
  if (index >= 0 || type.kind !== "column") return cellOperand(compiler, column, index, node);
  const table = column.table?.name ?? "";
  const name = column.table?.type.kind === "table" ? column.table.type.rows[row] : "";
  return compiler.fail(node, {
    code: "table.unknown",
    table,
    name,
    is: solved?.quantity === "voltage" ? "node" : "row",
    has: (type.names ?? []).slice(0, NAMES_SHOWN),
  });
}

/** Names of rows or columns that a finding lists. */
export const NAMES_SHOWN = 12;

/** The operand of a value of a column; of a network's in the case that is looked at, and of a further piece its own. */
function valueAt(compiler: Compiler, column: Entry, index: number, node: Node): number {
  const { statement, results, differs } = column;
  const { networkCase } = compiler;
  const isSolved = networkCase && statement.kind === "column" && statement.solved;
  const inCase = isSolved ? networkCase.valueAt(column, index) : undefined;
  const isOther = inCase === undefined && differs && compiler.frame.piece !== undefined;
  return inCase ?? (isOther ? compiler.instances.ofCell(column, index, node) : undefined) ?? results.from + index;
}

/** One cell of a column. */
export function cellOperand(compiler: Compiler, column: Entry, row: number, node: Node): Operand | undefined {
  const { type } = column;
  if (type.kind !== "column") return compiler.block(column.name ?? "");
  if (type.of === "text") return textual(node, [type.texts![row]], false);
  if (type.present && !type.present[row]) {
    const rowName = rowNames(column)[row];
    const { statement } = column;
    return compiler.block(
      statement.kind === "column"
        ? cellName(statement.table, rowName, row, statement.tree.text(statement.name))
        : (column.name ?? ""),
    );
  }
  const at = [valueAt(compiler, column, row, node)];
  if (type.of === "truth") return truth(node, at, false);
  const { dimension, point, unit } = type.mixed?.[row] ?? { ...type, unit: column.unit };
  return quantity(node, dimension, at, { point, unit });
}

/** Where the n-th line of a text begins. */
function lineStart(text: string, line: number): number {
  let at = 0;
  for (let i = 0; i < line; i++) at = text.indexOf("\n", at) + 1;
  return at;
}

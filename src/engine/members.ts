import type { Node } from "../syntax/tree";
import { ownCircle } from "./circles";
import { cellInRow, cellOperand, columnOperand, NAMES_SHOWN, rowNames } from "./columns";
import type { Compiler } from "./compile";
import { kindOf, type Entry } from "./entry";
import type { Operand } from "./operand";
import { pathOf, type Path, type Step } from "./paths";
import { isTableFile, usedPath } from "./uses";
import { nearestName } from "./suggest";

/** What a path leads to in a table: a column, a row, or a cell. */
interface InTable {
  readonly table: Entry;
  readonly column?: Entry;
  readonly row?: number;
}

/** A path followed as far as it names entries: the last of them, what is written up to there, and the steps that are left. */
interface Followed {
  readonly entry: Entry;
  readonly written: string;
  readonly at: Node;
  readonly left: readonly Step[];
}

/** The value at the end of a path that begins with an entry: of another note, a column or a cell of a table, of a part. */
export function compilePath(
  compiler: Compiler,
  node: Node,
  found: Entry,
  path: Path,
  use: (entry: Entry, name: string) => Operand | undefined,
): Operand | undefined {
  const followed = follow(compiler, found, path);
  if (!followed) return undefined;
  const { entry, written, at, left } = followed;
  if (entry.type.kind === "none" && left.length > 0 && HOLDERS.has(entry.statement.kind))
    return compiler.block(written);
  if (entry.type.kind === "part") {
    const { table, row } = entry.type;
    const column = ofColumn(compiler, table, left[0], left.length);
    return column && cellInRow(compiler, column, row, node);
  }
  if (entry.statement.kind === "table") {
    const inTable = within(compiler, entry, left, node);
    if (!inTable) return undefined;
    const { column, row } = inTable;
    if (!column) return compiler.wrongKind(node, compiler.text(node), "row", "quantity");
    if (compiler.isTop(column)) return row === undefined ? circle(compiler, column, node) : compiler.column?.cell(row);
    return row === undefined ? columnOperand(compiler, column, node) : cellOperand(compiler, column, row, node);
  }
  if (left.length === 0) return use(entry, written);
  return compiler.wrongKind(at, written, kindOf(entry), "note");
}

/** The row that a path leads to, to be chosen as a part; undefined where it leads elsewhere. */
export function partAt(compiler: Compiler, node: Node): { table: Entry; row: number } | undefined {
  const path = pathOf(compiler.tree, node, compiler.statementText);
  const found = path && compiler.find(compiler.tree.text(path.base));
  if (!path || !found) return undefined;
  let [entry, left]: [Entry | undefined, readonly Step[]] = [compiler.tableUsedBy(found) ?? found, path.steps];
  while (entry?.statement.kind === "use" && left.length > 0) {
    entry = compiler.member(entry, left[0].name);
    left = left.slice(1);
  }
  if (entry?.type.kind !== "table" || left.length !== 1) return undefined;
  const row = entry.type.rows.indexOf(left[0].name);
  return row < 0 || (!left[0].isKey && compiler.columnOf(entry, left[0].name)) ? undefined : { table: entry, row };
}

/** The column that a path names, and its table; undefined where it names none. */
export function columnAt(compiler: Compiler, node: Node): { column: Entry; table: Entry } | undefined {
  const path = pathOf(compiler.tree, node, compiler.statementText);
  const found = path && compiler.find(compiler.tree.text(path.base));
  let entry = found && (compiler.tableUsedBy(found) ?? found);
  let left = path?.steps ?? [];
  while (entry?.statement.kind === "use" && left.length > 0) {
    entry = compiler.member(entry, left[0].name);
    left = left.slice(1);
  }
  const column = entry?.type.kind === "table" && left.length === 1 ? compiler.columnOf(entry, left[0].name) : undefined;
  return entry && column && { column, table: entry };
}

/** Goes from note to note, as long as the steps name entries of them. */
function follow(compiler: Compiler, found: Entry, { base, steps }: Path): Followed | undefined {
  let entry = compiler.tableUsedBy(found) ?? found;
  let written = compiler.tree.text(base);
  let at = base;
  let left = steps;
  while (entry.statement.kind === "use" && left.length > 0) {
    const [step] = left;
    const next = step.isKey ? undefined : compiler.member(entry, step.name);
    const name = `${written}.${step.name}`;
    if (!next) {
      // A file in which there is nothing is told of where it is used.
      if (entry.type.kind === "none" || isTableFile(usedPath(entry) ?? "")) return compiler.block(written);
      return compiler.fail(step.node, { code: "name.unknown", name, isUnit: false });
    }
    [entry, written, at, left] = [next, name, step.node, left.slice(1)];
  }
  return { entry, written, at, left };
}

/** A column beats a row of the same name. */
function within(compiler: Compiler, table: Entry, steps: readonly Step[], node: Node): InTable | undefined {
  const name = table.name ?? "";
  const [first, second] = steps;
  if (steps.length === 0) return compiler.wrongKind(node, name, "table", "quantity");
  const column = first.isKey ? undefined : compiler.columnOf(table, first.name);
  if (steps.length === 1 && column) return { table, column };
  const named = second && !second.isKey ? compiler.columnOf(table, second.name) : undefined;
  const solved = named?.statement.kind === "column" ? named.statement.solved : undefined;
  if (solved && named?.type.kind === "none") return compiler.block(named.name ?? "");
  const rows = named ? rowNames(named) : table.type.kind === "table" ? table.type.rows : [];
  const row = rows.indexOf(first.name);
  const isNode = solved?.quantity === "voltage";
  if (row < 0)
    return unknown(compiler, table, first, steps.length === 1 ? "column" : isNode ? "node" : "row", rows, second?.name);
  if (steps.length === 1) return { table, row };
  complainOfRepeated(compiler, table, first, rows, row);
  const ofRow = ofColumn(compiler, table, second, steps.length - 1);
  return ofRow && { table, row, column: ofRow };
}

/** In a file several rows may have one name, and then a reader cannot tell which is meant by it. */
function complainOfRepeated(compiler: Compiler, table: Entry, step: Step, rows: readonly string[], row: number): void {
  if (!table.note.isTable || !rows.includes(step.name, row + 1)) return;
  const count = rows.filter((each) => each === step.name).length;
  compiler.complain(compiler.tree.span(step.node), {
    code: "table.repeatedRow",
    row: step.name,
    table: table.name ?? "",
    count,
  });
}

/** The column that the last step of a path names. */
function ofColumn(compiler: Compiler, table: Entry, step: Step, steps: number): Entry | undefined {
  const column = step.isKey ? undefined : compiler.columnOf(table, step.name);
  if (!column) return unknown(compiler, table, step, "column", []);
  if (steps === 1) return column;
  return compiler.wrongKind(step.node, step.name, "column", "note");
}

function unknown(
  compiler: Compiler,
  table: Entry,
  step: Step,
  is: "row" | "column" | "node",
  rows: readonly string[],
  asked?: string,
): undefined {
  const columns = compiler.columnsOf(table);
  if (table.note.isTable && columns.length === 0) return compiler.block(table.name ?? "");
  const has = is !== "column" ? rows.filter((row) => row !== "") : columns;
  const suggestion = nearestName(is !== "column" ? has : [...columns, ...rows], step.name);
  return compiler.fail(step.node, {
    code: "table.unknown",
    table: table.name ?? "",
    name: step.name,
    is,
    ...(asked === undefined ? {} : { asked }),
    ...(suggestion === undefined ? {} : { suggestion }),
    has: has.slice(0, NAMES_SHOWN),
  });
}

/** The statements of whose names something can be named behind a dot. */
const HOLDERS: ReadonlySet<string> = new Set(["use", "table", "choice"]);

function circle(compiler: Compiler, column: Entry, node: Node): undefined {
  return compiler.fail(node, ownCircle(column));
}

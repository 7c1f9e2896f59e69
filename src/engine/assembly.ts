import { multiply, type Dimension } from "../quantity/dimension";
import { CellKind, type Column } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import { cellName } from "./columns";
import type { Compiler } from "./compile";
import type { ColumnType, Entry } from "./entry";
import { quantity, type Operand } from "./operand";
import { Op } from "./operation";
import { nearestName } from "./suggest";

/** Which part a row of an assembly is, and of which it is part; at the top nothing is named. */
interface Edges {
  readonly part: readonly string[];
  readonly of: readonly string[];
}

/** Parts named in one finding; the others are counted. */
const PARTS_NAMED = 5;

/** A value on its way through the tree. */
interface Carried {
  readonly at: number;
  readonly dimension: Dimension;
}

/**
 * `rollup(parts.mass)`: the sum over all parts of an assembly, each as often as it occurs. The table has the columns `part`
 * (or the names of the rows), `of` and `qty`: how many are in one of what it is part of.
 */
export function compileRollup(
  compiler: Compiler,
  node: Node,
  list: Operand,
  column: Entry,
  table: Entry,
): Operand | undefined {
  return new Rollup(compiler, node, list, column, table).total();
}

class Rollup {
  private readonly counts = new Map<string, Carried | undefined>();
  private readonly open = new Set<string>();
  private qty?: Entry;
  private edges?: Edges;

  constructor(
    private readonly compiler: Compiler,
    private readonly node: Node,
    private readonly list: Operand,
    private readonly column: Entry,
    private readonly table: Entry,
  ) {}

  total(): Operand | undefined {
    const { compiler, node, table, list } = this;
    this.qty = compiler.columnOf(table, "qty");
    this.edges = edgesOf(compiler, table);
    if (!this.qty || !this.edges)
      return compiler.fail(node, {
        code: "function.arguments",
        name: "rollup",
        reason: "needs a table with the columns `part`, `of` and `qty`",
        signature: "rollup(table.column)",
      });
    const { part, of } = this.edges;
    if (this.isLeftEmpty()) return undefined;
    let sum: Carried | undefined;
    for (let row = 0; row < part.length; row++) {
      // A part that occurs again need not have its value written again.
      const from = isPresent(this.column, row)
        ? row
        : part.findIndex((each, i) => each === part[row] && isPresent(this.column, i));
      if (from < 0) {
        // An assembly without a value of its own is what its parts are.
        if (of.includes(part[row])) continue;
        return this.missing(this.column, row);
      }
      const count = this.countOf(row);
      if (!count) return undefined;
      const each = this.times(count, { at: list.at[from], dimension: list.dimension });
      sum = sum ? this.plus(sum, each) : each;
      if (!sum) return undefined;
    }
    if (!sum) return compiler.block(this.column.name ?? "");
    return quantity(node, sum.dimension, [sum.at]);
  }

  /** Reports the parts that have neither a value nor parts of their own, where their cells are empty. */
  private isLeftEmpty(): boolean {
    const { statement } = this.column;
    const { part, of } = this.edges!;
    if (statement.kind !== "column" || statement.value !== undefined) return false;
    const { kinds } = statement;
    const valued = new Set(part.filter((_, row) => kinds[row] !== CellKind.Empty));
    const parents = new Set(of);
    const empty = [...new Set(part)].filter((each) => !valued.has(each) && !parents.has(each));
    if (empty.length === 0) return false;
    const shown = empty.slice(0, PARTS_NAMED);
    const column = this.column.name ?? "";
    this.compiler.fail(this.list.node, {
      code: "table.partEmpty",
      column,
      parts: shown,
      left: empty.length - shown.length,
    });
    return true;
  }

  /** How many of a row there are in all. */
  private countOf(row: number): Carried | undefined {
    const { type, results } = this.qty!;
    if (type.kind !== "column" || type.of !== "quantity") return this.compiler.block(this.qty!.name ?? "");
    if (!isPresent(this.qty!, row)) return this.missing(this.qty!, row);
    const own = { at: results.from + row, dimension: type.mixed?.[row].dimension ?? type.dimension };
    const parent = this.edges!.of[row];
    if (parent === "") return own;
    const parents = this.countOfPart(parent);
    return parents && this.times(parents, own);
  }

  private countOfPart(part: string): Carried | undefined {
    if (this.counts.has(part)) return this.counts.get(part);
    // A loop, or a part that is in no row: the column `of` says which.
    const rows = this.edges!.part.flatMap((each, row) => (each === part ? [row] : []));
    if (rows.length === 0 || this.open.has(part)) return this.compiler.block(`${this.table.name ?? ""}.of`);
    this.open.add(part);
    let sum: Carried | undefined;
    for (const row of rows) {
      const count = this.countOf(row);
      sum = count && (sum ? this.plus(sum, count) : count);
      if (!sum) break;
    }
    this.open.delete(part);
    this.counts.set(part, sum);
    return sum;
  }

  private times(a: Carried, b: Carried): Carried {
    const at = this.compiler.emit(Op.Multiply, this.node, a.at, b.at);
    return { at, dimension: multiply(a.dimension, b.dimension) };
  }

  private plus(a: Carried, b: Carried): Carried | undefined {
    const { compiler, node } = this;
    if (a.dimension === b.dimension) return { at: compiler.emit(Op.Add, node, a.at, b.at), dimension: a.dimension };
    return compiler.mismatch(
      { kind: "add" },
      quantity(node, a.dimension, [a.at]),
      quantity(node, b.dimension, [b.at]),
      node,
    );
  }

  private missing(column: Entry, row: number): undefined {
    const { statement } = column;
    const names = this.table.type.kind === "table" ? this.table.type.rows : [];
    const name = statement.kind === "column" ? statement.tree.text(statement.name) : "";
    return this.compiler.block(cellName(this.table.name ?? "", names[row] ?? "", row, name));
  }
}

/** The parts of an assembly and what each is of; undefined where the table is none. */
function edgesOf(compiler: Compiler, table: Entry): Edges | undefined {
  const textsOf = (name: string) => {
    const type = compiler.columnOf(table, name)?.type;
    return type?.kind === "column" ? type.texts : undefined;
  };
  const of = textsOf("of");
  const part = textsOf("part") ?? (table.type.kind === "table" ? table.type.rows : undefined);
  return of && part && { part, of };
}

function isPresent({ type }: Entry, row: number): boolean {
  return type.kind === "column" && (type.present?.[row] ?? true);
}

/** Reports, in the column `of` of an assembly, what is part of itself and what is part of nothing that there is. */
export function checkAssembly(
  compiler: Compiler,
  { of, cells, kinds, tree, name }: AssemblyColumn,
  table: Entry,
): void {
  if (tree.text(name) !== "of" || !compiler.columnOf(table, "qty")) return;
  const partType = compiler.columnOf(table, "part")?.type;
  const part =
    (partType?.kind === "column" ? partType.texts : undefined) ?? (table.type.kind === "table" ? table.type.rows : []);
  const known = new Set(part);
  const parentsOf = new Map<string, string[]>();
  part.forEach((each, row) => {
    const parents = parentsOf.get(each) ?? [];
    if (of[row] !== "") parents.push(of[row]);
    parentsOf.set(each, parents);
  });
  of.forEach((parent, row) => {
    if (parent === "" || kinds[row] === CellKind.Empty) return;
    if (!known.has(parent)) {
      const suggestion = nearestName([...known], parent);
      compiler.fail(cells[row], {
        code: "table.unknownPart",
        part: parent,
        ...(suggestion === undefined ? {} : { suggestion }),
      });
    } else if (reaches(parent, part[row], parentsOf)) {
      compiler.fail(cells[row], { code: "table.loop", part: part[row], of: parent });
    }
  });
}

export interface AssemblyColumn extends Pick<Column, "cells" | "kinds" | "tree" | "name"> {
  readonly of: NonNullable<ColumnType["texts"]>;
}

/** Whether one part is, by way of others, part of another, or the same. */
function reaches(from: string, to: string, parentsOf: ReadonlyMap<string, readonly string[]>): boolean {
  const seen = new Set([from]);
  for (const part of seen) {
    if (part === to) return true;
    for (const parent of parentsOf.get(part) ?? []) seen.add(parent);
  }
  return false;
}

import { isSeriesName } from "../quantity/series";
import { CellKind, type Column, type Solved, type Statement } from "../syntax/statement";
import { columnName } from "./entry";
import { withOneMore } from "./entryLists";
import { namedSteps, pathOf } from "./paths";
import { Kind, NONE, type Node, type Tree } from "../syntax/tree";
import { isChapter } from "./handbook";

/** A place where a statement uses a name that is defined elsewhere. */
export interface Mention {
  /** `burden`, or `supply` of `supply.voltage`. */
  readonly name: string;
  /** `voltage` of `supply.voltage`, where the name turns out to be another note. */
  readonly member?: string;
  /** The node of the name, and of the member. */
  readonly node: Node;
  readonly memberNode?: Node;
  /** Behind `voltage` where more follows: the other names of `supply.parts.qty`, for tables of other notes. */
  readonly steps?: readonly string[];
  /** Inside a computed column: the column that is meant instead, if the table has it. */
  readonly unless?: string;
  /** `call`: brackets follow. `unit`: the word stands where a unit belongs. `target`: a measurement or an override is of it. `column`: the column of a table, if there is one. */
  readonly use: "value" | "call" | "unit" | "target" | "column";
}

const NO_MENTIONS: readonly Mention[] = [];

/** All names that a statement mentions, in the order in which they are written; those bound inside it are left out. */
export function mentionsOf(statement: Statement): readonly Mention[] {
  const walk = new Walk(statement.tree, statement.text);
  switch (statement.kind) {
    case "given":
    case "assume":
      walk.expression(statement.value);
      if (statement.each?.item !== undefined) walk.item(statement.each.item);
      break;
    case "over":
    case "choice":
    case "order":
      walk.expression(statement.value);
      break;
    case "derived":
      if (statement.unit !== undefined) walk.unit(statement.unit);
      walk.expression(statement.value);
      if (statement.choice) {
        walk.expression(statement.choice.value);
        if (statement.choice.from !== undefined) walk.choiceFrom(statement.choice.from);
      }
      break;
    case "function":
      for (const parameter of statement.parameters) {
        if (parameter.unit !== undefined) walk.unit(parameter.unit);
        if (parameter.default !== undefined) walk.expression(parameter.default);
      }
      if (statement.unit !== undefined) walk.unit(statement.unit);
      walk.within(
        statement.parameters.map(({ name }) => statement.tree.text(name)),
        () => {
          walk.expression(statement.value);
          if (statement.domain !== undefined) walk.expression(statement.domain);
        },
      );
      break;
    case "measured":
      walk.target(statement.name);
      walk.expression(statement.value);
      for (const { name, value } of statement.at) {
        walk.target(name);
        walk.expression(value);
      }
      break;
    case "rule":
      walk.expression(statement.condition);
      break;
    case "let":
      walk.expression(statement.bracket);
      walk.within([statement.tree.text(statement.name)], () => {
        walk.expression(statement.left);
        walk.expression(statement.right);
      });
      break;
    case "plot":
      walk.expression(statement.range);
      walk.within([statement.tree.text(statement.name)], () =>
        statement.expressions.forEach((e) => walk.expression(e)),
      );
      break;
    case "variant":
      for (const { name, value } of statement.settings) {
        walk.target(name);
        walk.expression(value);
      }
      break;
    case "column":
      if (statement.unit !== undefined) walk.unit(statement.unit);
      if (statement.value !== undefined) walk.row(statement.table, statement.value);
      for (const cell of statement.cells) if (cell !== NONE) walk.expression(cell);
      walk.tableAround(statement);
      if (statement.solved) walk.network(statement, statement.solved);
      break;
    case "correlation":
      walk.target(statement.first);
      walk.target(statement.second);
      break;
  }
  return walk.found;
}

/** The columns by which a table is an assembly. */
export const ASSEMBLY: readonly string[] = ["part", "of", "qty"];

/** Columns that a call looks at along with those that are named in it: by which an assembly is rolled up, and a network worked out. */
const ALONG: ReadonlyMap<string, readonly string[]> = new Map([
  ["rollup", ASSEMBLY],
  ["with_open", ["voltage", "resistance", "R", "source", "V", "load", "I"]],
]);

/** Tables in which cells are left empty: assemblies, where only parts have a mass, and networks. */
export const SPARSE: readonly (readonly string[])[] = [
  ["part", "of"],
  ["from", "to"],
];

class Walk {
  found: readonly Mention[] = NO_MENTIONS;
  private bound: readonly string[] = [];

  /** Columns that are looked at along with one that is named. */
  private along: readonly string[] = [];
  /** The table of whose rows the cells are meant. */
  private table?: string;

  constructor(
    private readonly tree: Tree,
    private readonly text: string,
  ) {}

  /** What is counted, by itself: `each LED`. */
  item(node: Node): void {
    this.add({ name: this.tree.text(node), node, use: "unit" });
  }

  /** What is computed for every row: names mean its cells first. */
  row(table: string, node: Node): void {
    this.table = table;
    this.expression(node);
    this.table = undefined;
  }

  /** What a column asks of its table: whether others are there, and in an assembly which parts there are. */
  tableAround({ table, name, kinds }: Column): void {
    const isParent = this.tree.text(name) === "of";
    if (isParent) this.column(table, "part", name);
    const asked = [...(isParent ? ["qty"] : []), ...(kinds.includes(CellKind.Empty) ? SPARSE.flat() : [])];
    for (const other of asked) this.add({ name: columnName(table, other), node: name, use: "target" });
  }

  /** What a network is worked out from. */
  network({ table, name }: Column, { quantity, columns }: Solved): void {
    if (quantity !== "voltage") this.column(table, "voltage", name);
    const { resistance, source, load } = columns;
    const read = quantity === "voltage" ? [resistance, source, load] : quantity === "loss" ? [resistance] : [];
    for (const column of read) if (column !== undefined) this.column(table, column, name);
  }

  /** The column of a table that is looked at without being named. */
  column(table: string, name: string, node: Node): void {
    this.add({ name: columnName(table, name), node, use: "column" });
  }

  /** Walks what lies in the scope of names that are bound there. */
  within(names: readonly string[], walk: () => void): void {
    const outer = this.bound;
    this.bound = [...outer, ...names];
    walk();
    this.bound = outer;
  }

  private add(mention: Mention): void {
    this.found = withOneMore(this.found, mention);
  }

  target(node: Node): void {
    this.add({ name: this.tree.text(node), node, use: "target" });
  }

  /** A series such as `E24` is no name of a note; a list or a column is. */
  choiceFrom(node: Node): void {
    if (this.tree.kind(node) !== Kind.Name || !isSeriesName(this.tree.text(node))) this.expression(node);
  }

  unit(node: Node): void {
    const { tree } = this;
    for (let power = tree.first(node); power !== NONE; power = tree.next(power))
      this.add({ name: tree.text(power), node: power, use: "unit" });
  }

  expression(node: Node, use: "value" | "call" = "value"): void {
    const { tree } = this;
    switch (tree.kind(node)) {
      case Kind.Name:
        return this.name(node, use);
      case Kind.Unit:
        return this.unit(node);
      case Kind.Member:
      case Kind.Index:
        return this.path(node, use);
      case Kind.Call: {
        const callee = tree.first(node);
        this.expression(callee, "call");
        const outer = this.along;
        this.along = [...outer, ...((tree.kind(callee) === Kind.Name && ALONG.get(tree.text(callee))) || [])];
        for (let argument = tree.next(callee); argument !== NONE; argument = tree.next(argument))
          this.expression(argument);
        this.along = outer;
        return;
      }
      case Kind.Without:
        this.expression(tree.first(node));
        for (let item = tree.next(tree.first(node)); item !== NONE; item = tree.next(item)) this.item(item);
        return;
      case Kind.For: {
        const [body, name, ...limits] = tree.children(node);
        for (const limit of limits) this.expression(limit);
        return this.within([tree.text(name)], () => this.expression(body));
      }
      case Kind.Binary: {
        const chain = tree.chain(node);
        this.expression(tree.first(chain[0]));
        for (const link of chain) this.expression(tree.next(tree.first(link)));
        return;
      }
      default:
        for (let child = tree.first(node); child !== NONE; child = tree.next(child)) this.expression(child);
    }
  }

  private name(node: Node, use: "value" | "call"): void {
    const name = this.tree.text(node);
    if (this.bound.includes(name)) return;
    if (this.table === undefined || use === "call") return this.add({ name, node, use });
    this.add({ name, node, use, unless: columnName(this.table, name) });
    this.column(this.table, name, node);
  }

  private path(node: Node, use: "value" | "call"): void {
    const { tree } = this;
    const path = pathOf(tree, node, this.text);
    const name = path && tree.text(path.base);
    if (!path || !name || (this.bound.includes(name) && !isChapter(name))) return this.expression(tree.first(node));
    const [first, ...others] = namedSteps(path);
    const member = first && { member: first.name, memberNode: first.node };
    const names = [...others.map((step) => step.name), ...this.along];
    const steps = names.length > 0 ? { steps: names } : {};
    this.add({ name, node: path.base, ...member, ...steps, use });
    if (use !== "call") for (const step of namedSteps(path)) this.column(name, step.name, step.node);
  }
}

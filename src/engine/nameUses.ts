import { isSeriesName } from "../quantity/series";
import { Class, nameLength } from "../syntax/character";
import type { FunctionDefinition, Statement } from "../syntax/statement";
import { Kind, NONE, type Node, type Tree } from "../syntax/tree";
import type { Span } from "../text/span";
import { declaredNames } from "./entry";
import { pathOf, type Step } from "./paths";

/** A place in a statement where a name stands, for those who show, follow and rename names. */
export interface NameUse {
  /** In its compared form. */
  readonly name: string;
  readonly node: Node;
  /** Of the name alone, counted from the statement's start. */
  readonly span: Span;
  /**
   * `call`: brackets follow. `unit`: it stands where a unit belongs. `target`: a measurement or an override is of it.
   * `bound`: it is bound in this statement, where it is bound and where it is used. `argument`: it names an argument.
   * `row`: it names a row of a table, in the first column.
   */
  readonly role: "declaration" | "value" | "call" | "unit" | "target" | "bound" | "argument" | "series" | "row";
  /** In a column: the table it is of. Its header's formula means columns of that table first. */
  readonly table?: string;
  /** The name before the first dot, where this is a member; and all that stands behind that, up to this. */
  readonly object?: string;
  readonly steps?: readonly Step[];
  /** The name behind the dot, where a member of this is named. */
  readonly member?: string;
  /** Of what is `bound`: the node that binds it. */
  readonly binder?: Node;
  /** Of an `argument`: what is called. */
  readonly callee?: { readonly name: string; readonly object?: string };
  /** The names that the statement binds for this place. */
  readonly scope: readonly string[];
}

const known = new WeakMap<Statement, readonly NameUse[]>();

/** All names of a statement in the order of its text, also those of a statement that could not be read to its end. */
export function nameUsesOf(statement: Statement): readonly NameUse[] {
  let uses = known.get(statement);
  if (!uses) {
    uses = new Walk(statement).uses().sort((a, b) => a.span.start - b.span.start);
    known.set(statement, uses);
  }
  return uses;
}

interface Binding {
  readonly name: string;
  readonly binder: Node;
}

class Walk {
  private readonly found: NameUse[] = [];
  private readonly tree: Tree;
  private bindings: readonly Binding[] = [];
  private table?: string;

  constructor(private readonly statement: Statement) {
    this.tree = statement.tree;
  }

  uses(): NameUse[] {
    const { statement } = this;
    const ofTable = statement.kind === "column" ? { table: statement.table } : {};
    // What a network comes to is written nowhere.
    const isWritten = statement.kind !== "column" || !statement.solved;
    if (isWritten) for (const { node } of declaredNames(statement)) this.add(node, "declaration", ofTable);
    switch (statement.kind) {
      case "given":
      case "assume":
        this.expression(statement.value);
        if (statement.each?.item !== undefined) this.add(statement.each.item, "unit");
        break;
      case "over":
      case "choice":
      case "order":
        this.expression(statement.value);
        break;
      case "derived":
        if (statement.unit !== undefined) this.unit(statement.unit);
        this.expression(statement.value);
        if (statement.choice) {
          this.expression(statement.choice.value);
          if (statement.choice.from !== undefined) this.choiceFrom(statement.choice.from);
        }
        break;
      case "function":
        this.functionDefinition(statement);
        break;
      case "measured":
        this.settings([{ name: statement.name, value: statement.value }, ...statement.at]);
        break;
      case "variant":
        this.settings(statement.settings);
        break;
      case "rule":
        this.expression(statement.condition);
        break;
      case "let":
        // The unknown is the quantity itself: inside, its name stands for what it is outside.
        this.expression(statement.bracket);
        this.expression(statement.left);
        this.expression(statement.right);
        break;
      case "plot":
        this.expression(statement.range);
        this.binding([statement.name], () => statement.expressions.forEach((each) => this.expression(each)));
        break;
      case "correlation":
        this.add(statement.first, "target");
        this.add(statement.second, "target");
        break;
      case "table":
        for (const row of statement.rows) this.key(row, "row");
        break;
      case "column":
        if (statement.unit !== undefined) this.unit(statement.unit);
        this.table = statement.table;
        if (statement.value !== undefined) this.expression(statement.value);
        this.table = undefined;
        for (const cell of statement.cells) if (cell !== NONE) this.expression(cell);
        break;
      case "broken":
        this.whatWasRead(statement.name);
        break;
    }
    return this.found;
  }

  private functionDefinition({ parameters, unit, value, domain }: FunctionDefinition): void {
    for (const parameter of parameters) {
      if (parameter.unit !== undefined) this.unit(parameter.unit);
      if (parameter.default !== undefined) this.expression(parameter.default);
    }
    if (unit !== undefined) this.unit(unit);
    this.binding(
      parameters.map(({ name }) => name),
      () => {
        this.expression(value);
        if (domain !== undefined) this.expression(domain);
      },
    );
  }

  private settings(settings: readonly { readonly name: Node; readonly value: Node }[]): void {
    for (const { name, value } of settings) {
      this.add(name, "target");
      this.expression(value);
    }
  }

  /** Walks what lies in the scope of the names that are bound there. */
  private binding(binders: readonly Node[], walk: () => void): void {
    const outer = this.bindings;
    this.bindings = [...outer, ...binders.map((binder) => ({ name: this.tree.text(binder), binder }))];
    for (const binder of binders) this.add(binder, "bound", { binder });
    walk();
    this.bindings = outer;
  }

  private expression(node: Node, role: "value" | "call" = "value"): void {
    const { tree } = this;
    switch (tree.kind(node)) {
      case Kind.Name:
        return this.name(node, role);
      case Kind.Unit:
        return this.unit(node);
      case Kind.Member:
      case Kind.Index:
        return this.path(node, role);
      case Kind.Call:
        return this.call(node);
      case Kind.Without:
        this.expression(tree.first(node));
        for (let name = tree.next(tree.first(node)); name !== NONE; name = tree.next(name)) this.add(name, "unit");
        return;
      case Kind.For: {
        const [body, name, ...limits] = tree.children(node);
        for (const limit of limits) this.expression(limit);
        return this.binding([name], () => this.expression(body));
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

  private name(node: Node, role: "value" | "call", more: Partial<NameUse> = {}): void {
    const name = this.tree.text(node);
    const binding = [...this.bindings].reverse().find((bound) => bound.name === name);
    const ofTable = this.table === undefined || role === "call" ? {} : { table: this.table };
    if (binding) this.add(node, "bound", { binder: binding.binder, ...more });
    else this.add(node, role, { ...ofTable, ...more });
  }

  private path(node: Node, role: "value" | "call"): void {
    const { tree, statement } = this;
    const path = pathOf(tree, node, statement.text);
    if (!path) return this.expression(tree.first(node));
    const { base, steps } = path;
    const object = tree.text(base);
    this.name(base, "value", steps[0].isKey || steps[0].name === "" ? {} : { member: steps[0].name });
    steps.forEach(({ node: step, isKey }, i) => {
      const more = { object, steps: steps.slice(0, i + 1) };
      if (isKey) this.key(step, "value", more);
      else this.add(step, i === steps.length - 1 ? role : "value", more);
    });
  }

  /** The name of a row, without the quotes it may stand in. */
  private key(node: Node, role: "value" | "row", more: Partial<NameUse> = {}): void {
    const { tree, statement } = this;
    const { start, end } = tree.span(node);
    const quotes = /["`]/.test(statement.text[start]) ? 1 : 0;
    const name = tree.kind(node) === Kind.Text ? tree.text(node) : statement.text.slice(start, end);
    if (name === "") return;
    this.found.push({ name, node, span: { start: start + quotes, end: end - quotes }, role, scope: [], ...more });
  }

  private call(node: Node): void {
    const { tree } = this;
    const called = tree.first(node);
    this.expression(called, "call");
    for (let argument = tree.next(called); argument !== NONE; argument = tree.next(argument)) {
      if (tree.kind(argument) === Kind.Argument) this.argumentName(argument, called);
      this.expression(argument);
    }
  }

  private argumentName(node: Node, called: Node): void {
    const { tree } = this;
    const name = tree.kind(called) === Kind.Member ? tree.next(tree.first(called)) : called;
    const object = tree.kind(called) === Kind.Member ? { object: tree.text(tree.first(called)) } : {};
    if (tree.kind(name) === Kind.Name) this.add(node, "argument", { callee: { name: tree.text(name), ...object } });
  }

  private unit(node: Node): void {
    for (let power = this.tree.first(node); power !== NONE; power = this.tree.next(power)) this.add(power, "unit");
  }

  private choiceFrom(node: Node): void {
    const isSeries = this.tree.kind(node) === Kind.Name && isSeriesName(this.tree.text(node));
    if (isSeries) this.add(node, "series");
    else this.expression(node);
  }

  /** What a broken statement mentions is what could be read before the slip: the nodes that no other node holds. */
  private whatWasRead(declared: Node | undefined): void {
    const { tree } = this;
    const held = new Set<Node>(declared === undefined ? [] : [declared]);
    for (let node = 0; node < tree.count; node++) for (const child of tree.children(node)) held.add(child);
    for (let node = 0; node < tree.count; node++) if (!held.has(node)) this.expression(node);
  }

  private add(node: Node, role: NameUse["role"], more: Partial<NameUse> = {}): void {
    const { tree, statement, bindings } = this;
    const name = tree.text(node);
    if (name === "") return;
    const start = tree.kind(node) === Kind.Power ? afterRoot(statement.text, tree.start(node)) : tree.start(node);
    const end = start + wordLength(statement.text, start);
    if (end === start) return;
    this.found.push({ name, node, span: { start, end }, role, scope: bindings.map((bound) => bound.name), ...more });
  }
}

function afterRoot(text: string, at: number): number {
  return text[at] === "√" ? at + 1 : at;
}

/** The length of the name or unit that begins at a place; `%` and what begins with `°` among them. */
function wordLength(text: string, at: number): number {
  if (text[at] === "%") return 1;
  let end = text[at] === "°" ? at + 1 : at;
  for (let step = nameLength(text, end, Class.Letter); step > 0; step = nameLength(text, end, Class.Follow))
    end += step;
  return end - at;
}

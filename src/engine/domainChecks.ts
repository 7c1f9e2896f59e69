import { NONE, Kind, Operator, type Node, type Tree } from "../syntax/tree";
import type { Span } from "../text/span";
import { isOfText, pairsOf, truthOf, type Pair } from "./comparisons";
import type { Compiler } from "./compile";
import type { Relation } from "./condition";
import type { Entry } from "./entry";
import { truth, type Operand } from "./operand";
import { Op } from "./operation";
import type { CheckedArgument, Place } from "./problem";

/**
 * A part of the condition behind `where`, at one call of the function: what has to be looked at to see whether the
 * arguments keep it. A part is what `and` joins: each is told by itself.
 */
export interface DomainCheck {
  /** The function as it is called: `copper.trace_width`. */
  readonly name: string;
  /** Of the argument concerned, or of the whole call, in the statement that is compiled. */
  readonly span: Span;
  /** The condition as written. */
  readonly condition: string;
  /** Where the condition stands. */
  readonly stated: Place;
  /** The function from which it is called, where that is not the statement itself. */
  readonly caller?: { readonly name: string; readonly within: Place };
  /** One for a single value; of lists one for each row. */
  readonly rows: readonly RowCheck[];
}

/** Where a number is: a slot, or (−1 − k) the k-th of the checked values that the entry stores. */
export type Checked = number;

export interface RowCheck {
  readonly arguments: readonly (Omit<CheckedArgument, "extent"> & { readonly at: Checked })[];
  /** Comparisons, all of which have to hold; undefined where the condition can be judged as a whole only. */
  readonly pairs?: readonly {
    readonly relation: Relation;
    readonly left: Checked;
    readonly right: Checked;
    readonly margin: Checked;
  }[];
  /** The condition as a whole, true where {@link guard} is false. */
  readonly whole?: Checked;
  /** Whether the branch is taken in which the call stands. */
  readonly guard?: Checked;
}

/** A branch of `if` that is open while what stands in it is compiled. */
interface Branch {
  readonly condition: Operand;
  readonly isTaken: boolean;
  readonly around?: Branch;
  /** Whether it is taken, and all around it; one for each row, computed when first asked for. */
  guard?: readonly number[];
}

/** Collects what has to be checked at the calls in one statement. */
export class DomainChecks {
  readonly checks: DomainCheck[] = [];
  /** Operands of the tape whose values are to be stored for the checks. */
  readonly stores: { readonly at: number; readonly node: Node }[] = [];
  private branch?: Branch;

  constructor(private readonly compiler: Compiler) {}

  /** Compiles what stands in a branch: a condition there matters only where the branch is taken. */
  inBranch(condition: Operand | undefined, isTaken: boolean, node: Node): Operand | undefined {
    if (condition?.kind !== "truth") return this.compiler.expression(node);
    const around = this.branch;
    this.branch = { condition, isTaken, around };
    try {
      return this.compiler.expression(node);
    } finally {
      this.branch = around;
    }
  }

  /** Compiles the domain of the function that is open; a slip in it is reported, and costs no value. */
  check(call: DomainCall): void {
    // A copy for a further piece asks the same of the same limits.
    if (this.compiler.instances.spanOfCopy) return;
    for (const part of partsOf(call.entry.statement.tree, call.domain)) this.part(call, part);
  }

  private part(call: DomainCall, node: Node): void {
    const { compiler } = this;
    const { tree } = compiler;
    const isComparison = tree.kind(node) === Kind.Comparison;
    const pairs = isComparison && !this.branch ? pairsOf(compiler, node) : undefined;
    if (isComparison && !this.branch && !pairs) return;
    const isNumeric = pairs && !pairs.some(isOfText);
    const whole = isNumeric ? undefined : pairs ? truthOf(compiler, pairs, node) : compiler.expression(node);
    if (!isNumeric && (!whole || !compiler.isTruth(whole, "behind `where`"))) return;
    const names = namesIn(tree, node, (name) => compiler.bound(name) !== undefined);
    const origins = new Set(names.map((name) => call.origins.get(name)));
    const [origin] = origins;
    const rows = isNumeric ? this.comparisons(pairs, names, node) : this.conditions(whole!, names, node);
    this.checks.push({
      name: call.name,
      span: origins.size === 1 && origin ? origin : call.span,
      condition: compiler.text(node).replace(/\s+/g, " "),
      stated: { path: call.entry.note.path, statement: call.entry.statement, span: tree.span(node) },
      ...(call.caller ? { caller: call.caller } : {}),
      rows,
    });
  }

  private comparisons(pairs: readonly Pair[], names: readonly string[], node: Node): RowCheck[] {
    const margins = pairs.map(({ left, right }) => this.compiler.each(Op.Subtract, node, [left, right]));
    const count = Math.max(...margins.map((margin) => margin?.length ?? 0));
    return Array.from({ length: count }, (_, row) => ({
      arguments: this.arguments(names, row),
      pairs: pairs.flatMap(({ relation, left, right }, i) => {
        const margin = margins[i];
        return margin
          ? [
              {
                relation,
                left: this.kept(left, row),
                right: this.kept(right, row),
                margin: this.stored(margin, row, node),
              },
            ]
          : [];
      }),
    }));
  }

  private conditions(whole: Operand, names: readonly string[], node: Node): RowCheck[] {
    const { compiler } = this;
    const guard = this.branch && this.guardOf(this.branch, node);
    const count = Math.max(whole.at.length, guard?.length ?? 1);
    return Array.from({ length: count }, (_, row): RowCheck => {
      const holds = whole.at[whole.isList ? row : 0];
      if (!guard) return { arguments: this.arguments(names, row), whole: this.stored([holds], 0, node) };
      const taken = guard[guard.length > 1 ? row : 0];
      const implied = compiler.emit(Op.Or, node, compiler.emit(Op.Not, node, taken), holds);
      return {
        arguments: this.arguments(names, row),
        whole: this.stored([implied], 0, node),
        guard: this.stored([taken], 0, node),
      };
    });
  }

  private guardOf(branch: Branch, node: Node): readonly number[] {
    if (branch.guard) return branch.guard;
    const { compiler } = this;
    const { condition, isTaken } = branch;
    const own = isTaken ? condition.at : compiler.each(Op.Not, node, [condition])!;
    const around = branch.around && this.guardOf(branch.around, node);
    const both =
      around && compiler.each(Op.And, node, [truth(node, around, around.length > 1), { ...condition, at: own }]);
    return (branch.guard = both ?? own);
  }

  private arguments(names: readonly string[], row: number): RowCheck["arguments"] {
    return names.map((name) => {
      const operand = this.compiler.bound(name)!;
      const { dimension, point, unit, isList, texts } = operand;
      if (texts) return { name, dimension, point, text: texts.join(", "), at: this.compiler.constant(0) };
      return {
        name,
        dimension,
        point,
        ...(unit ? { unit } : {}),
        ...(isList ? { row } : {}),
        at: this.kept(operand, row),
      };
    });
  }

  private kept({ at, isList, node }: Operand, row: number): Checked {
    return this.stored(at, isList ? row : 0, node);
  }

  /** A slot is read where it is; what has none is stored to one of its own. */
  private stored(at: readonly number[], row: number, node: Node): Checked {
    const operand = at[Math.min(row, at.length - 1)];
    if (operand >= 0) return operand;
    const known = this.stores.findIndex((store) => store.at === operand);
    return known >= 0 ? -1 - known : -this.stores.push({ at: operand, node });
  }
}

/** A call whose function states its domain, while its body is open. */
export interface DomainCall {
  readonly name: string;
  readonly entry: Entry;
  readonly domain: Node;
  /** Of the outermost call, in the statement that is compiled. */
  readonly span: Span;
  /** For each parameter the argument of the outermost call that it rests on, where that is a single one. */
  readonly origins: ReadonlyMap<string, Span | undefined>;
  readonly caller?: DomainCheck["caller"];
}

/** What is joined by a chain of `and`, in the order of the text; in brackets there may be more. */
export function conjuncts(tree: Tree, node: Node): readonly Node[] {
  const chain = tree.chain(node);
  const from = chain.findLastIndex((link) => (tree.operator(link) as Operator) !== Operator.And) + 1;
  return [tree.first(chain[from]), ...chain.slice(from).map((link) => tree.next(tree.first(link)))];
}

/** What `and` joins. */
function partsOf(tree: Tree, node: Node): readonly Node[] {
  if (tree.kind(node) === Kind.Group) return partsOf(tree, tree.first(node));
  const isJoined = tree.kind(node) === Kind.Binary && (tree.operator(node) as Operator) === Operator.And;
  return isJoined ? conjuncts(tree, node).flatMap((part) => partsOf(tree, part)) : [node];
}

/** The names in an expression that fit, each once, in the order of the text. */
export function namesIn(tree: Tree, node: Node, fits: (name: string) => boolean): readonly string[] {
  const names = new Set<string>();
  const walk = (at: Node) => {
    if (tree.kind(at) === Kind.Name && fits(tree.text(at))) names.add(tree.text(at));
    const chain = tree.kind(at) === Kind.Binary ? tree.chain(at) : undefined;
    if (chain) walk(tree.first(chain[0]));
    for (const link of chain ?? []) walk(tree.next(tree.first(link)));
    for (let child = chain ? NONE : tree.first(at); child !== NONE; child = tree.next(child)) walk(child);
  };
  walk(node);
  return [...names];
}

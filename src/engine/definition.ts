import { isSeriesName } from "../quantity/series";
import { isBuiltInUnit, type Unit } from "../quantity/unit";
import { Kind, Operator, type Node, type Tree } from "../syntax/tree";
import type {
  ChoicePart,
  Column,
  FunctionDefinition,
  Measurement,
  Solution,
  Solved,
  Statement,
} from "../syntax/statement";
import { checkResult, fittingArgument } from "./argumentUnits";
import { ColumnCompiler } from "./columns";
import { compare, isOfText, pairsOf, truthOf, type Pair } from "./comparisons";
import { Compiler, type Surroundings } from "./compile";
import { OPPOSITE, type Clause } from "./condition";
import { conjuncts, type DomainCheck } from "./domainChecks";
import { kindOf, NO_TYPE, type Entry, type EntryType } from "./entry";
import { argumentAt } from "./frame";
import { partAt } from "./members";
import { NATIVES } from "./natives";
import { quantity, type Operand } from "./operand";
import { Op } from "./operation";
import type { EngineProblem } from "./problem";
import { keptUnit, unitBeside } from "./statedUnit";
import { bracketUnit, shownIn } from "./shownIn";
import type { Code } from "./tape";

/** A statement compiled: its type, its operations (in the code that was given), and which results they store. */
export interface Definition {
  readonly type: EntryType;
  readonly unit?: Unit;
  readonly step?: number;
  /** For each result slot, in order, the operand that is stored to it. */
  readonly stores: readonly { readonly at: number; readonly node: Node }[];
  readonly clauses: readonly Clause[];
  /** Of a rule: the result that says whether it is kept as a whole. */
  readonly keeps?: number;
  /** What the functions that are called ask of their arguments, and the operands that are stored to see to it. */
  readonly domainChecks: readonly DomainCheck[];
  readonly checked: Definition["stores"];
  readonly problems: readonly EngineProblem[];
  readonly blockedBy?: string;
  readonly readsValues: boolean;
  /** See the fields of the entry. */
  readonly isWatchful: boolean;
  readonly copied: readonly Entry[];
}

/** A statement without a value, and why. */
export function without(problem: EngineProblem): Definition {
  const none: readonly never[] = [];
  const nothing = {
    stores: none,
    clauses: none,
    domainChecks: none,
    checked: none,
    copied: none,
    isWatchful: false,
    readsValues: false,
  };
  return { type: NO_TYPE, ...nothing, problems: [problem] };
}

/** Compiles one entry. `replacement` is the measurement that stands instead of an assumption. */
export function compileEntry(
  entry: Entry,
  around: Surroundings,
  code: Code,
  replacement: Entry | undefined,
): Definition {
  code.clear();
  return new DefinitionCompiler(entry, around, code, replacement).compile();
}

class DefinitionCompiler {
  private readonly compiler: Compiler;
  private readonly stores: { at: number; node: Node }[] = [];
  private readonly clauses: Clause[] = [];
  /** Of a rule: the truths of its parts. */
  private readonly parts: number[] = [];
  private keeps?: number;
  private type: EntryType = NO_TYPE;
  private unit?: Unit;
  private step?: number;

  constructor(
    private readonly entry: Entry,
    private readonly around: Surroundings,
    code: Code,
    private readonly replacement: Entry | undefined,
  ) {
    this.compiler = new Compiler(around, code, entry);
  }

  compile(): Definition {
    this.statement(this.entry.statement);
    const { type, unit, step, stores, clauses, keeps } = this;
    const { problems, blockedBy, readsValues, isWatchful, besides } = this.compiler;
    const { domainChecks, checked, copied } = besides;
    return {
      type,
      unit,
      step,
      stores,
      clauses,
      keeps,
      domainChecks,
      checked,
      problems,
      blockedBy,
      readsValues,
      isWatchful,
      copied,
    };
  }

  private statement(statement: Statement): void {
    const { compiler } = this;
    switch (statement.kind) {
      case "given":
        this.checkItem(statement.each?.item);
        return this.value(compiler.expression(statement.value));
      case "over":
      case "order":
        return this.value(compiler.expression(statement.value));
      case "measured":
        this.value(compiler.expression(statement.value));
        this.conditions(statement.at);
        return;
      case "assume":
        this.checkItem(statement.each?.item);
        return this.assumption(compiler.expression(statement.value));
      case "choice":
        return this.part(statement.value);
      case "table":
        this.type = { kind: "table", rows: statement.rows.map((row) => statement.tree.text(row)) };
        return;
      case "column":
        return this.column(statement);
      case "derived":
        return statement.choice
          ? this.chosen(statement.value, statement.choice, statement.unit)
          : this.derived(statement.value, statement.unit);
      case "rule":
        this.type = { kind: "rule" };
        this.rule(statement.condition);
        return this.whole();
      case "function":
        this.type = { kind: "function" };
        return this.checkFunction(statement);
      case "items":
        this.type = { kind: "counted unit" };
        return this.checkItems(statement.names);
      case "use":
        // What rests on a note that is not read waits for it; that it is not read is said once, at the statement.
        if (this.around.isRead(this.entry)) this.type = { kind: "note" };
        return;
      case "let":
        return this.solution(statement);
      case "fab":
      case "plot":
      case "variant":
        this.type = { kind: "later" };
        compiler.fail(0, { code: "later.notComputed", what: statement.kind });
        return;
      case "accept":
      case "correlation":
        this.type = { kind: "rule" };
        return;
      case "broken":
        return;
    }
  }

  /** A row of a table is a part, whose columns follow as members; anything else is a value. */
  private part(value: Node): void {
    const part = partAt(this.compiler, value);
    if (part) this.type = { kind: "part", ...part };
    else this.value(this.compiler.expression(value));
  }

  /** A value a row; a row without one is not a number. */
  private column(statement: Column): void {
    const { compiler, around, entry } = this;
    if (statement.solved) return this.solved({ ...statement, solved: statement.solved });
    const { type, unit, rows, isBlocked } = new ColumnCompiler(compiler, around, entry, statement).compile();
    this.type = type;
    this.unit = unit;
    if (!isBlocked) compiler.blockedBy = undefined;
    const nothing = rows.includes(undefined) ? compiler.constant(NaN) : 0;
    for (const row of rows) this.stores.push({ at: row ? row.at[0] : nothing, node: row?.node ?? statement.name });
  }

  private solution(statement: Solution): void {
    const { parts } = this.around;
    if (parts) this.value(parts.compileSolution(this.compiler, statement));
    else this.compiler.block(this.entry.name ?? "");
  }

  private solved(statement: Column & { readonly solved: Solved }): void {
    const { compiler, entry } = this;
    const solved = this.around.parts?.compileSolved(compiler, entry, statement);
    if (!solved) return void compiler.block(entry.name ?? "");
    const { type, stores } = solved;
    this.type = type;
    if (type.kind !== "none") compiler.blockedBy = undefined;
    for (const store of stores) this.stores.push(store);
  }

  private value(operand: Operand | undefined): void {
    if (!operand) return;
    if (operand.kind === "text") return this.text(operand);
    const isList = operand.isList;
    const length = isList ? { length: operand.at.length } : {};
    this.type =
      operand.kind === "truth"
        ? { kind: "truth", ...length }
        : { kind: "quantity", dimension: operand.dimension, point: operand.point, ...length };
    this.unit = operand.unit;
    this.step = operand.step;
    this.store(operand);
  }

  /** A text in quotes is no value of a note. What is typed into an order may be one, and what stands in a cell. */
  private text(operand: Operand): void {
    const { compiler, entry } = this;
    const isQuoted = compiler.tree.kind(operand.node) === Kind.Text || compiler.tree.kind(operand.node) === Kind.List;
    if (isQuoted && entry.statement.kind !== "order") compiler.refuseText(operand, "as the value of a name");
    else compiler.fail(operand.node, { code: "later.notComputed", what: "text as a value" });
  }

  private store(operand: Operand): void {
    for (const at of operand.at) this.stores.push({ at, node: operand.node });
  }

  /** A measurement that stands instead comes first; what was assumed is kept behind it. */
  /** What inputs differ by is counted: `each LED`. */
  private checkItem(item: Node | undefined): void {
    if (item === undefined) return;
    const { compiler, entry } = this;
    const name = compiler.tree.text(item);
    if (compiler.around.isCounted(entry, name)) return;
    const found = compiler.find(name);
    compiler.fail(item, { code: "piece.item", name, ...(found ? { is: kindOf(found) } : {}) });
  }

  private assumption(operand: Operand | undefined): void {
    const { replacement } = this;
    if (operand?.kind === "text") return this.text(operand);
    if (replacement?.type.kind !== "quantity" || replacement.type.length !== undefined) return this.value(operand);
    const { dimension, point } = replacement.type;
    const fits = !operand || (operand.dimension === dimension && operand.point === point && !operand.isList);
    if (!fits) return this.value(operand);
    this.value(
      quantity(operand?.node ?? 0, dimension, [replacement.results.from], {
        point,
        unit: replacement.unit ?? operand?.unit,
        step: replacement.step,
      }),
    );
    if (operand) this.store(operand);
  }

  /** The values behind `at` are kept behind the measured one, so that the prediction can be made there; all or none. */
  private conditions(at: Measurement["at"]): void {
    const operands = at.map(({ value }) => this.compiler.expression(value));
    if (this.type.kind === "quantity" && operands.every((operand) => operand && !operand.isList))
      for (const operand of operands) this.store(operand!);
  }

  private derived(value: Node, bracket: Node | undefined): void {
    const operand = this.compiler.expression(value);
    if (operand && bracket !== undefined) return this.value(this.shownIn(operand, bracket));
    // A result in hertz has any prefix, also where it is but another name of what was stated in kHz.
    const isStated = this.compiler.tree.kind(value) === Kind.Literal;
    const unit = !isStated && operand?.unit ? keptUnit(operand.unit) : undefined;
    this.value(operand && unit?.anyPrefix ? { ...operand, unit } : operand);
  }

  /** `NAME [unit]`: the dimension must agree; a bare zero takes it. */
  private shownIn(operand: Operand, bracket: Node): Operand {
    const unit = bracketUnit(this.compiler, bracket);
    return unit ? shownIn(this.compiler, operand, unit, bracket) : operand;
  }

  /** The value that is used comes first; what is wanted is kept behind it. */
  private chosen(value: Node, choice: ChoicePart, bracket: Node | undefined): void {
    const { compiler } = this;
    let wanted = compiler.expression(value);
    if (wanted && bracket !== undefined) wanted = this.shownIn(wanted, bracket);
    const used = compiler.expression(choice.value);
    this.value(used);
    if (wanted && used && compiler.isQuantity(wanted, "before `choose`") && this.isSingle(wanted)) {
      if (!compiler.agree({ kind: "choose" }, wanted, used)) return;
      this.store(wanted);
      this.options(choice, used);
      this.unit = bracket !== undefined ? wanted.unit : this.unit;
    }
  }

  /** The list to choose from is kept behind both. A series is known by its name. */
  private options({ from }: ChoicePart, used: Operand): void {
    const { compiler } = this;
    if (from === undefined || (compiler.tree.kind(from) === Kind.Name && isSeriesName(compiler.tree.text(from))))
      return;
    const list = compiler.expression(from);
    if (list?.isList && compiler.agree({ kind: "choose" }, used, list)) this.store(list);
    else if (list && !list.isList)
      compiler.fail(from, {
        code: "choice.series",
        text: compiler.text(from),
        reason: "is a single value: write a series or a list",
      });
  }

  private isSingle(operand: Operand): boolean {
    if (!operand.isList) return true;
    this.compiler.fail(operand.node, {
      code: "list.unexpected",
      where: "before `choose`",
      text: this.compiler.text(operand.node),
    });
    return false;
  }

  /** Comparisons joined by `and` are judged one by one, one behind `not` by its opposite; any other condition as a whole. */
  private rule(node: Node): void {
    const { compiler } = this;
    const { tree } = compiler;
    const { inner, isDenied } = withoutNot(tree, node);
    if (!isDenied && inner !== node) return this.rule(inner);
    if (isDenied && isOnePair(tree, inner)) return this.comparison(inner, isDenied);
    switch (tree.kind(node)) {
      case Kind.Binary:
        if (tree.operator(node) !== Operator.And) break;
        return conjuncts(tree, node).forEach((part) => this.rule(part));
      case Kind.Comparison:
        return this.comparison(node);
    }
    const operand = compiler.expression(node);
    if (operand?.kind === "quantity") compiler.fail(node, { code: "rule.notACondition", side: compiler.side(operand) });
    else if (operand?.kind === "text") compiler.refuseText(operand, "as a rule");
    else if (operand) this.truth(operand);
  }

  private comparison(node: Node, isDenied = false): void {
    const { compiler } = this;
    const read = pairsOf(compiler, node) ?? [];
    const pairs = isDenied ? read.map((pair) => ({ ...pair, relation: OPPOSITE[pair.relation] })) : read;
    if (pairs.some(isOfText)) this.truth(truthOf(compiler, pairs, node)!);
    else for (const pair of pairs) this.clause(pair, node);
  }

  private truth(operand: Operand): void {
    this.store(operand);
    for (const at of operand.at) this.parts.push(at);
  }

  /** Whether all parts are true: what a build keeps or does not. */
  private whole(): void {
    const { compiler, parts } = this;
    if (parts.length === 0 || compiler.problems.length > 0) return;
    const at = parts.reduce((all, part) => compiler.emit(Op.And, 0, all, part));
    this.keeps = this.stores.push({ at, node: 0 }) - 1;
  }

  private clause(pair: Pair, node: Node): void {
    const { relation, left, right } = pair;
    const truths = compare(this.compiler, pair, node) ?? [];
    for (const at of truths) this.parts.push(at);
    const margin = this.compiler.each(Op.Subtract, node, [left, right]);
    if (!margin) return;
    const isList = left.isList || right.isList;
    margin.forEach((at, row) => {
      const slot = this.stores.length;
      this.stores.push({ at: left.at[left.isList ? row : 0], node: left.node });
      this.stores.push({ at: right.at[right.isList ? row : 0], node: right.node });
      this.stores.push({ at, node });
      if (relation === "!=") this.stores.push({ at: truths[row], node });
      const dimension = left.isZero ? right.dimension : left.dimension;
      this.clauses.push({
        relation,
        left: left.node,
        right: right.node,
        slot,
        ...(relation === "!=" ? { truth: slot + 3 } : {}),
        dimension,
        point: left.point,
        unit: left.unit ?? unitBeside(right),
        ...(left.step && right.step ? { step: Math.min(left.step, right.step) } : {}),
        ...(isList ? { row, ...named(this.compiler.rowName(margin.length, row)) } : {}),
      });
    });
  }

  /** A body is compiled where it is called; here only its names are looked up, so that a slip shows before the first call. */
  private checkFunction(statement: FunctionDefinition): void {
    const { compiler, entry, around } = this;
    const name = statement.tree.text(statement.name);
    if (NATIVES.has(name)) compiler.fail(statement.name, { code: "name.native", name });
    for (const { unit } of [...statement.parameters, statement]) if (unit !== undefined) bracketUnit(compiler, unit);
    for (const { name: parameter, default: by } of statement.parameters) {
      if (by === undefined || compiler.tree.kind(by) !== Kind.Literal) continue;
      const value = argumentAt(compiler, by);
      if (value) fittingArgument(compiler, entry, name, compiler.tree.text(parameter), value);
    }
    for (const mention of entry.mentions) {
      if (
        mention.use === "value" &&
        mention.member === undefined &&
        !around.find(entry, mention.name) &&
        mention.name !== "π"
      ) {
        const suggestion = around.suggest(entry, mention.name, "quantity");
        compiler.fail(mention.node, {
          code: "name.unknown",
          name: mention.name,
          isUnit: isBuiltInUnit(mention.name),
          ...(suggestion === undefined ? {} : { suggestion }),
        });
      }
    }
    checkResult(compiler, entry, statement);
  }

  private checkItems(names: readonly Node[]): void {
    for (const node of names) {
      const name = this.compiler.tree.text(node);
      if (isBuiltInUnit(name)) this.compiler.fail(node, { code: "unit.takenName", name });
    }
  }
}

function named(rowName: string | undefined): { rowName?: string } {
  return rowName === undefined ? {} : { rowName };
}

/** What a condition denies or, by an even number of `not`, says; brackets around it are left off. */
function withoutNot(tree: Tree, node: Node): { readonly inner: Node; readonly isDenied: boolean } {
  let inner = node;
  let isDenied = false;
  for (;;) {
    const isNot = tree.kind(inner) === Kind.Unary && (tree.operator(inner) as Operator) === Operator.Not;
    if (!isNot && tree.kind(inner) !== Kind.Group) return { inner, isDenied };
    if (isNot) isDenied = !isDenied;
    inner = tree.first(inner);
  }
}

/** Whether it sets two values against each other, and has one opposite. */
function isOnePair(tree: Tree, node: Node): boolean {
  if (tree.kind(node) !== Kind.Comparison) return false;
  const parts = tree.children(node);
  return parts.length === 3 && (tree.operator(parts[1]) as Operator) !== Operator.Inside;
}

import { withoutCounts, type Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { Span } from "../text/span";
import { Kind, NONE, Operator, type Node, type Tree } from "../syntax/tree";
import { kindOf, type Entry } from "./entry";
import { readLiteral, type Literal } from "./literal";
import { compileCall } from "./calls";
import { compileIf } from "./branches";
import { compileTerms } from "./counters";
import type { RowScope } from "./columns";
import { compileComparison } from "./comparisons";
import { DomainChecks, namesIn, type DomainCheck } from "./domainChecks";
import { compileBinary, compileUnary } from "./operators";
import { compileMember, compileName } from "./references";
import type { Note } from "./note";
import { quantity, seenAt, textual, type Operand } from "./operand";
import { compileAnother } from "./another";
import type { Binding, Frame } from "./frame";
import { Instances } from "./instances";
import type { Piece } from "./piece";
import type { NetworkCase } from "./networkOpen";
import type { Op } from "./operation";
import type { Parts } from "./parts";
import type { EngineProblem, EngineTrouble, MismatchOperation, NameKind, Side } from "./problem";
import type { Probed } from "./probe";
import { commonUnit, unitOfLiteral } from "./statedUnit";
import { peek, type Peeked } from "./peek";
import { withStuckName } from "./stuckName";
import type { Code, Slots } from "./tape";
import { Residual, type Sides } from "./residual";
import { compileTied } from "./tiedInputs";
import { isTurnsBesideAngle } from "./turns";

/** What the compiler asks of the program around it. */
export interface Surroundings {
  /** The entry that a name means in the note of another entry. */
  find(from: Entry, name: string): Entry | undefined;
  /** A chapter of the handbook, where it is read; or why it cannot be. */
  chapter(name: string): { readonly note: Note } | { readonly trouble: string } | undefined;
  /** The entry of the note that a `use` statement names. */
  member(use: Entry, name: string): Entry | undefined;
  /** The table that a `use` statement names, where it is a file. */
  tableUsedBy(use: Entry): Entry | undefined;
  /** A column of a data table, by the table's head; and the names of all. */
  column(table: Entry, name: string): Entry | undefined;
  columns(table: Entry): readonly string[];
  readonly slots: Slots;
  /** What only some notes need; undefined as long as it is not read, and then who asked is compiled again. */
  readonly parts: Parts | undefined;
  /** Whether the note that a `use` statement names is held. */
  isRead(use: Entry): boolean;
  /**
   * The slot of a literal, made when first asked for; `name` is what it goes by where that is not to be seen from its
   * statement; of a piece of its own where one is given.
   */
  literalSlot(entry: Entry, node: Node, literal: Literal, name?: string, piece?: Piece): number;
  /** The slot of a constant that no literal stands for. */
  constantSlot(value: number, of?: "table"): number;
  /** What operands of the code so far come to; of points too. */
  probe(entry: Entry, code: Code, at: readonly number[], redrawn: readonly Entry[]): readonly Probed[];
  /** The measurement that stands instead of an assumption. */
  replacementOf(entry: Entry): Entry | undefined;
  isCounted(entry: Entry, name: string): boolean;
  suggest(entry: Entry, name: string, wanted: "quantity" | "function"): string | undefined;
}

/** A definition longer than this is refused: functions that call each other twice over grow without bound. */
const MOST_OPERATIONS = 100_000;
/** Functions inside functions; deeper than anyone writes, shallow enough for the machine's stack. */
const MOST_CALLS = 64;
/** Calls in one definition, for functions that call each other twice over and need no operations for it. */
const MOST_CALLS_MADE = 100_000;

const NOTHING_BOUND: ReadonlyMap<string, never> = new Map<string, never>();
const NOTHING: readonly never[] = [];

/**
 * Turns expressions into operations on the tape. Dimensions are worked out on the way, and a mismatch is reported at
 * the operand where it shows; an expression with a mismatch gives no operand, and nothing else is said about it.
 */
export class Compiler {
  readonly problems: EngineProblem[] = [];
  /** The first dependency without a value, if one was met. */
  blockedBy?: string;
  /** The column that is compiled, if it is one. */
  column?: RowScope;
  isCounting = false;
  /** What stands for the values of a network while a case of it is looked at. */
  networkCase?: NetworkCase;
  /** What is compiled depends on values, not only on types. */
  readsValues = false;
  /** Made when first asked for, as are {@link instances} and {@link rows}: few statements need them, and most are compiled at once. */
  private madeDomains?: DomainChecks;
  private madeInstances?: Instances;
  /** It is compiled again with all that it rests on: it has copies of definitions, or numbers worked out from them. */
  isWatchful = false;
  frame: Frame;
  private callsMade = 0;
  private mostOperations = MOST_OPERATIONS;
  /** The names of rows by how many they are: what a list of that length is likely to be about. */
  private rows?: Map<number, readonly string[]>;
  private callSpan?: Span;

  constructor(
    readonly around: Surroundings,
    readonly code: Code,
    readonly top: Entry,
  ) {
    const tree = top.statement.tree;
    this.frame = { entry: top, tree, bound: NOTHING_BOUND, origins: NOTHING_BOUND, calls: [], drawsAnew: false };
  }

  get tree(): Tree {
    return this.frame.tree;
  }

  /** What the functions that are called ask of their arguments. */
  get domains(): DomainChecks {
    return (this.madeDomains ??= new DomainChecks(this));
  }

  /** The copies of definitions for further pieces. */
  get instances(): Instances {
    return (this.madeInstances ??= new Instances(this));
  }

  /** What is to be checked, and which definitions were copied. */
  get besides() {
    return {
      domainChecks: this.madeDomains?.checks ?? NOTHING,
      checked: this.madeDomains?.stores ?? NOTHING,
      copied: this.madeInstances?.copied ?? NOTHING,
    };
  }

  /** The entry that is compiled, and the function that is open in it. */
  get openEntries(): readonly Entry[] {
    return [this.top, this.frame.entry];
  }

  /** So much has been compiled of this definition that the rest is refused. */
  get isTooLarge(): boolean {
    return this.code.count > this.mostOperations;
  }

  /** The operand of an expression; undefined where it has none, for which a problem or {@link blockedBy} is the reason. */
  expression(node: Node): Operand | undefined {
    if (this.isTooLarge)
      return this.fail(node, { code: "function.tooLarge", name: this.frame.calls[0]?.name ?? this.top.name ?? "" });
    const { tree } = this;
    switch (tree.kind(node)) {
      case Kind.Literal:
        return this.literal(node);
      case Kind.Name:
        return compileName(this, node);
      case Kind.Member:
      case Kind.Index:
        return compileMember(this, node);
      case Kind.Group: {
        const inner = this.expression(tree.first(node));
        return inner && seenAt(inner, node);
      }
      case Kind.List:
        return this.list(node);
      case Kind.Unary:
        return tree.operator(node) === Operator.Another ? compileAnother(this, node) : compileUnary(this, node);
      case Kind.Binary:
        return compileBinary(this, node);
      case Kind.Comparison:
        return compileComparison(this, node);
      case Kind.If:
        return compileIf(this, node);
      case Kind.Without:
        return this.without(node);
      case Kind.Call:
        return compileCall(this, node);
      case Kind.Missing:
        return undefined;
      case Kind.For:
        return compileTerms(this, node);
      case Kind.Text:
        return textual(node, [tree.text(node)], false);
      default:
        return this.fail(node, { code: "later.notComputed", what: "table" });
    }
  }

  /** As {@link expression}, where only how many there are is asked for: then a column may be of several kinds. */
  counted(node: Node): Operand | undefined {
    this.isCounting = true;
    const operand = this.expression(node);
    this.isCounting = false;
    return operand;
  }

  emit(op: Op, node: Node, a: number, b = 0, c = 0): number {
    return this.code.emit(op, node, this.frame.entry.id, a, b, c);
  }

  constant(value: number, of?: "table"): number {
    return this.around.constantSlot(value, of);
  }

  /** As {@link each}, of two operands. */
  eachOfTwo(op: Op, node: Node, left: Operand, right: Operand): number[] | undefined {
    if (left.isList || right.isList) return this.each(op, node, [left, right]);
    return [this.emit(op, node, left.at[0], right.at[0])];
  }

  /** Applies an operation member by member; a single value meets every member of a list. */
  each(op: Op, node: Node, operands: readonly Operand[]): number[] | undefined {
    if (operands.every(({ isList }) => !isList)) {
      const [a, b, c] = operands;
      return [this.emit(op, node, a.at[0], b?.at[0], c?.at[0])];
    }
    const lists = operands.filter(({ isList }) => isList);
    const { length } = lists[0].at;
    const odd = lists.find(({ at }) => at.length !== length);
    if (odd) {
      this.fail(odd.node, {
        code: "list.lengths",
        left: this.text(lists[0].node),
        leftLength: length,
        right: this.text(odd.node),
        rightLength: odd.at.length,
      });
      return undefined;
    }
    const result: number[] = [];
    for (let i = 0; i < length; i++) {
      const [a, b, c] = operands.map(({ at, isList }) => at[isList ? i : 0]);
      result.push(this.emit(op, node, a, b, c));
    }
    return result;
  }

  /** Reports a problem in this statement, or, from inside a function's body, at the call. Always undefined. */
  fail(node: Node, trouble: EngineTrouble): undefined {
    return this.report(this.tree.span(node), trouble);
  }

  /** Reports a problem at a place of the statement that has no node. */
  complain(span: Span, trouble: EngineTrouble): undefined {
    return this.report(span, trouble);
  }

  private report(span: Span, trouble: EngineTrouble): undefined {
    const { entry, calls } = this.frame;
    if (this.callSpan === undefined) this.problems.push({ ...trouble, span: this.madeInstances?.spanOfCopy ?? span });
    else {
      const within = { path: entry.note.path, statement: entry.statement, span };
      this.problems.push({
        span: this.callSpan,
        code: "function.body",
        name: calls[0].name ?? "",
        problem: { ...trouble, span },
        within,
      });
    }
    return undefined;
  }

  mismatch(operation: MismatchOperation, left: Operand, right: Operand, at: Node): undefined {
    return this.fail(at, { code: "unit.mismatch", operation, left: this.side(left), right: this.side(right) });
  }

  side(operand: Operand): Side {
    const { tree } = this;
    const node = operand.node;
    const isName = tree.kind(node) === Kind.Name || tree.kind(node) === Kind.Member;
    return {
      text: this.text(node),
      dimension: operand.dimension,
      point: operand.point,
      ...(isName ? { name: this.text(node) } : {}),
      span: tree.span(node),
    };
  }

  /** The text of the statement, or of the function that is open. */
  get statementText(): string {
    return this.frame.entry.statement.text;
  }

  text(node: Node): string {
    return this.frame.entry.statement.text.slice(this.tree.start(node), this.tree.end(node));
  }

  /**
   * The common dimension of two operands that are added, compared or picked from; a bare zero takes the other's.
   * Undefined, and reported at the right one, where they differ.
   */
  agree(
    operation: MismatchOperation,
    left: Operand,
    right: Operand,
  ): { dimension: Dimension; point: boolean } | undefined {
    if (left.point !== right.point) {
      this.fail(right.node, {
        code: "temperature.pair",
        operation: operation.kind,
        left: this.side(left),
        right: this.side(right),
      });
      return undefined;
    }
    if (isTurnsBesideAngle(this, left, right)) return undefined;
    if (left.dimension === right.dimension || right.isZero) return { dimension: left.dimension, point: left.point };
    if (left.isZero) return { dimension: right.dimension, point: right.point };
    return this.mismatch(operation, left, right, right.node);
  }

  /** Whether an operand is a quantity; a condition in its place is reported. */
  isQuantity(operand: Operand, where: string): boolean {
    if (operand.kind === "quantity") return true;
    if (operand.kind === "text") this.refuseText(operand, where);
    else this.fail(operand.node, { code: "truth.unexpected", where, text: this.text(operand.node) });
    return false;
  }

  /** Text in a place where it says nothing. */
  refuseText(operand: Operand, where: string): undefined {
    return this.fail(operand.node, { code: "text.unexpected", where, text: this.text(operand.node) });
  }

  /** A temperature on a scale cannot be calculated with; it is reported. */
  isPlain(operand: Operand, operation: string): boolean {
    if (!operand.point) return true;
    this.fail(operand.node, { code: "temperature.point", operation, side: this.side(operand) });
    return false;
  }

  /** A literal's numbers; undefined, and reported, where it cannot be read. Bare numbers are in the unit that is given. */
  readLiteral(node: Node, bare?: Unit): Literal | undefined {
    const { entry, tree } = this.frame;
    const result = readLiteral(entry.statement.text, tree, node, (name) => this.around.isCounted(entry, name), bare);
    if ("literal" in result) return result.literal;
    this.report(result.problem.span, withStuckName(this, node, result.problem));
    return undefined;
  }

  /** The literal in a cell of a table. */
  literalCell(node: Node, bare: Unit | undefined, name: string): Operand | undefined {
    return this.literal(node, bare, name);
  }

  private literal(node: Node, bare?: Unit, name?: string): Operand | undefined {
    const literal = this.readLiteral(node, bare);
    if (!literal) return undefined;
    const slot = compileTied(this, node, literal) ?? this.slotOf(this.frame.entry, node, literal, name);
    const { dimension, point, isZero, step } = literal;
    const unit = unitOfLiteral(literal);
    const constant = literal.low === literal.high ? literal.nominal : undefined;
    return quantity(node, dimension, [slot], { point, isZero, unit, constant, step });
  }

  /** In a copy of an input that differs from piece to piece, a literal is drawn anew. */
  slotOf(entry: Entry, node: Node, literal: Literal, name?: string): number {
    const { piece, drawsAnew } = this.frame;
    if (!piece || !drawsAnew || literal.low === literal.high)
      return this.around.literalSlot(entry, node, literal, name);
    const slot = this.around.literalSlot(entry, node, literal, name, piece);
    this.instances.drawn(piece, slot);
    return slot;
  }

  block(name: string): undefined {
    this.blockedBy ??= name;
    return undefined;
  }

  wrongKind(node: Node, name: string, is: NameKind, wanted: "quantity" | "function" | "note"): undefined {
    return this.fail(node, { code: "name.wrongKind", name, is, wanted });
  }

  private list(node: Node): Operand | undefined {
    const members = this.tree.children(node).map((child) => this.expression(child));
    if (members.some((member) => member === undefined)) return undefined;
    const known = members as Operand[];
    if (known.length > 0 && known.every(({ kind, isList }) => kind === "text" && !isList))
      return textual(
        node,
        known.flatMap(({ texts }) => texts ?? []),
        true,
      );
    if (known.length === 0)
      return this.fail(node, { code: "list.unexpected", where: "here, because it is empty", text: "[]" });
    let first = known[0];
    for (const member of known.slice(1)) {
      if (member.isList)
        return this.fail(member.node, {
          code: "list.unexpected",
          where: "inside a list",
          text: this.text(member.node),
        });
      if (member.kind !== first.kind)
        return (this.isQuantity(member.kind === "quantity" ? first : member, "in a list of quantities"), undefined);
      const agreed = this.agree({ kind: "list" }, first, member);
      if (!agreed) return undefined;
      first = { ...first, ...agreed, isZero: first.isZero && member.isZero };
    }
    if (known[0].isList)
      return this.fail(known[0].node, {
        code: "list.unexpected",
        where: "inside a list",
        text: this.text(known[0].node),
      });
    const constants = known.map(({ constant }) => constant);
    return {
      ...first,
      node,
      isList: true,
      at: known.map(({ at }) => at[0]),
      constant: undefined,
      constants: constants.every((constant) => constant !== undefined) ? constants : undefined,
      unit: commonUnit(known),
    };
  }

  isTruth(operand: Operand, where: string): boolean {
    if (operand.kind === "truth") return true;
    if (operand.kind === "text") this.refuseText(operand, where);
    else this.fail(operand.node, { code: "truth.needed", where, side: this.side(operand) });
    return false;
  }

  private without(node: Node): Operand | undefined {
    const { tree } = this;
    const inner = this.expression(tree.first(node));
    if (!inner || !this.isQuantity(inner, "before `without`")) return undefined;
    const names: string[] = [];
    for (let child = tree.next(tree.first(node)); child !== NONE; child = tree.next(child)) {
      const name = tree.text(child);
      names.push(name);
      if (!this.around.isCounted(this.frame.entry, name)) {
        const found = this.find(name);
        if (found) this.fail(child, { code: "name.wrongKind", name, is: kindOf(found), wanted: "counted unit" });
        else this.fail(child, { code: "name.unknown", name, isUnit: false });
        return undefined;
      }
      if (!inner.dimension.counts.has(name))
        this.fail(child, { code: "unit.nothingDropped", name, side: this.side(inner) });
    }
    return { ...inner, node, dimension: withoutCounts(inner.dimension, names), unit: undefined };
  }

  /** Compiles what lies in the scope of a counter. */
  counting(name: string, value: Operand, node: Node): Operand | undefined {
    const bound = new Map([...this.frame.bound, [name, { operand: value, node }]]);
    return this.inFrame({ ...this.frame, bound }, () => this.expression(node));
  }

  /** The argument that a parameter of the open function stands for, of the piece at hand. */
  bound(name: string): Operand | undefined {
    const binding = this.frame.bound.get(name);
    return binding && this.instances.ofArgument(binding);
  }

  /** Compiles an expression as it is in another frame. */
  inFrame<T>(frame: Frame, compile: () => T): T {
    const outer = this.frame;
    this.frame = frame;
    try {
      return compile();
    } finally {
      this.frame = outer;
    }
  }

  find(name: string): Entry | undefined {
    return this.around.find(this.frame.entry, name);
  }

  /** What a name means in a computed column: the cell of the row at hand. Inside a function it means what it does there. */
  cellOf(name: string, node: Node): Operand | undefined | "unnamed" {
    if (this.frame.row !== undefined) return this.instances.cellOf(name, this.frame.row, node);
    return this.frame.entry === this.top && this.column ? this.column.cellOf(name, node) : "unnamed";
  }

  /** What operands come to as things stand. The statement is compiled again when a value that it rests on changes. */
  peek(operands: readonly number[]): readonly Peeked[] {
    this.readsValues = true;
    return peek(this.code, this.around.slots, operands);
  }

  /** The residual of an equation as things stand. As with {@link peek}, the statement rests on values then. */
  residual(unknown: number, sides: Sides): Residual {
    this.readsValues = true;
    return new Residual(this.code, this.around.slots, unknown, sides);
  }

  /** Forgets the operations so far, and what was to be checked of them: they were compiled to be looked at. */
  startAgain(): void {
    this.code.clear();
    const { madeDomains } = this;
    if (madeDomains) madeDomains.checks.length = madeDomains.stores.length = 0;
  }

  /** Whether an entry is the one that is compiled. */
  isTop(entry: Entry): boolean {
    return entry === this.top;
  }

  /** A row of a table is worth as much as a definition of its own. */
  allowMore(): void {
    this.mostOperations = this.code.count + MOST_OPERATIONS;
  }

  /** Notes that a list of so many members is about these rows; `instead` of others that were seen. */
  seeRows(names: readonly string[], instead = false): void {
    this.rows ??= new Map();
    if (instead || !this.rows.has(names.length)) this.rows.set(names.length, names);
  }

  /** The name of a row of a list; undefined where it has none. */
  rowName(length: number, row: number): string | undefined {
    return this.rows?.get(length)?.[row] || undefined;
  }

  member(use: Entry, name: string): Entry | undefined {
    return this.around.member(use, name);
  }

  /** The table that an entry stands for, if it is the alias of a file that is one. */
  tableUsedBy(entry: Entry): Entry | undefined {
    return entry.statement.kind === "use" ? this.around.tableUsedBy(entry) : undefined;
  }

  columnOf(table: Entry, name: string): Entry | undefined {
    return this.around.column(table, name);
  }

  columnsOf(table: Entry): readonly string[] {
    return this.around.columns(table);
  }

  findMember(alias: string, member: string): Entry | undefined {
    const use = this.find(alias);
    return use && this.around.member(use, member);
  }

  chapter(name: string): ReturnType<Surroundings["chapter"]> {
    return this.around.chapter(name);
  }

  suggest(name: string, wanted: "quantity" | "function"): string | undefined {
    return this.around.suggest(this.frame.entry, name, wanted);
  }

  /** Whether a function can be called here: not from inside itself, nor too deep. Reported where it cannot. */
  mayCall(found: Entry, node: Node): boolean {
    const { calls } = this.frame;
    const path = [...calls, found].map((entry) => entry.name ?? "");
    if (calls.includes(found) || found === this.top) this.fail(node, { code: "function.recursive", path });
    else if (calls.length >= MOST_CALLS || this.callsMade++ >= MOST_CALLS_MADE)
      this.fail(node, { code: "function.tooLarge", name: path[0] });
    else return true;
    return false;
  }

  /** The argument of the outermost call that an expression rests on, in the statement; undefined where it is not one alone. */
  originOf(node: Node): Span | undefined {
    const { tree, calls, bound, origins } = this.frame;
    if (calls.length === 0) return tree.span(node);
    const names = namesIn(tree, node, (name) => bound.has(name));
    return names.length === 1 ? origins.get(names[0]) : undefined;
  }

  /** The function whose body is open, and a node in it; undefined in the statement itself. */
  callerAt(node: Node): DomainCheck["caller"] {
    const { entry, tree, calls } = this.frame;
    if (calls.length === 0) return undefined;
    const within = { path: entry.note.path, statement: entry.statement, span: tree.span(node) };
    return { name: entry.name ?? "", within };
  }

  /**
   * Compiles inside the body of a function that is called at a node; problems are reported at the outermost call, whose
   * span is given.
   */
  inside(
    found: Entry,
    node: Node,
    origins: Frame["origins"],
    compile: (bound: Map<string, Binding>, outermost: Span) => Operand | undefined,
  ): Operand | undefined {
    const [outer, outerCall] = [this.frame, this.callSpan];
    this.callSpan ??= this.tree.span(node);
    const bound = new Map<string, Binding>();
    const { piece, calls } = outer;
    const { tree } = found.statement;
    this.frame = { entry: found, tree, bound, origins, calls: [...calls, found], piece, drawsAnew: false };
    try {
      const body = compile(bound, this.callSpan);
      return body && seenAt(body, node);
    } finally {
      [this.frame, this.callSpan] = [outer, outerCall];
    }
  }
}

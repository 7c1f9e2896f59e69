import { widened } from "./numberColumn";
import type { Span } from "../text/span";

/**
 * The syntax tree of statements, as a struct of arrays.
 *
 * All statements of a note share one {@link Arena}: columns of numbers, appended to as statements are parsed and
 * compacted when most of it is dead. A {@link Tree} is one statement's window on it. A node is its number inside that
 * window, so a statement can move in the arena, and in the text, without any of its nodes changing.
 * Children always come before their parent, so a loop over the nodes in order is a walk from the leaves up.
 */
export type Node = number;

/** Absence of a node: no first child, no next sibling. */
export const NONE: Node = -1;

export const enum Kind {
  /** What should stand here could not be read; a problem says why. It has no value. Children: what could be read of it. */
  Missing,
  /** A number as written, with its uncertainty. Operator column: {@link Form}. Children: {@link Kind.Value}s in written order. */
  Literal,
  /**
   * One number of a literal. Number column: the number as written, sign included, before its unit (letter codes: NaN).
   * Operator column: {@link Notation}. Text column: the number as written (sign, digits, letter code), for exact reading.
   * Children: for {@link Notation.Concise} a Value that holds the standard uncertainty; then, if written, one Unit.
   */
  Value,
  /** A unit as written. Children: {@link Kind.Power}s. A bracket after a defined name has the same form. */
  Unit,
  /** One factor of a unit. Text: the word in its compared form (`µ` as Greek letter, `Ω` as letter). Number: its exponent, negative below the solidus, ½ under a root sign. */
  Power,
  /** A name. Text: the name in its compared form (NFC, look-alike code points folded). */
  Name,
  /** Text in quotes. Text: what stands between them. */
  Text,
  /** `a.b`. Children: what is left of the dot, Name. */
  Member,
  /** `a["row"].b` before the dot. Children: what is indexed, Text or Literal. */
  Index,
  /** `f(x, rise = 10 K)`. Children: what is called (Name or Member), then the arguments. */
  Call,
  /** `rise = 10 K` in a call. Text: the argument's name. Child: its value. */
  Argument,
  /** `[a, b, c]`. Children: the members. */
  List,
  /** Brackets that only group. Child: what is inside. */
  Group,
  /** Operator column: Negate, Not or Another. Child: the operand. */
  Unary,
  /** Operator column: an arithmetic operator, Parallel, And or Or. Children: left, right. */
  Binary,
  /** `a <= x < b`. Children: operand, Comparator, operand, Comparator, operand … */
  Comparison,
  /** The sign between two operands of a comparison; its span is the sign. Operator column: which. */
  Comparator,
  /** `if c then a else b`. Children: c, a, b. */
  If,
  /** `x without LED, board`. Children: x, then a Name for each counted unit dropped. */
  Without,
  /** `e for k = a .. b`. Children: e, Name, then a Literal of both limits, or two expressions where one is no number. */
  For,
}

/** The form of a literal. */
export const enum Form {
  /** `12 V`. One value. */
  Exact,
  /** `12 V ± 5 %`. Nominal, half-width. */
  PlusMinus,
  /** `100 g ± 0.79 mg (k = 2.26)`. Nominal, expanded uncertainty, coverage factor. */
  Expanded,
  /** `2.8 .. 3.2 V`. Low, high. */
  Range,
  /** `2.8 .. 3.0 .. 3.2 V`. Minimum, typical, maximum. */
  TypicalRange,
  /** `.. 3.0 .. 3.2 V` or `.. 3.2 V`. [Typical,] maximum. */
  NoMinimum,
  /** `readings [1, 2, 3] V`. The readings, then (as a child) the Unit. */
  Readings,
  /** `sample [1, 2, 3] V`. The pieces, then (as a child) the Unit. */
  Sample,
}

/** How a number is written. */
export const enum Notation {
  /** `12`, `1_000`, `1e-6`. */
  Decimal,
  /** `0x1F`. */
  Hexadecimal,
  /** `0b1010`. */
  Binary,
  /** `1/4`: the text column keeps both integers. */
  Fraction,
  /** `100.02147(35)`. */
  Concise,
  /** `4k7`, `10k`, `4k7J`: read by `quantity/`, which knows IEC 60062. */
  LetterCode,
}

export const enum Operator {
  None,
  Add,
  Subtract,
  Multiply,
  Divide,
  Power,
  Parallel,
  And,
  Or,
  Negate,
  Not,
  Another,
  Less,
  LessOrEqual,
  Greater,
  GreaterOrEqual,
  Equal,
  NotEqual,
  Inside,
}

/** Rows of an arena from which on it grows by doubling. */
const LARGE = 16_384;

/** The columns that all statements of a note share. Spans count from the start of the node's statement. */
export class Arena {
  count = 0;
  kind = new Uint8Array(256);
  operator = new Uint8Array(256);
  start = new Int32Array(256);
  end = new Int32Array(256);
  first = new Int32Array(256);
  next = new Int32Array(256);
  number = new Float64Array(256);
  /** Index into {@link texts}, or −1. */
  text = new Int32Array(256);
  readonly texts: string[] = [];
  private readonly textIds = new Map<string, number>();

  intern(text: string): number {
    let id = this.textIds.get(text);
    if (id === undefined) {
      id = this.texts.push(text) - 1;
      this.textIds.set(text, id);
    }
    return id;
  }

  /** The number of a text that hardly occurs twice, such as a number as written: to look for it costs more than to keep it again. */
  keep(text: string): number {
    return this.texts.push(text) - 1;
  }

  /** The number of a text that a node of this kind has in another arena. */
  copyText(text: string, kind: Kind): number {
    return kind === Kind.Value ? this.keep(text) : this.intern(text);
  }

  /** Room for one more row; its number in the arena. */
  append(): number {
    if (this.count === this.kind.length) this.grow();
    return this.count++;
  }

  private grow(): void {
    // A small arena is moved so often that a large step costs less, and a note of any length has few thousand rows.
    const size = this.kind.length * (this.kind.length < LARGE ? 4 : 2);
    for (const column of ["kind", "operator"] as const) this[column] = widened(this[column], size);
    for (const column of ["start", "end", "first", "next", "text"] as const) this[column] = widened(this[column], size);
    this.number = widened(this.number, size);
  }
}

/** One statement's window on the arena. */
export class Tree {
  private base: number;
  private size = 0;

  constructor(private arena: Arena) {
    this.base = arena.count;
  }

  get count(): number {
    return this.size;
  }

  /**
   * Appends a node behind its children. Several children are first joined by {@link join}.
   * Only the statement parsed last can grow.
   * @param text what {@link intern} gave for the node's text.
   */
  add(kind: Kind, start: number, end: number, first: Node = NONE, operator = 0, number = NaN, text = -1): Node {
    const arena = this.arena;
    const row = arena.append();
    arena.kind[row] = kind;
    arena.operator[row] = operator;
    arena.start[row] = start;
    arena.end[row] = end;
    arena.number[row] = number;
    arena.text[row] = text;
    arena.next[row] = NONE;
    arena.first[row] = first;
    return this.size++;
  }

  /** Makes a node the next sibling of another. */
  join(node: Node, next: Node): void {
    this.arena.next[this.base + node] = next;
  }

  /** The number of a text for {@link add}. */
  intern(text: string): number {
    return this.arena.intern(text);
  }

  /** The number of a text for {@link add} that hardly occurs twice. */
  keep(text: string): number {
    return this.arena.keep(text);
  }

  /** Takes the sign off a literal of one number, which turned out to be the operand of a minus (`-2^2`). */
  takeSignOff(literal: Node, start: number): void {
    const value = this.base + this.first(literal);
    this.arena.start[this.base + literal] = start;
    this.arena.start[value] = start;
    this.arena.number[value] = -this.arena.number[value];
    this.arena.text[value] = this.arena.keep(this.arena.texts[this.arena.text[value]].replace(/^-/, ""));
  }

  kind(node: Node): Kind {
    return this.arena.kind[this.base + node];
  }

  operator(node: Node): number {
    return this.arena.operator[this.base + node];
  }

  start(node: Node): number {
    return this.arena.start[this.base + node];
  }

  end(node: Node): number {
    return this.arena.end[this.base + node];
  }

  span(node: Node): Span {
    return { start: this.start(node), end: this.end(node) };
  }

  number(node: Node): number {
    return this.arena.number[this.base + node];
  }

  /** The node's text; empty where it has none. */
  text(node: Node): string {
    const id = this.arena.text[this.base + node];
    return id < 0 ? "" : this.arena.texts[id];
  }

  first(node: Node): Node {
    return this.arena.first[this.base + node];
  }

  next(node: Node): Node {
    return this.arena.next[this.base + node];
  }

  children(node: Node): Node[] {
    const result: Node[] = [];
    for (let child = this.first(node); child !== NONE; child = this.next(child)) result.push(child);
    return result;
  }

  /**
   * The operators that begin with the same operand, the innermost first: of `a + b * c - d` the `+` and the `-`. A chain
   * may have thousands, so that whoever walks a tree by calling itself goes along it instead of down.
   */
  chain(node: Node): Node[] {
    const chain = [node];
    for (let left = this.first(node); this.kind(left) === Kind.Binary; left = this.first(left)) chain.push(left);
    return chain.reverse();
  }

  /** Copies this statement's rows to another arena and looks there from now on. */
  moveTo(arena: Arena): void {
    const from = this.arena;
    const base = arena.count;
    for (let row = this.base; row < this.base + this.size; row++) {
      const to = arena.append();
      arena.kind[to] = from.kind[row];
      arena.operator[to] = from.operator[row];
      arena.start[to] = from.start[row];
      arena.end[to] = from.end[row];
      arena.first[to] = from.first[row];
      arena.next[to] = from.next[row];
      arena.number[to] = from.number[row];
      arena.text[to] = from.text[row] < 0 ? -1 : arena.copyText(from.texts[from.text[row]], from.kind[row]);
    }
    this.arena = arena;
    this.base = base;
  }
}

/** Moves the trees to a fresh arena, which leaves behind the rows of statements that are no more. */
export function compact(trees: Iterable<Tree>): Arena {
  const arena = new Arena();
  for (const tree of trees) tree.moveTo(arena);
  return arena;
}

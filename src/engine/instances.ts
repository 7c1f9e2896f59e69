import { CellKind } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import type { Span } from "../text/span";
import { cellInRow } from "./columns";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import type { Binding, Frame } from "./frame";
import { seenAt, quantity, truth, type Operand } from "./operand";
import { OPERATIONS } from "./operations";
import type { Piece } from "./piece";
import { Standing, temporary, type Slots } from "./tape";

/** Definitions inside definitions: shallow enough for the machine's stack. */
const MOST_NESTED = 300;
/** Operations of a definition with its copies of others. */
export const MOST_COPIED = 20_000;

const NOTHING_BOUND: ReadonlyMap<string, never> = new Map<string, never>();

/**
 * The copies of definitions that a definition with `another` or `total` has in its code: of each further piece, all that
 * lies between it and its `each` inputs, compiled anew with slots of their own for these. What no `each` input reaches is
 * shared and read from its slots.
 */
export class Instances {
  /** The entries that were copied: what they rest on is read here too. */
  readonly copied: Entry[] = [];
  private readonly operands = new Map<string, Operand | undefined>();
  private readonly ofArguments = new Map<Binding, Map<string, Operand | undefined>>();
  private readonly drawnPieces = new Set<string>();
  private readonly drawnSlots = new Set<number>();
  /** Copies inside copies at the moment. */
  private depth = 0;
  private span?: Span;

  constructor(private readonly compiler: Compiler) {}

  /** The copy of an entry for the piece at hand; undefined where it is the same for all, and where it cannot be copied. */
  of(entry: Entry, node: Node): Operand | undefined {
    const { piece } = this.compiler.frame;
    const { type } = entry;
    if (!piece || !entry.differs || (type.kind !== "quantity" && type.kind !== "truth")) return undefined;
    const key = `${entry.id}@${piece.key}`;
    if (!this.operands.has(key)) this.operands.set(key, this.compile(entry, piece, node));
    const found = this.operands.get(key);
    if (!found) return undefined;
    const isList = type.length !== undefined;
    if (type.kind === "truth") return truth(node, found.at, isList);
    return quantity(node, type.dimension, found.at, { point: type.point, isList, unit: entry.unit });
  }

  /** Where the copy of a cell of a column is, for the piece at hand; undefined where it is the same for all. */
  ofCell(column: Entry, row: number, node: Node): number | undefined {
    const { piece } = this.compiler.frame;
    const { statement } = column;
    if (!piece || !column.differs || statement.kind !== "column") return undefined;
    const isComputed = statement.value !== undefined;
    if (!isComputed && statement.kinds[row] !== CellKind.Expression) return undefined;
    const source = { entry: column, node: statement.value ?? statement.cells[row], drawsAnew: false };
    const key = `${column.id}#${row}@${piece.key}`;
    if (!this.operands.has(key))
      this.operands.set(key, this.copy(source, isComputed ? { piece, row } : { piece }, node));
    return this.operands.get(key)?.at[0];
  }

  /** What a name means in the copy of a computed column: the cell of its row, if the table has such a column. */
  cellOf(name: string, row: number, node: Node): Operand | undefined | "unnamed" {
    const { compiler } = this;
    const { table } = compiler.frame.entry;
    const column = table && compiler.columnOf(table, name);
    return column ? cellInRow(compiler, column, row, node) : "unnamed";
  }

  /** An argument, of the piece at hand. */
  ofArgument(binding: Binding): Operand | undefined {
    const { piece } = this.compiler.frame;
    const { frame: home } = binding;
    if (!home || piece?.key === home.piece?.key) return binding.operand;
    let known = this.ofArguments.get(binding);
    if (!known) this.ofArguments.set(binding, (known = new Map()));
    const key = piece?.key ?? "";
    if (!known.has(key)) {
      const frame = { ...home, piece };
      this.depth++;
      known.set(
        key,
        this.compiler.inFrame(frame, () => this.compiler.expression(binding.node)),
      );
      this.depth--;
    }
    const operand = known.get(key);
    return operand && seenAt(operand, binding.operand.node);
  }

  /** Compiles an expression of the frame at hand for a piece; undefined where nothing of it differs from piece to piece. */
  drawnAnew(piece: Piece, node: Node): { readonly operand: Operand | undefined; readonly differs: boolean } {
    const { compiler } = this;
    const frame: Frame = { ...compiler.frame, piece };
    const outer = this.span;
    if (this.depth === 0) this.span = compiler.tree.span(node);
    const operand = compiler.inFrame(frame, () => compiler.expression(node));
    this.span = outer;
    return { operand, differs: this.drawnPieces.has(piece.key) };
  }

  /** Where trouble inside a copy is told: in the definition that is compiled. Undefined outside of copies. */
  get spanOfCopy(): Span | undefined {
    return this.depth > 0 ? this.span : undefined;
  }

  /** Whether an operation that was compiled from there on can skip values where an input of a further piece moves. */
  canSkipValues(from: number): boolean {
    const { op, a, b, c, count } = this.compiler.code;
    const moves = new Set<number>(this.drawnSlots);
    for (let k = from; k < count; k++) {
      const { kind, arity } = OPERATIONS[op[k]];
      if (![a[k], b[k], c[k]].slice(0, arity).some((operand) => moves.has(operand))) continue;
      if (kind !== "smooth") return true;
      moves.add(temporary(k));
    }
    return false;
  }

  /** An input of that piece was met. */
  drawn(piece: Piece, slot: number): void {
    this.drawnSlots.add(slot);
    let key = piece.key;
    this.drawnPieces.add(key);
    for (let end = key.lastIndexOf("/"); end >= 0; end = key.lastIndexOf("/")) {
      key = key.slice(0, end);
      this.drawnPieces.add(key);
    }
  }

  private compile(entry: Entry, piece: Piece, node: Node): Operand | undefined {
    const source = sourceOf(this.compiler, entry);
    if (!source) return undefined;
    if (source.entry !== entry && !this.copied.includes(entry)) this.copied.push(entry);
    return this.copy(source, { piece }, node);
  }

  /** Compiles the expression of another definition into this one. */
  private copy({ entry, node, drawsAnew }: Source, of: Pick<Frame, "piece" | "row">, at: Node): Operand | undefined {
    const { compiler } = this;
    if (this.depth >= MOST_NESTED || compiler.code.count > MOST_COPIED) {
      compiler.fail(at, { code: "piece.tooMany", text: entry.name ?? "", reason: "definitions", most: MOST_NESTED });
      return undefined;
    }
    this.depth++;
    if (!this.copied.includes(entry)) this.copied.push(entry);
    const { tree } = entry.statement;
    const frame: Frame = { entry, tree, bound: NOTHING_BOUND, origins: NOTHING_BOUND, calls: [], ...of, drawsAnew };
    const operand = compiler.inFrame(frame, () => compiler.expression(node));
    this.depth--;
    return operand;
  }
}

/** An expression that is copied, and whether its literals are drawn anew for each piece. */
interface Source {
  readonly entry: Entry;
  readonly node: Node;
  readonly drawsAnew: boolean;
}

/** The expression that an entry's value is. */
function sourceOf(compiler: Compiler, entry: Entry): Source | undefined {
  const { statement, results, type } = entry;
  switch (statement.kind) {
    case "given":
    case "assume": {
      const drawsAnew = statement.each !== undefined;
      const length = (type.kind === "quantity" && type.length) || 1;
      const replacement = results.length > length ? compiler.around.replacementOf(entry) : undefined;
      if (replacement?.statement.kind === "measured")
        return { entry: replacement, node: replacement.statement.value, drawsAnew };
      return { entry, node: statement.value, drawsAnew };
    }
    case "derived":
    case "order":
      return { entry, node: statement.value, drawsAnew: false };
    default:
      return undefined;
  }
}

/**
 * Whether an `each` input reaches an entry, itself included. What was chosen does not rest on what was wanted.
 * Of functions: whether one is named in the body.
 */
export function differsFromPieceToPiece(entry: Entry, slots: Slots): boolean {
  const { statement, results } = entry;
  switch (statement.kind) {
    case "given":
    case "assume":
      if (!statement.each) break;
      for (let i = 0; i < results.length; i++) if (slots.standing[results.from + i] !== Standing.Exact) return true;
      return false;
    case "derived":
      if (statement.choice) return false;
      break;
    case "choice":
    case "over":
    case "measured":
      return false;
  }
  return entry.dependencies.some(({ differs }) => differs);
}

import type { Node, Tree } from "../syntax/tree";
import type { Span } from "../text/span";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import type { Operand } from "./operand";
import type { Piece } from "./piece";

/** A statement, or a function's body with its parameters bound, while it is compiled. */
export interface Frame {
  readonly entry: Entry;
  readonly tree: Tree;
  readonly bound: ReadonlyMap<string, Binding>;
  /** For each parameter the argument of the outermost call that it rests on, where that is a single one. */
  readonly origins: ReadonlyMap<string, Span | undefined>;
  /** The functions that are open, outermost first. */
  readonly calls: readonly Entry[];
  /** The further piece that is compiled; undefined for the one that names without more ado mean. */
  readonly piece?: Piece;
  /** Of a copy of a computed column: the row whose cells names stand for. */
  readonly row?: number;
  /** It is a copy of an input that differs from piece to piece, so that its literals are drawn anew. */
  readonly drawsAnew: boolean;
}

/**
 * What a parameter stands for: the argument, and where it was written, to be compiled there again for a further piece. A
 * counter is the same for all, and has no such place.
 */
export interface Binding {
  readonly operand: Operand;
  /** As written at the call. */
  readonly node: Node;
  readonly frame?: Frame;
}

/** An argument of a call, with the place where it stands: of another piece it is compiled there again. */
export function argumentAt(compiler: Compiler, node: Node): Binding | undefined {
  const operand = compiler.expression(node);
  return operand && { operand, node, frame: compiler.frame };
}

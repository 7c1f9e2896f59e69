import type { Node } from "../syntax/tree";
import type { Entry } from "./entry";
import type { Frame } from "./frame";
import type { InputPlace } from "./outcome";

/** A sum over pieces, `total(n, x)`: its place, as far as a program runs, and how many pieces it has. */
export interface Sum {
  readonly key: string;
  readonly count: number;
}

/**
 * A further piece: that of an `another`, or one that stands for all of a `total`. It is known by its place in the text, as
 * an uncertain literal is, so that a name of it is one quantity however often it is used; inside a function by the arguments
 * too; and inside a further piece by that.
 */
export interface Piece {
  readonly key: string;
  /** The sums in which it stands for all pieces, outermost first. */
  readonly sums: readonly Sum[];
}

/** The piece of an `another` or a `total` at a node; of a `total`, with the number of pieces. */
export function pieceAt(frame: Frame, node: Node, top: Entry, count?: number): Piece {
  const outer = frame.piece;
  const bound = [...frame.bound.values()].flatMap(({ operand }) => operand.at);
  // What is worked out on the way has a number in this definition only.
  const home = bound.some((at) => at < 0) ? `${top.id}:` : "";
  const times = count === undefined ? "" : `x${count}`;
  const place = `${frame.entry.id}.${node}(${home}${bound.join()})${times}`;
  const key = outer ? `${outer.key}/${place}` : place;
  const sums = outer?.sums ?? [];
  return { key, sums: count === undefined ? sums : [...sums, { key, count }] };
}

/** An input as its readers are told of it where it is one of a further piece. */
export function ofPiece(place: InputPlace, { sums }: Piece): InputPlace {
  if (sums.length === 0) return { ...place, name: `another ${place.name}` };
  const pieces = sums.reduce((product, { count }) => product * count, 1);
  return { ...place, name: `each ${place.name}`, spread: { ...place.spread, pieces } };
}

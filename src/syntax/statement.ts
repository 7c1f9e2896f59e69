import type { Span } from "../text/span";
import type { NetworkColumns, NetworkQuantity, NetworkRole } from "./network";
import type { SyntaxProblem } from "./problem";
import type { Node, Tree } from "./tree";

/**
 * One statement as read: what kind it is, and which nodes of its tree are its parts.
 * All spans and nodes count from the statement's first character (its opening word, after the indentation).
 * A statement is immutable and knows nothing of where it stands: an edit above it moves nothing.
 */
export type Statement =
  | Input
  | Condition
  | Derived
  | Choice
  | FunctionDefinition
  | Measurement
  | Solution
  | Rule
  | Items
  | Correlation
  | Use
  | Fabrication
  | Order
  | Plot
  | Variant
  | Acceptance
  | TableHead
  | Column
  | Broken;

interface Base {
  /** From the first character to the end of the last line, comments included. */
  readonly text: string;
  readonly tree: Tree;
  readonly problems: readonly SyntaxProblem[];
  /** What stands behind `#`, of all lines, joined by a space; empty where there is none. */
  readonly comment: string;
}

/** `given NAME = value`, `assume NAME = value`. */
export interface Input extends Base {
  readonly kind: "given" | "assume";
  readonly name: Node;
  readonly value: Node;
  /** `each` was written: the input differs from piece to piece. The item, if one was named. */
  readonly each?: { readonly item?: Node };
  /** The Text node behind `from`. */
  readonly source?: Node;
}

/** `over NAME = a .. b`. */
export interface Condition extends Base {
  readonly kind: "over";
  readonly name: Node;
  readonly value: Node;
  readonly source?: Node;
}

/** `NAME [unit] = expression`, and the same with a choice behind it. */
export interface Derived extends Base {
  readonly kind: "derived";
  readonly name: Node;
  readonly unit?: Node;
  readonly value: Node;
  readonly choice?: ChoicePart;
}

/** `choose [at least | at most] value [from SERIES | list | column]` behind an expression. */
export interface ChoicePart {
  readonly sense: "nearest" | "least" | "most";
  /** The Literal that is used. */
  readonly value: Node;
  /** A Name (`E24`), List or Member. */
  readonly from?: Node;
  /** From the word `choose` to the end of the part. */
  readonly span: Span;
}

/** `choose NAME = value`: a decision without a formula. The value is a Literal, or a Member or Index (a part). */
export interface Choice extends Base {
  readonly kind: "choice";
  readonly name: Node;
  readonly value: Node;
}

export interface FunctionDefinition extends Base {
  readonly kind: "function";
  readonly name: Node;
  readonly parameters: readonly Parameter[];
  /** The unit of what it gives. */
  readonly unit?: Node;
  readonly value: Node;
  /** The condition behind `where`: for which arguments the expression holds. */
  readonly domain?: Node;
}

export interface Parameter {
  readonly name: Node;
  /** A unit of the kind that its arguments are of; undefined where it takes any. */
  readonly unit?: Node;
  readonly default?: Node;
}

/** `measured NAME = value [of N] [at NAME = value, …] [on DATE] [from "source"] [instead]`. */
export interface Measurement extends Base {
  readonly kind: "measured";
  readonly name: Node;
  readonly value: Node;
  /** Number of pieces. */
  readonly of?: number;
  readonly at: readonly { readonly name: Node; readonly value: Node }[];
  /** ISO 8601 calendar date. */
  readonly on?: string;
  readonly source?: Node;
  readonly instead: boolean;
}

/** `let NAME in a .. b satisfy left = right`. */
export interface Solution extends Base {
  readonly kind: "let";
  readonly name: Node;
  readonly bracket: Node;
  readonly left: Node;
  readonly right: Node;
}

export interface Rule extends Base {
  readonly kind: "rule";
  readonly word: "must" | "should";
  readonly condition: Node;
  /** The share of builds that must keep it, 0 to 1. */
  readonly share?: number;
}

export interface Items extends Base {
  readonly kind: "items";
  readonly names: readonly Node[];
}

export interface Correlation extends Base {
  readonly kind: "correlation";
  readonly first: Node;
  readonly second: Node;
  readonly coefficient: number;
}

export interface Use extends Base {
  readonly kind: "use";
  /** The Text node with the path as written. */
  readonly path: Node;
  readonly name: Node;
}

export interface Fabrication extends Base {
  readonly kind: "fab";
  readonly name: Node;
  readonly path: Node;
}

export interface Order extends Base {
  readonly kind: "order";
  readonly name: Node;
  readonly value: Node;
}

export interface Plot extends Base {
  readonly kind: "plot";
  readonly expressions: readonly Node[];
  readonly name: Node;
  readonly range: Node;
  readonly logarithmic: boolean;
}

export interface Variant extends Base {
  readonly kind: "variant";
  readonly title: Node;
  readonly settings: readonly { readonly name: Node; readonly value: Node }[];
}

export interface Acceptance extends Base {
  readonly kind: "accept";
  /** The dotted code, as written. */
  readonly code: string;
  readonly codeSpan: Span;
  /** The Text node behind `because`. */
  readonly reason: Node;
}

/**
 * The head of a data table: its name, and the names of its rows. Its text is the first column, a cell a line, and behind it
 * what rows have too much.
 */
export interface TableHead extends Base {
  readonly kind: "table";
  readonly name: Node;
  /** The Text node of each row's name; its text is empty where the row has none. */
  readonly rows: readonly Node[];
}

/** A column of a data table: `name`, `name [unit]` or `name = expression`. Its text is the header and the cells, one a line. */
export interface Column extends Base {
  readonly kind: "column";
  /** The name of the table, in its compared form. */
  readonly table: string;
  /** A Name, or Missing where the header is none. */
  readonly name: Node;
  /** The unit of bare numbers, or that in which computed cells are shown. */
  readonly unit?: Node;
  /** What is computed for every row. */
  readonly value?: Node;
  readonly isText: boolean;
  /** For each row what stands there, and its node: a Literal, an expression, a Text; {@link NONE} where the cell has none. */
  readonly kinds: readonly CellKind[];
  readonly cells: readonly Node[];
  /** What it is for in a table that is a network. */
  readonly role?: NetworkRole;
  /** The name with which its table would be a network. */
  readonly networkWord?: string;
  /** It is not written: it is what the network of its table comes to. */
  readonly solved?: Solved;
}

/** A column that a network has without its being written: which, and of what its values are. */
export interface Solved {
  readonly quantity: NetworkQuantity;
  /** The Text node of each value's name: of a node, or of a branch, where it is empty if the row has no name. */
  readonly names: readonly Node[];
  /** Of branches: the row of each. */
  readonly rows: readonly number[];
  readonly columns: NetworkColumns;
  /** Of the voltages, with which all else is worked out: for each row the Text nodes of its ends and of its name. */
  readonly branches?: readonly { readonly from: Node; readonly to: Node; readonly name: Node }[];
}

export const enum CellKind {
  Empty,
  /** A number as written. */
  Value,
  /** `= expression`. */
  Expression,
  Text,
  /** What cannot be read; a problem says why. */
  Unread,
}

/** A line that could not be read as any statement. If it began to define a name, the name is kept, so that its uses stay quiet. */
export interface Broken extends Base {
  readonly kind: "broken";
  readonly name?: Node;
}

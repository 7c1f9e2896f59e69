import type { Statement } from "../syntax/statement";
import type { Span } from "../text/span";
import type { Dimension } from "../quantity/dimension";
import type { Unit, UnitTrouble } from "../quantity/unit";
import type { Extent } from "./outcome";

/**
 * What the engine found wrong, as plain data: `findings/` has the sentences and the fixes.
 * Spans count from the start of the statement; text that is shown is given ready, numbers in coherent SI.
 */
export type EngineProblem = { readonly span: Span } & EngineTrouble;

/** A side of an operation, as the author wrote it and as it was understood. */
export interface Side {
  /** As written. */
  readonly text: string;
  readonly dimension: Dimension;
  /** It is a temperature on a scale, not a difference. */
  readonly point: boolean;
  /** The quantity it is, where it is written as a bare name: its value is looked up when the finding is worded. */
  readonly name?: string;
  readonly span: Span;
}

/** A name, and the path of the note that defines it. */
export interface NameInNote {
  readonly name: string;
  readonly note: string;
}

/** Another place in a note: a span of a statement. The snapshot knows on which line the statement stands. */
export interface Place {
  readonly path: string;
  readonly statement: Statement;
  readonly span: Span;
}

export type EngineTrouble =
  | {
      readonly code: "name.unknown";
      readonly name: string;
      readonly suggestion?: string;
      readonly isUnit: boolean;
      /** It stands before a dot, where only what has members can stand. */
      readonly isHolder?: boolean;
    }
  | { readonly code: "name.doubled"; readonly name: string; readonly first: Place }
  | { readonly code: "name.lookAlike"; readonly name: string; readonly other: string; readonly first: Place }
  /** The way round, from a name back to it; `left` more names are left out before the last. */
  | { readonly code: "name.circular"; readonly path: readonly NameInNote[]; readonly left: number }
  /** A name stands where its kind cannot: a function without brackets, a counted unit as a quantity … */
  | {
      readonly code: "name.wrongKind";
      readonly name: string;
      readonly is: NameKind;
      readonly wanted: "quantity" | "function" | "note" | "counted unit";
    }
  | { readonly code: "name.native"; readonly name: string }
  | { readonly code: "unit.mismatch"; readonly operation: MismatchOperation; readonly left: Side; readonly right: Side }
  | { readonly code: "unit.ratioAdded"; readonly sign: "+" | "-"; readonly left: Side; readonly right: Side }
  /** `12 V/R`, `3x`: a word that is no unit stands where a unit belongs. */
  | {
      readonly code: "unit.unknown";
      readonly word: string;
      readonly trouble: UnitTrouble;
      readonly isName?: boolean;
      readonly rewritten?: string;
    }
  | { readonly code: "unit.shownIn"; readonly wanted: string; readonly wantedDimension: Dimension; readonly side: Side }
  | { readonly code: "unit.ratioNeeded"; readonly where: string; readonly side: Side }
  | { readonly code: "unit.exponent"; readonly base: Side; readonly reason: "not constant" | "not in sixths" }
  | { readonly code: "unit.nothingDropped"; readonly name: string; readonly side: Side }
  /** `side` counts turns where an angle is needed, or the reverse: in brackets, or beside a torque. Units as shown. */
  | {
      readonly code: "unit.turns";
      readonly is: "turns" | "angle";
      readonly turns: string;
      readonly angle: string;
      readonly side: Side;
      readonly torque?: Side;
    }
  | { readonly code: "unit.takenName"; readonly name: string }
  | { readonly code: "temperature.point"; readonly operation: string; readonly side: Side }
  | { readonly code: "temperature.pair"; readonly operation: string; readonly left: Side; readonly right: Side }
  | { readonly code: "temperature.relative"; readonly tolerance: string; readonly text: string }
  | { readonly code: "literal.order"; readonly low: string; readonly high: string; readonly rewritten: string }
  | { readonly code: "literal.typicalOutside"; readonly typical: string; readonly low: string; readonly high: string }
  | {
      readonly code: "literal.pointsOrShare";
      readonly text: string;
      readonly asPoints: string;
      readonly asShare: string;
    }
  | { readonly code: "literal.bandNeeded"; readonly text: string }
  | { readonly code: "literal.coverage"; readonly text: string }
  | {
      readonly code: "literal.fewReadings";
      readonly word: "readings" | "sample";
      readonly number: string;
      readonly unit?: string;
    }
  | { readonly code: "literal.unreadable"; readonly text: string; readonly reason: "size" | "letter" | "uncertain" }
  | {
      readonly code: "value.undefined";
      readonly text: string;
      readonly reason: string;
      readonly operands: readonly LostOperand[];
      readonly within?: Place;
      readonly lookedUp?: LookedUp;
    }
  | {
      readonly code: "range.undefined";
      readonly text: string;
      readonly reason: string;
      readonly operands: readonly LostOperand[];
      readonly within?: Place;
    }
  /** Nothing of it differs from piece to piece: `another x` is x, and `total(n, x)` is n * x. */
  /** `each LDE`: not what is counted, but nothing or a name of another kind. */
  | { readonly code: "piece.item"; readonly name: string; readonly is?: NameKind }
  | { readonly code: "piece.same"; readonly text: string; readonly of: "another" | "total"; readonly whole: string }
  | { readonly code: "piece.count"; readonly text: string; readonly is: "uncertain" | "no value" | number }
  | {
      readonly code: "piece.tooMany";
      readonly text: string;
      readonly reason: "definitions" | "jumps";
      readonly most: number;
    }
  | {
      readonly code: "correlation.inputs";
      readonly name: string;
      readonly other?: string;
      readonly reason:
        | "no input"
        | "condition"
        | "formula"
        | "part"
        | "exact"
        | "measured"
        | "same"
        | "doubled"
        /** `name` differs from piece to piece, and `other` does not. */
        | "pieces"
        /** For ± 1: they are not spread alike. */
        | "shapes";
    }
  /** With those stated before there can be no such quantities. */
  | { readonly code: "correlation.together"; readonly name: string; readonly other: string; readonly r: number }
  /** `lowest(x)`, where x has no such end; `nominal(x)`, where it has no value. */
  | { readonly code: "range.noEnd"; readonly end: "nominal" | "lowest" | "highest"; readonly text: string }
  /** `let`: the bracket is no plain range; the name is in neither side; what jumps stands in a side. */
  | { readonly code: "solution.bracket"; readonly text: string; readonly reason: "not a range" | "points" }
  | { readonly code: "solution.unused"; readonly name: string }
  | { readonly code: "solution.jumps"; readonly name: string }
  /** `let`: the sides do not meet in the bracket. What they are at both of its ends, as shown. */
  | { readonly code: "solution.none"; readonly name: string; readonly ends: readonly [SidesAt, SidesAt] }
  | { readonly code: "solution.several"; readonly name: string; readonly at: readonly string[]; readonly left: number }
  | { readonly code: "function.recursive"; readonly path: readonly string[] }
  | { readonly code: "function.arguments"; readonly name: string; readonly reason: string; readonly signature: string }
  /** An argument is of another kind than its parameter's unit, which is given as written, asks for. */
  | {
      readonly code: "function.argumentUnit";
      readonly name: string;
      readonly parameter: string;
      readonly unit: string;
      readonly wanted: Pick<Side, "dimension" | "point">;
      readonly side: Side;
    }
  | { readonly code: "function.tooLarge"; readonly name: string }
  | { readonly code: "function.body"; readonly name: string; readonly problem: EngineProblem; readonly within: Place }
  /** Text stands where a quantity or a condition is needed. */
  | { readonly code: "text.unexpected"; readonly where: string; readonly text: string }
  /** A row or a column that the table does not have. */
  | {
      readonly code: "table.unknown";
      readonly table: string;
      readonly name: string;
      readonly is: "row" | "column" | "node";
      /** The column whose cell is asked for, of a row or a node. */
      readonly asked?: string;
      readonly suggestion?: string;
      /** What the table has of it. */
      readonly has: readonly string[];
    }
  /** Cells of two dimensions, where a list needs one. */
  | { readonly code: "table.mixed"; readonly column: string; readonly left: NamedKind; readonly right: NamedKind }
  /** In a file several rows have the name by which one is looked for. */
  | { readonly code: "table.repeatedRow"; readonly row: string; readonly table: string; readonly count: number }
  | { readonly code: "table.emptyCell"; readonly row: string; readonly column: string }
  /** A row has the name of a column, which is what `parts.name` means. */
  | { readonly code: "table.rowLikeColumn"; readonly table: string; readonly row: string }
  /** In an assembly: what a part is of is in no row. */
  | { readonly code: "table.unknownPart"; readonly part: string; readonly suggestion?: string }
  /** In an assembly: a part is of something that is, by way of others, part of it. */
  | { readonly code: "table.loop"; readonly part: string; readonly of: string }
  /** In an assembly that is rolled up: parts that nothing is part of have no value, and the cells are left empty. */
  | {
      readonly code: "table.partEmpty";
      readonly column: string;
      readonly parts: readonly string[];
      readonly left: number;
    }
  | { readonly code: "table.native"; readonly column: string }
  /** A column of a network that is called as what the network comes to, or says once more what another says. */
  | { readonly code: "network.column"; readonly column: string; readonly is: "result" | "second" }
  /** What is to lie between the ends of a branch is of another kind. */
  | {
      readonly code: "network.kind";
      readonly role: "resistance" | "source" | "load";
      readonly text: string;
      readonly dimension?: Dimension;
    }
  | { readonly code: "network.resistance"; readonly text: string; readonly isZero: boolean }
  /** A branch without a second end, or with the same one twice. */
  | { readonly code: "network.end"; readonly branch: string; readonly node?: string }
  /** A branch with nothing between its ends, or with a load and something else. */
  | { readonly code: "network.between"; readonly branch: string; readonly has: readonly string[] }
  /** No node is the reference, or nodes of several names could be. */
  | { readonly code: "network.reference"; readonly found: readonly string[] }
  /** Sources without resistance that close a loop. */
  | { readonly code: "network.sourceLoop"; readonly branch: string }
  /** Nodes without a way to the reference, `left` more beside those named. */
  | {
      readonly code: "network.floating";
      readonly nodes: readonly string[];
      readonly left: number;
      readonly reference: string;
    }
  | {
      readonly code: "network.deadEnd";
      readonly node: string;
      readonly branch: string;
      readonly suggestion?: string;
    }
  | { readonly code: "network.tooMeshed"; readonly branches: number }
  /** Loads and no source; `column` may be meant to be one. */
  | { readonly code: "network.noSource"; readonly column?: string }
  /** A table that would be a network if the column were called as the word. */
  | { readonly code: "network.header"; readonly column: string; readonly word: string }
  /** What is wrong with a computed column in some of its rows. */
  | {
      readonly code: "table.rows";
      readonly rows: readonly string[];
      readonly left: number;
      readonly problem: EngineProblem;
    }
  /** The arguments of a call leave what the function holds for. */
  | {
      readonly code: "function.domain";
      /** The function as it is called, and the part of its condition that is not kept, as written. */
      readonly name: string;
      readonly condition: string;
      readonly stated: Place;
      readonly arguments: readonly CheckedArgument[];
      /** The function from which it is called, where that is not the statement itself. */
      readonly caller?: { readonly name: string; readonly within: Place };
    }
  | { readonly code: "truth.needed"; readonly where: string; readonly side: Side }
  | { readonly code: "truth.unexpected"; readonly where: string; readonly text: string }
  | {
      readonly code: "counter.limits";
      readonly text: string;
      readonly reason: "not whole" | "not certain" | "none" | "too many";
      /** Of a limit that is not a whole number: its formula, and what that comes to. */
      readonly broken?: { readonly text: string; readonly value: number };
    }
  | {
      readonly code: "lookup.keys";
      readonly text: string;
      readonly reason: "not exact" | "not rising" | "doubled" | "too few";
      /** Of texts: the key that is there twice, and which members of the list it is, from 1. */
      readonly doubled?: { readonly key: string; readonly places: readonly [number, number] };
    }
  /** A text that is looked up among others. */
  | {
      readonly code: "lookup.missing";
      readonly text: string;
      readonly keys: readonly string[];
      readonly suggestion?: string;
    }
  | { readonly code: "list.needed"; readonly name: string; readonly text: string }
  | { readonly code: "list.unexpected"; readonly where: string; readonly text: string }
  /** Which members there are, or in which order, depends on uncertain inputs. */
  | {
      readonly code: "list.undecided";
      readonly name: string;
      readonly row: string;
      /** What decides has no value there. */
      readonly isMissing?: true;
    }
  | {
      readonly code: "list.lengths";
      readonly left: string;
      readonly leftLength: number;
      readonly right: string;
      readonly rightLength: number;
    }
  | {
      readonly code: "choice.off";
      readonly used: string;
      readonly series: string;
      readonly below?: string;
      readonly above?: string;
    }
  | {
      readonly code: "choice.overtaken";
      readonly used: string;
      readonly wanted: string;
      readonly series: string;
      readonly better: string;
    }
  | {
      readonly code: "choice.short";
      readonly used: string;
      readonly sense: "least" | "most";
      readonly wanted: string;
      readonly next?: string;
    }
  | { readonly code: "choice.series"; readonly text: string; readonly reason: string }
  | {
      readonly code: "measurement.disjoint" | "measurement.outside";
      readonly name: string;
      readonly measured: string;
      readonly predicted: string;
      readonly under: string;
      readonly origin: Origin;
    }
  | { readonly code: "measurement.replaces"; readonly name: string; readonly is: string }
  | { readonly code: "assumption.unused"; readonly name: string }
  | { readonly code: "rule.notACondition"; readonly side: Side }
  | {
      readonly code: "use.self" | "use.outside" | "use.missing" | "use.unreadable" | "use.notANote";
      readonly path: string;
      readonly detail: string;
    }
  /** A note takes the name of a chapter. */
  | { readonly code: "handbook.shadowed"; readonly chapter: string }
  | { readonly code: "handbook.unreadable"; readonly chapter: string; readonly detail: string }
  | { readonly code: "later.notComputed"; readonly what: string };

/** Both sides of an equation where the unknown has a value; texts as they are shown. */
export interface SidesAt {
  readonly at: string;
  /** Undefined where the side has no value. */
  readonly left?: string;
  readonly right?: string;
}

/** A cell, by the name of its row, and of what kind it is. */
export interface NamedKind {
  readonly row: string;
  readonly dimension: Dimension;
  readonly point: boolean;
}

export type NameKind =
  | "quantity"
  | "function"
  | "counted unit"
  | "note"
  | "fabrication files"
  | "native function"
  | "table"
  | "column"
  | "row"
  | "part";

/** What the two sides were to do with each other. */
export type MismatchOperation = {
  readonly kind:
    | "add"
    | "subtract"
    | "compare"
    | "choose"
    | "measure"
    | "condition"
    | "limits"
    | "list"
    | "branches"
    | "pick"
    | "parallel"
    | "argument";
  readonly name?: string;
};

/** An operand at the place where a value was lost, in coherent SI. */
export interface LostOperand {
  readonly text: string;
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** A value that is none of the keys it is looked up among, and the keys next to it, below and above; in coherent SI. */
export interface LookedUp {
  readonly value: number;
  readonly near: readonly number[];
}

/** What a call gives for a parameter that its function's condition speaks of. */
export interface CheckedArgument {
  /** The parameter. */
  readonly name: string;
  /** In coherent SI. */
  readonly extent: Extent;
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
  /** What it says, where it is a text; the extent means nothing then. */
  readonly text?: string;
  /** The row of a list, from 0. */
  readonly row?: number;
}

/** Where a value comes from. */
export type Origin = "given" | "assumed" | "over" | "derived" | "chosen" | "measured" | "found" | "order";

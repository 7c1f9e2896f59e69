export type { Notes } from "../engine/referent";
import type { ValueDistribution } from "../engine/distribution";
import type { OtherChoice } from "../phrases/choosing";
import type { Edit } from "../text/edit";
import type { Span } from "../text/span";

/** A place in a note. */
export interface Location {
  readonly path: string;
  readonly span: Span;
}

/** What is shown beside a line. */
export interface LineResult {
  /** From 0. */
  readonly line: number;
  /** Offset of the end of the statement's last line, where the result stands. */
  readonly at: number;
  /** `0.4 .. 3 .. 5.6 V`, or a rule in words. */
  readonly text: string;
  readonly kind: "value" | "rule";
  /** Where a value comes from, which its line style tells: dotted a guess, dashed assumed, solid measured, none else. */
  readonly style: "none" | "guess" | "assumed" | "measured";
  /** It is set in bold: a rule that fails. */
  readonly isStrong: boolean;
}

export interface Hover {
  readonly span: Span;
  /** CommonMark. Text of the note is escaped in it. */
  readonly markdown: string;
  /** The page of the handbook that has more to say: a chapter, and what in it. */
  readonly page?: { readonly chapter: string; readonly name?: string };
}

/** What takes longer than a look, and is worked out in slices because somebody asks about a row. */
export interface WorkedOut {
  /** Of a value: how it is distributed, by trials. */
  readonly distribution?: ValueDistribution;
  /** Of a rule that fails: other choices with which it holds, the best first. */
  readonly otherChoices?: readonly OtherChoice[];
  /** It is being worked out. */
  readonly isPending?: true;
}

export interface Completion {
  readonly label: string;
  readonly kind:
    | "quantity"
    | "assumption"
    | "function"
    | "unit"
    | "counted unit"
    | "series"
    | "note"
    | "chapter"
    | "statement"
    | "constant"
    | "table"
    | "column"
    | "row";
  /** One line: its value, its unit's name, its signature. */
  readonly detail: string;
  readonly documentation?: string;
  /** Replaces `span`. */
  readonly insert: string;
  readonly span: Span;
  /** Order among the others; text compare. */
  readonly rank: string;
}

export interface DocumentSymbol {
  readonly name: string;
  readonly detail: string;
  readonly kind:
    | "heading"
    | "given"
    | "assumption"
    | "quantity"
    | "choice"
    | "function"
    | "rule"
    | "items"
    | "note"
    | "measurement"
    | "order"
    | "table"
    | "column";
  /** All of it, and its name. */
  readonly span: Span;
  readonly nameSpan: Span;
  readonly children: readonly DocumentSymbol[];
}

export interface Folding {
  /** Lines from 0, the last one included. */
  readonly firstLine: number;
  readonly lastLine: number;
}

/** The edits of one note; each rename or the like has as many of these as notes change. */
export interface NoteEdits {
  readonly path: string;
  readonly edits: readonly Edit[];
}

/** The state of a note in numbers, for the status bar and for check-all. */
export interface Summary {
  readonly fail: number;
  readonly failAtLimits: number;
  readonly undecided: number;
  readonly hold: number;
  /** Assumptions without a source. */
  readonly guesses: number;
  readonly errors: number;
  readonly warnings: number;
  readonly openItems: number;
  /** No `must` fails or is undecided, and there is no error. */
  readonly isGood: boolean;
  /** `2 fail · 11 hold · 3 guesses`. */
  readonly text: string;
}

/** A guess that is still open, and why it is to be settled. Lines count from 1. */
export interface GuessToSettle {
  readonly path: string;
  readonly line: number;
  readonly name: string;
  /** Its value as it is shown; empty where it has none. */
  readonly shown: string;
  readonly hasLimits: boolean;
  /** The `must` that it moves most, of any note. */
  readonly must?: {
    readonly path: string;
    readonly line: number;
    readonly condition: string;
    /** See `Influence`; absent where it is without bound. */
    readonly share?: number;
    readonly isShort: boolean;
  };
  /** In words, with code marks about the rule. */
  readonly reason: string;
}

/** What is to be done still: a task item without a tick. */
export interface OpenItem {
  readonly span: Span;
  /** The weight it opens with, if it opens with one. */
  readonly word?: "must" | "should";
  readonly text: string;
}

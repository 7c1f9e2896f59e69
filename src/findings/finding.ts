import type { Problem, RuleOutcome } from "../engine/outcome";
import type { InSlices } from "../engine/slices";
import type { Row, Snapshot } from "../engine/snapshot";
import type { CautionCode, PassedLimit } from "../phrases/cautions";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";

export type Severity = "error" | "warning" | "information" | "hint";

/** Something that a person should know about a place in a note. Plain data. */
export interface Finding {
  /** Stable and dotted: `unit.mismatch`. */
  readonly code: Code;
  readonly severity: Severity;
  /** In offsets of the note. */
  readonly span: Span;
  /** Names both sides, then the way out. */
  readonly message: string;
  /** Other places that the message speaks of. */
  readonly related?: readonly Related[];
}

export interface Related {
  readonly path: string;
  /** In offsets of that note. */
  readonly span: Span;
  readonly message: string;
}

/** What the catalogue may ask when it words a finding. */
export interface FindingContext {
  readonly snapshot: Snapshot;
  /** Other notes that are open or used, by path. */
  other(path: string): Snapshot | undefined;
  /** What the note would be after the edits. Costly: for the titles of fixes only. */
  whatIf<T>(edits: readonly Edit[], look: (snapshot: Snapshot) => T): InSlices<T>;
  /** Series to choose from by the quantity's SI unit, a setting: `Ω`, `F`, `H`. */
  seriesFor(unit: "Ω" | "F" | "H"): string;
}

/** All that the catalogue puts in words: what syntax and engine found in a statement, and what it finds by itself. */
export type AnyProblem =
  Problem | FileProblem | LostFileProblem | RuleProblem | CautionProblem | AcceptProblem | TextProblem;
export type Code = AnyProblem["code"];

/** What is wrong in a table that is a file. The span is that of its path in the `use` statement. */
export interface FileProblem {
  readonly code: "table.file";
  readonly span: Span;
  readonly path: string;
  /** All of it, by line. */
  readonly places: readonly FilePlace[];
}

/** Where something is wrong in a table that is a file. */
export interface FilePlace {
  readonly problem: Problem;
  /** The part of the table that it is in. */
  readonly inRow: Row;
  /** From 1. */
  readonly line: number;
  readonly column?: string;
}

/** A table that is a file has nothing in it, or characters that could not be read. The span is that of its path in the `use` statement. */
export type LostFileProblem = { readonly span: Span; readonly path: string } & (
  { readonly code: "table.emptyFile" } | { readonly code: "table.notUtf8"; readonly count: number }
);

/** The outcome of a rule that does not hold. The span counts from the start of the statement. */
export interface RuleProblem {
  readonly code: "rule.fails" | "rule.failsAtLimits" | "rule.undecided";
  readonly span: Span;
  readonly rule: RuleOutcome;
}

/** A quantity passes a limit beyond which people can be hurt. The span counts from the start of the statement. */
export interface CautionProblem {
  readonly code: CautionCode;
  readonly span: Span;
  readonly passed: PassedLimit;
}

/** An acceptance that accepts nothing. The span counts from the start of the statement. */
export type AcceptProblem = { readonly span: Span; readonly accepted: string } & (
  | { readonly code: "accept.unknown"; readonly instead: readonly string[] }
  | { readonly code: "accept.idle"; readonly reason: "none" | "error" }
);

/** What is found in the text outside of statements. The span is in offsets of the note. */
export type TextProblem = { readonly span: Span } &
  /** A run of lines that read as statements; what frees the first of them frees all. */
  (
    | {
        readonly code: "note.afterParagraph" | "note.inList";
        readonly lines: number;
        readonly insertAt: number;
        readonly insert: string;
      }
    /** A paragraph of statements; of each line the spaces before it. */
    | { readonly code: "note.atMargin"; readonly lines: readonly Span[] }
    | { readonly code: "text.notUtf8"; readonly count: number }
  );

/** The problem that a code stands for. */
export type ProblemOf<C extends Code> = AnyProblem extends infer P
  ? P extends { readonly code: infer K }
    ? C extends K
      ? P
      : never
    : never
  : never;

/** A problem where it stands: the row of its statement; none for what is found outside of statements. */
export interface Site<C extends Code = Code> {
  readonly row: C extends TextProblem["code"] ? undefined : Row;
  readonly context: FindingContext;
}

/** The part of the catalogue that words one kind of problem: one file each, named after its code. */
export interface Wording<C extends Code> {
  readonly severity: Severity;
  /** Where it depends on the problem; {@link severity} is then the gravest. */
  readonly severityOf?: (problem: ProblemOf<C>, site: Site<C>) => Severity;
  /** What it means and what to do, for the reference: a sentence or two. */
  readonly reference: string;
  readonly message: (problem: ProblemOf<C>, site: Site<C>) => string;
  readonly related?: (problem: ProblemOf<C>, site: Site<C>) => readonly Related[];
  /** At most three, the best first; none where none is right. Those that are tried first are found in slices. */
  readonly fixes?: (problem: ProblemOf<C>, site: Site<C>) => readonly Fix[] | InSlices<readonly Fix[]>;
}

import type { Problem } from "../engine/outcome";
import type { Row, Snapshot } from "../engine/snapshot";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";

export type Severity = "error" | "warning" | "information" | "hint";

/** Something that a person should know about a place in a note. Plain data. */
export interface Finding {
  /** Stable and dotted: `unit.mismatch`. */
  readonly code: string;
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
  readonly span: Span;
  readonly message: string;
}

/** What the catalogue may ask when it words a finding. */
export interface FindingContext {
  readonly snapshot: Snapshot;
  /** Other notes that are open or used. */
  other(path: string): Snapshot | undefined;
  /** What the note would be after the edits. */
  whatIf<T>(edits: readonly Edit[], look: (snapshot: Snapshot) => T): T;
  /** Series to choose from by the quantity's SI unit, a setting: `Ω`, `F`, `H`. */
  seriesFor(unit: "Ω" | "F" | "H"): string;
}

/** The part of the catalogue that words one kind of problem: one file each, named after its code. */
export interface Wording<P extends Problem = Problem> {
  readonly code: P["code"];
  readonly severity: Severity;
  /** What it means and what to do, for the reference: a sentence or two. */
  readonly reference: string;
  message(problem: P, row: Row, context: FindingContext): string;
  related?(problem: P, row: Row, context: FindingContext): readonly Related[];
  /** At most three, the best first; none where none is right. */
  fixes?(problem: P, row: Row, context: FindingContext): readonly Fix[];
}

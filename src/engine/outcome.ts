import type { Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { SyntaxProblem } from "../syntax/problem";
import type { Relation } from "./condition";
import type { CellType } from "./entry";
import type { EngineProblem, Origin } from "./problem";
import type { Spread } from "./spread";

export type Problem = SyntaxProblem | EngineProblem;

/** What came out of a statement. Immutable, and the same object as before where nothing changed. */
export type Outcome =
  | QuantityOutcome
  | TruthOutcome
  | RuleOutcome
  | UseOutcome
  | TableOutcome
  | ColumnOutcome
  | PartOutcome
  /** A function, counted units, an acceptance, a correlation; a statement that is read and not computed yet; or one that could not be read. */
  | {
      readonly kind: "function" | "items" | "accept" | "correlation" | "later" | "broken";
      readonly problems: readonly Problem[];
    };

/** A value with its range, in coherent SI units; temperatures on a scale in K. */
export interface Extent {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  /** See `Standing` of the tape. */
  readonly standing: "exact" | "attained" | "enclosed" | "undefined";
  /** Where it is attained: the inputs with the ends that lead to the highest value; the lowest is at the opposite ends. */
  readonly pushes: readonly Push[];
  /** A narrower range is still searched for; if it is undefined, one may be found. */
  readonly isPending?: true;
  /** Where it was searched for: the least and greatest values that were computed, and the inputs that give them. */
  readonly found?: FoundEnds;
}

/** What a search came across: values that do occur. */
export interface FoundEnds {
  readonly low: number;
  readonly high: number;
  readonly atLow: readonly InputAt[];
  readonly atHigh: readonly InputAt[];
}

/** An uncertain input at a value of its range. */
export interface InputAt {
  readonly input: InputPlace;
  readonly value: number;
}

/** An uncertain input, and the end of it at which a value is highest. */
export interface Push {
  readonly input: InputPlace;
  readonly highestAt: "low" | "high";
}

/** An uncertain literal: its place in the text, its limits, and how it is spread between them. */
export interface InputPlace {
  /** The name that its statement defines, or the literal as written where it stands inside an expression. */
  readonly name: string;
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  /** From build to build; `held` of an operating condition. */
  readonly spread: Spread;
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
}

export interface QuantityOutcome {
  readonly kind: "quantity";
  readonly name: string;
  readonly origin: Origin;
  /** An assumption without a source. */
  readonly isGuess: boolean;
  readonly dimension: Dimension;
  readonly point: boolean;
  /** The unit in which the author states it; the display chooses where there is none. */
  readonly unit?: Unit;
  /** Of a number as written: the place of the last digit that was typed, in SI units. It is shown. */
  readonly step?: number;
  /** One, or as many as the list is long. Empty where there is no value. */
  readonly values: readonly Extent[];
  readonly isList: boolean;
  /** Of a choice: what the expression asks for. */
  readonly wanted?: readonly Extent[];
  /** Of a choice from a list: the list. */
  readonly options?: readonly Extent[];
  /** Of an assumption that a measurement replaces: what was assumed. */
  readonly assumed?: readonly Extent[];
  /** The dependency without a value on account of which there is none here. */
  readonly blockedBy?: string;
  readonly problems: readonly Problem[];
}

export interface TruthOutcome {
  readonly kind: "truth";
  readonly name: string;
  /** Undefined where the inputs leave it open. */
  readonly values: readonly (boolean | undefined)[];
  readonly blockedBy?: string;
  readonly problems: readonly Problem[];
}

export type RuleState = "holds" | "failsAtLimits" | "fails" | "undecided";

export interface RuleOutcome {
  readonly kind: "rule";
  readonly word: "must" | "should";
  readonly state: RuleState;
  readonly clauses: readonly ClauseOutcome[];
  /**
   * What is left at the worst point as a share of the limit, negative where it is short:
   * (limit − worst) / |limit| for an upper limit, the mirror for a lower. Undefined without a single limit.
   */
  readonly spare?: number;
  /** Where a condition that is no comparison, as one with `or`, is false within the limits: the inputs there. */
  readonly failsAt?: readonly InputAt[];
  /** Why it is undecided. */
  readonly reason?: string;
  /** It is undecided as long as a range is still searched for. */
  readonly isPending?: true;
  /** The share of builds that the rule asks for, 0 to 1. */
  readonly required?: number;
  /** What trials said of it, where some builds may not keep it. */
  readonly builds?: BuildsOutcome;
  /** Trials have still to say it. */
  readonly awaitsBuilds?: true;
  readonly problems: readonly Problem[];
}

/**
 * What trials of builds say of a rule. Not every rule can be tried: it is too large, or nothing varies from build to
 * build; and a person can stop the trials.
 */
export type BuildsOutcome = { readonly isTried: false; readonly isStopped?: true } | TriedBuilds;

export interface TriedBuilds {
  readonly isTried: true;
  readonly trials: number;
  /** A person said how many trials there are to be. */
  readonly isCountAsked?: true;
  /** Of builds that keep the rule, at the operating conditions where they are fewest; 0 to 1. */
  readonly share: number;
  /** Between these the true share lies with a probability of 95 %. */
  readonly low: number;
  readonly high: number;
  /** Whether the share that is asked for is reached; undefined where none is, or the trials do not tell. */
  readonly reaches?: boolean;
  /** Those conditions. */
  readonly at: readonly InputAt[];
}

export interface ClauseOutcome {
  readonly relation: Relation;
  readonly left: Extent;
  readonly right: Extent;
  /** left − right, judged on its own so that inputs on both sides cancel. */
  readonly margin: Extent;
  readonly leftText: string;
  readonly rightText: string;
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
  /** As that of {@link QuantityOutcome}, where both sides are numbers as written. */
  readonly step?: number;
  readonly row?: number;
  /** The name of that row, where it has one. */
  readonly rowName?: string;
  readonly state: RuleState;
  readonly spare?: number;
  /** What is left at the worst point in the unit of the sides, negative where it is short; undefined for `=` and `!=`. */
  readonly room?: number;
  /** Of `!=`: inputs within the limits at which both sides are equal. */
  readonly failsAt?: readonly InputAt[];
  readonly reason?: string;
}

/** The head of a data table: the names by which its rows are looked up, empty where a row has none. */
export interface TableOutcome {
  readonly kind: "table";
  readonly name: string;
  readonly rows: readonly string[];
  readonly problems: readonly Problem[];
}

/** A column of a data table. */
export interface ColumnOutcome {
  readonly kind: "column";
  /** `parts.qty`. */
  readonly name: string;
  readonly table: string;
  /** Its header has a formula. */
  readonly isComputed: boolean;
  /** `none`: it has no value, as one that is circular or whose header cannot be read. */
  readonly of: "quantity" | "truth" | "text" | "none";
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
  /** The type of each cell, where they differ. */
  readonly mixed?: readonly CellType[];
  /** Of quantities: a value a row; not a number where the cell has none. */
  readonly values: readonly Extent[];
  /** Of conditions: a verdict a row, undefined where it is open. */
  readonly truths?: readonly (boolean | undefined)[];
  readonly texts?: readonly string[];
  /** The names of its rows, where they are not those of the table. */
  readonly names?: readonly string[];
  readonly blockedBy?: string;
  readonly problems: readonly Problem[];
}

/** A part that was chosen: a row of a table. */
export interface PartOutcome {
  readonly kind: "part";
  readonly name: string;
  /** The note in which the table is. */
  readonly path: string;
  readonly table: string;
  readonly row: string;
  readonly problems: readonly Problem[];
}

export interface UseOutcome {
  readonly kind: "use";
  readonly name: string;
  /** The path of the other note, as the library knows it. */
  readonly path: string;
  readonly isRead: boolean;
  readonly problems: readonly Problem[];
}

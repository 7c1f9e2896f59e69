import { RATIO, type Dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/unit";
import type { Statement } from "../syntax/statement";
import { Kind, type Node } from "../syntax/tree";
import type { Clause } from "./condition";
import type { DomainCheck } from "./domainChecks";
import type { Definition } from "./definition";
import type { Mention } from "./mentions";
import type { Note } from "./note";
import type { BuildsOutcome, Outcome } from "./outcome";
import type { EngineProblem, NameKind } from "./problem";
import { sameData } from "./sameData";
import type { FoundRanges } from "./search";
import { NO_RUN, type Run } from "./tape";

/** What an entry is to those that mention its name. */
export type EntryType =
  | {
      readonly kind: "quantity";
      readonly dimension: Dimension;
      readonly point: boolean;
      readonly length?: number;
    }
  | { readonly kind: "truth"; readonly length?: number }
  /** The rows of a data table, by the names they are looked up by. */
  | { readonly kind: "table"; readonly rows: readonly string[] }
  | ColumnType
  /** A part: the row of a table that a name was chosen to be. */
  | { readonly kind: "part"; readonly table: Entry; readonly row: number }
  | { readonly kind: "function" | "counted unit" | "note" | "rule" | "later" }
  /** It has no value: broken, circular, or resting on one that has none. */
  | { readonly kind: "none" };

/** What the cells of a column are: all of one type, or each of its own. */
export interface ColumnType {
  readonly kind: "column";
  readonly length: number;
  readonly of: "quantity" | "truth" | "text";
  readonly dimension: Dimension;
  readonly point: boolean;
  /** The type of each cell, where they differ: `2.10 EUR/board` beside `0.35 EUR`. */
  readonly mixed?: readonly CellType[];
  /** Whether each row has a value; undefined where all have. */
  readonly present?: readonly boolean[];
  /** Of a column of text. */
  readonly texts?: readonly string[];
  /** The names of its rows, where they are not those of the table: what a network comes to, by node or by branch. */
  readonly names?: readonly string[];
  /** Of what lies between the ends of a network's branches: rows in which something is written that has no value. */
  readonly failed?: readonly number[];
  /** Of a network's voltages: how many there are, and which rows are branches; behind the voltages are stored all currents, then all drops. */
  readonly network?: { readonly nodes: number; readonly isBranch: readonly boolean[] };
}

export interface CellType {
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
}

export const NO_TYPE: EntryType = { kind: "none" };

/** Most entries have nothing of most things. */
const NONE: readonly never[] = [];

/**
 * A statement placed in a note: the engine's record of it, kept while the statement stands or is edited in place.
 * Its parts are filled in by the stages, each of which reads only what the stage before wrote:
 * `mentions` by resolve, `type`, `code` and `unit` by compile, the slots of `results` by run, `outcome` by judge.
 */
export class Entry {
  /** Position among the statements of its note. */
  order = 0;
  mentions: readonly Mention[] = NONE;
  /** The entries that the mentions resolve to, in the order they are written, each once. */
  dependencies: readonly Entry[] = NONE;
  dependents: readonly Entry[] = NONE;
  /** Names of other notes under which it is registered there, to hear of changes. */
  foreign: readonly { readonly note: Note; readonly name: string }[] = NONE;

  type: EntryType = NO_TYPE;
  /** The unit in which the author states it. */
  unit?: Unit;
  /** Where it is a number as written: the place of the last digit that was typed, in SI units. */
  step?: number;
  /** Dependency without a value, on account of which this one has none. */
  blockedBy?: string;
  code: Run = NO_RUN;
  /** One slot a value (a list has several), then what judging needs: the wanted values, the sides of a rule. */
  results: Run = NO_RUN;
  clauses: readonly Clause[] = NONE;
  /** Of a rule: the place among the results of whether it is kept as a whole. */
  keeps?: number;
  /** Of a rule that some builds may not keep: what trials said. */
  builds?: BuildsOutcome;
  /** What the functions that it calls ask of their arguments, and one slot for each value that has to be looked at for it. */
  domainChecks: readonly DomainCheck[] = NONE;
  checked: Run = NO_RUN;
  /** The calls whose arguments leave what the function holds for; undefined where that is still to be worked out. */
  domainProblems?: readonly EngineProblem[];
  /** Each of its literals, by its node and then its slot. Most have one or two, for which a map would be large. */
  literals?: readonly number[];
  compileProblems: readonly EngineProblem[] = NONE;
  /** The slots of its literals for pieces of their own, by node and piece. */
  pieceLiterals?: Map<string, number>;
  /** It differs from piece to piece: an `each` input reaches it. */
  differs = false;
  /** Definitions that were copied into its code for pieces of their own. */
  copied: readonly Entry[] = NONE;
  /** It is compiled again whenever anything that it rests on changed. */
  isWatchful = false;

  /** What a search found of results whose range stage A left open, by their place among the results. */
  found?: FoundRanges;
  /** A search of its ranges is still to be done, or under way. */
  isPending = false;
  /** Operations along the longest way from it down to its inputs: it rests on no fewer. */
  coneDepth = 0;

  outcome?: Outcome;
  /** What the view of the whole note adds to the outcome's problems, by its parts. */
  nameProblems: readonly EngineProblem[] = NONE;
  measurementProblems: readonly EngineProblem[] = NONE;
  unusedProblems: readonly EngineProblem[] = NONE;
  correlationProblems: readonly EngineProblem[] = NONE;
  /** Revisions of the program in which these last became different. */
  typeChanged = 0;
  valueChanged = 0;
  /** The same of anything that it rests on, however far behind its arguments. */
  coneChanged = 0;
  /** It must be resolved and compiled again. */
  stale = true;
  /** Its code depends on values that it rests on, so that it is compiled again when they change. */
  readsValues = false;
  /** It, or something it rests on, changed in the revision at hand. */
  dirty = true;

  constructor(
    readonly id: number,
    readonly note: Note,
    public statement: Statement,
    /** What it was read from: the same source gives the same statement. */
    public source: string,
    /** Of a column: the head of its table. */
    readonly table?: Entry,
  ) {}

  /** Takes what was compiled of the statement. */
  adopt(definition: Definition): void {
    this.type = definition.type;
    this.unit = definition.unit;
    this.step = definition.step;
    this.clauses = definition.clauses;
    this.domainChecks = definition.domainChecks;
    this.domainProblems = undefined;
    this.keeps = definition.keeps;
    this.compileProblems = definition.problems;
    this.blockedBy = definition.blockedBy;
    this.readsValues = definition.readsValues;
    this.isWatchful = definition.isWatchful;
    this.copied = definition.copied;
  }

  /** What is known of it rests on the whole cone, in which something can change though no argument does. */
  get isKnownByCone(): boolean {
    const { found, isPending, domainChecks, outcome } = this;
    return found !== undefined || isPending || domainChecks.length > 0 || outcome?.kind === "rule";
  }

  /** The slots of its literals. */
  get literalSlots(): readonly number[] {
    return this.literals?.filter((_, i) => i % 2 === 1) ?? NONE;
  }

  /** The name that the statement defines; undefined where it defines none. */
  get name(): string | undefined {
    return definedName(this.statement);
  }
}

/** The names that a statement brings into its note. */
export function declaredNames(statement: Statement): readonly { readonly name: string; readonly node: Node }[] {
  if (statement.kind === "items") return statement.names.map((node) => ({ name: statement.tree.text(node), node }));
  const node = nameNode(statement);
  return node === undefined ? [] : [{ name: nameAt(statement, node), node }];
}

export function definedName(statement: Statement): string | undefined {
  const node = nameNode(statement);
  return node === undefined ? undefined : nameAt(statement, node);
}

/** A column goes by the name of its table and its own. */
function nameAt(statement: Statement, node: Node): string {
  const name = statement.tree.text(node);
  return statement.kind === "column" ? columnName(statement.table, name) : name;
}

export function columnName(table: string, column: string): string {
  return `${table}.${column}`;
}

/** The name whose value a statement states: the one it defines, or the one it measures. */
export function statedName(statement: Statement): string | undefined {
  return statement.kind === "measured" ? statement.tree.text(statement.name) : definedName(statement);
}

/** The node of the one name that a statement defines. */
export function nameNode(statement: Statement): Node | undefined {
  switch (statement.kind) {
    case "given":
    case "assume":
    case "over":
    case "derived":
    case "choice":
    case "function":
    case "let":
    case "use":
    case "fab":
    case "order":
    case "table":
    case "broken":
      return statement.name;
    case "column":
      return statement.tree.kind(statement.name) === Kind.Name ? statement.name : undefined;
    default:
      return undefined;
  }
}

/** Whether two types are the same to those that use them. */
export function sameType(a: EntryType, b: EntryType): boolean {
  if (a.kind !== b.kind) return false;
  if (a.kind === "table" || a.kind === "column" || a.kind === "part") return sameData(a, b);
  const dimension = (type: EntryType) => (type.kind === "quantity" ? type.dimension : RATIO);
  const point = (type: EntryType) => type.kind === "quantity" && type.point;
  const length = (type: EntryType) => (type.kind === "quantity" || type.kind === "truth" ? type.length : undefined);
  return dimension(a) === dimension(b) && point(a) === point(b) && length(a) === length(b);
}

/** What a name is, to those that expected something else of it. */
export function kindOf(entry: Entry): NameKind {
  switch (entry.statement.kind) {
    case "function":
      return "function";
    case "items":
      return "counted unit";
    case "use":
      return "note";
    case "fab":
      return "fabrication files";
    case "table":
      return "table";
    case "column":
      return "column";
    case "choice":
      return entry.type.kind === "part" ? "part" : "quantity";
    default:
      return "quantity";
  }
}

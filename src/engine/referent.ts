import { isBuiltInUnit } from "../quantity/unit";
import { foldName } from "../syntax/name";
import { Kind } from "../syntax/tree";
import type { Statement } from "../syntax/statement";
import { touches, type Span } from "../text/span";
import { columnName, declaredNames } from "./entry";
import { chapterAt, chapterPath } from "./handbook";
import { pathBehind } from "./pathBehind";
import { CONSTANTS, NATIVES } from "./natives";
import { nameUsesOf, type NameUse } from "./nameUses";
import type { Step } from "./paths";
import type { Row, Snapshot } from "./snapshot";
import { inTable, rowsOf } from "./tableReferent";
import type { UncertaintyBudget } from "./uncertaintyBudget";

/** The notes around the one that is asked about, by path: open ones and those that are used. */
export interface Notes {
  paths(): readonly string[];
  get(path: string): Snapshot | undefined;
  /** What the uncertainty of a value of a row is made of, by its place among the values; worked out when asked. */
  budget(home: Snapshot, row: Row, result: number): UncertaintyBudget | undefined;
}

/** What a word in a note stands for. */
export type Referent =
  /** What a note defines: a quantity, a function, a counted unit, another note under its alias … */
  | {
      readonly kind: "defined";
      readonly path: string;
      readonly name: string;
      readonly row: Row;
      /** Of a column: the row of the table whose cell is meant. */
      readonly cell?: number;
    }
  /** A row of a data table; `row` is the head of the table. */
  | { readonly kind: "row"; readonly path: string; readonly name: string; readonly row: Row; readonly index: number }
  /** What a statement binds for itself: a parameter, the variable of a sum. */
  | { readonly kind: "bound"; readonly path: string; readonly name: string; readonly row: Row; readonly binder: number }
  | { readonly kind: "unit" | "native" | "constant" | "series"; readonly name: string }
  /** The path of `use`, or a chapter of the handbook before a dot. */
  | { readonly kind: "note"; readonly path: string };

/** A word in a note, with what it stands for. */
export interface Reference {
  /** In the note. */
  readonly span: Span;
  readonly referent: Referent;
  /** Where it stands; undefined in prose. */
  readonly row?: Row;
  readonly use?: NameUse;
}

/** The word at a place, in a calculation or as a live reference in the prose; undefined where none stands, or one that stands for nothing. */
export function referenceAt(snapshot: Snapshot, offset: number, notes: Notes): Reference | undefined {
  const row = snapshot.rowAt(offset);
  if (!row) return liveReferences(snapshot).find(({ span }) => touches(span, offset));
  const { statement } = row;
  if (statement.kind === "use" && row.outcome.kind === "use") {
    const span = snapshot.spanOf(row, statement.tree.span(statement.path));
    if (touches(span, offset)) return { span, referent: { kind: "note", path: row.outcome.path }, row };
  }
  const touching = nameUsesOf(statement).filter((use) => touches(use.span, snapshot.placeIn(row, offset) ?? -1));
  // Between two words that meet, as in `LED/board`, the one that begins here is meant.
  const use = touching[touching.length - 1] as NameUse | undefined;
  const referent = use && referentOf(snapshot, row, use, notes);
  return referent && { span: snapshot.spanOf(row, use.span), referent, row, use };
}

/** What a name in a statement stands for. */
export function referentOf(snapshot: Snapshot, row: Row, use: NameUse, notes: Notes): Referent | undefined {
  const { path } = snapshot;
  const { name, role } = use;
  const chapter = use.member === undefined ? undefined : chapterMeant(snapshot, name);
  if (chapter !== undefined) return { kind: "note", path: chapterPath(chapter) };
  if (use.binder !== undefined) return { kind: "bound", path, name, row, binder: use.binder };
  if (use.steps) return behindDot(snapshot, use, use.steps, notes);
  if (use.table !== undefined && role !== "unit") {
    const column = defined(snapshot, columnName(use.table, name), isColumn);
    if (column || role === "declaration") return column;
  }
  switch (role) {
    case "row":
      return { kind: "row", path, name, row, index: rowsOf(row).indexOf(name) };
    case "series":
      return { kind: "series", name };
    case "unit":
      return isBuiltInUnit(name) ? { kind: "unit", name } : defined(snapshot, name, isItems);
    case "argument":
      return parameterOf(snapshot, use, notes);
    case "declaration":
      return { kind: "defined", path, name, row };
    default:
      return defined(snapshot, name) ?? builtIn(name, role);
  }
}

/** The chapter of the handbook that a name before a dot stands for; undefined where it stands for something of the note. */
export function chapterMeant(snapshot: Snapshot, name: string): string | undefined {
  const path = pathBehind(snapshot, name);
  return path === undefined ? undefined : chapterAt(path);
}

/** The note that a name before a dot stands for, where it is held. */
export function noteUsedAs(snapshot: Snapshot, alias: string, notes: Notes): Snapshot | undefined {
  const path = pathBehind(snapshot, alias);
  return path === undefined ? undefined : notes.get(path);
}

const live = new WeakMap<Snapshot, readonly Reference[]>();

/** The code spans in the prose of a note that are exactly a name that it defines, in the order of the text. */
export function liveReferences(snapshot: Snapshot): readonly Reference[] {
  let found = live.get(snapshot);
  if (!found) {
    found = snapshot.blocks.flatMap(({ block, start }) =>
      block.kind === "calculation"
        ? []
        : block.codeSpans.flatMap(({ span, text }): Reference[] => {
            const referent = defined(snapshot, foldName(text));
            return referent ? [{ span: { start: span.start + start, end: span.end + start }, referent }] : [];
          }),
    );
    live.set(snapshot, found);
  }
  return found;
}

/** Every place in the notes where a word stands for the same thing, its definition included. */
export function referencesTo(
  referent: Referent,
  notes: Notes,
): readonly { readonly path: string; readonly span: Span }[] {
  if (referent.kind !== "defined" && referent.kind !== "bound" && referent.kind !== "row") return [];
  const places: { path: string; span: Span }[] = [];
  const isShared = referent.kind === "defined" && isItems(referent.row.statement);
  for (const path of isShared ? linkedWith(referent.path, notes) : notes.paths()) {
    const snapshot = notes.get(path);
    if (!snapshot) continue;
    // A thing that is counted is the same in all notes that share quantities.
    const own = isShared ? { ...referent, path } : referent;
    for (const { row, use } of usesOf(snapshot, wordOf(referent))) {
      const found = referentOf(snapshot, row, use, notes);
      if (found && isSame(found, own)) places.push({ path, span: snapshot.spanOf(row, use.span) });
    }
    for (const { span, referent: found } of liveReferences(snapshot))
      if (isSame(found, own)) places.push({ path, span });
  }
  return places.sort((a, b) => (a.path === b.path ? a.span.start - b.span.start : 0));
}

/** The notes that share quantities with one: those it uses, those that use it, and so on. */
export function linkedWith(path: string, notes: Notes): readonly string[] {
  const links = notes
    .paths()
    .flatMap((from) =>
      (notes.get(from)?.rows ?? []).flatMap(({ outcome }) => (outcome.kind === "use" ? [[from, outcome.path]] : [])),
    );
  const linked = new Set([path]);
  // A set that grows while it is walked is walked to its end.
  for (const each of linked) {
    for (const [from, to] of links) {
      if (from === each) linked.add(to);
      if (to === each) linked.add(from);
    }
  }
  return [...linked];
}

/** A place in the calculations of a note where a word stands. */
interface UseInRow {
  readonly row: Row;
  readonly use: NameUse;
}

/** So many words are looked for by reading through a note before an index of all its words is made, which costs as much. */
const WORTH_AN_INDEX = 4;

/** The places of words in a snapshot, as they are asked for: a hover asks for one word, a rename for many. */
class Uses {
  private readonly known = new Map<string, readonly UseInRow[]>();
  private index?: ReadonlyMap<string, readonly UseInRow[]>;

  constructor(private readonly snapshot: Snapshot) {}

  of(name: string): readonly UseInRow[] {
    if (!this.index && !this.known.has(name) && this.known.size >= WORTH_AN_INDEX) this.index = indexOf(this.snapshot);
    if (this.index) return this.index.get(name) ?? [];
    let found = this.known.get(name);
    if (!found) this.known.set(name, (found = this.lookedFor(name)));
    return found;
  }

  private lookedFor(name: string): readonly UseInRow[] {
    const found: UseInRow[] = [];
    // Names are compared in a form that other spellings share, but only beyond ASCII; tables spell theirs in other lines.
    const isPlain = !BEYOND_ASCII.test(this.snapshot.text);
    this.snapshot.columns.statements.forEach((statement, i) => {
      const isOfTable = statement.kind === "table" || statement.kind === "column";
      const isSpelt = !isOfTable && (isPlain || !BEYOND_ASCII.test(statement.text));
      if (isSpelt && !statement.text.includes(name)) return;
      for (const use of nameUsesOf(statement)) if (use.name === name) found.push({ row: this.snapshot.row(i), use });
    });
    return found;
  }
}

// eslint-disable-next-line no-control-regex -- every character of ASCII is one
const BEYOND_ASCII = /[^\x00-\x7f]/;

const usesIn = new WeakMap<Snapshot, Uses>();

/** The places in the calculations of a note where a word stands. */
export function usesOf(snapshot: Snapshot, name: string): readonly UseInRow[] {
  let uses = usesIn.get(snapshot);
  if (!uses) usesIn.set(snapshot, (uses = new Uses(snapshot)));
  return uses.of(name);
}

function indexOf(snapshot: Snapshot): ReadonlyMap<string, readonly UseInRow[]> {
  const index = new Map<string, UseInRow[]>();
  for (const row of snapshot.rows) {
    for (const use of nameUsesOf(row.statement)) {
      const list = index.get(use.name);
      if (list) list.push({ row, use });
      else index.set(use.name, [{ row, use }]);
    }
  }
  return index;
}

/** How a thing is written where it stands: a column without its table. */
export function wordOf({ name, row }: { readonly name: string; readonly row: Row }): string {
  return row.statement.kind === "column" ? name.slice(name.indexOf(".") + 1) : name;
}

/** Whether two words stand for the same thing. */
export function isSame(a: Referent, b: Referent): boolean {
  return a.kind === b.kind && keyOf(a) === keyOf(b);
}

function keyOf(referent: Referent): string {
  switch (referent.kind) {
    case "defined":
      return `${referent.path} ${referent.name}`;
    case "row":
      return `${referent.path} ${referent.row.start} ${referent.index}`;
    case "bound":
      return `${referent.path} ${referent.row.start} ${referent.binder}`;
    case "note":
      return referent.path;
    default:
      return referent.name;
  }
}

function defined(
  snapshot: Snapshot,
  name: string,
  fits: (statement: Statement) => boolean = () => true,
): Referent | undefined {
  const row = snapshot.find(name);
  return row && fits(row.statement) ? { kind: "defined", path: snapshot.path, name, row } : undefined;
}

function isItems(statement: Statement): boolean {
  return statement.kind === "items";
}

function member(snapshot: Snapshot, alias: string, name: string, notes: Notes): Referent | undefined {
  const other = noteUsedAs(snapshot, alias, notes);
  return other && defined(other, name);
}

/** What a word behind a dot or in brackets stands for: a name of another note, a column, a row. */
function behindDot(snapshot: Snapshot, use: NameUse, steps: readonly Step[], notes: Notes): Referent | undefined {
  const { object = "", name } = use;
  const found = inTable(
    snapshot,
    object,
    steps,
    (from, alias) => noteUsedAs(from, alias, notes),
    (path) => notes.get(path),
  );
  if (!found) return steps.length === 1 && !steps[0].isKey ? member(snapshot, object, name, notes) : undefined;
  const { home, row } = found;
  if (found.kind === "row") return { kind: "row", path: home.path, name: found.name, row, index: found.index };
  const cell = found.cell === undefined ? {} : { cell: found.cell };
  return { kind: "defined", path: home.path, name: found.name, row, ...cell };
}

function isColumn(statement: Statement): boolean {
  return statement.kind === "column";
}

function builtIn(name: string, role: NameUse["role"]): Referent | undefined {
  if (role === "call") return NATIVES.has(name) ? { kind: "native", name } : undefined;
  return CONSTANTS.has(name) ? { kind: "constant", name } : undefined;
}

function parameterOf(snapshot: Snapshot, { name, callee }: NameUse, notes: Notes): Referent | undefined {
  if (!callee) return undefined;
  const { object } = callee;
  const called = object === undefined ? defined(snapshot, callee.name) : member(snapshot, object, callee.name, notes);
  if (called?.kind !== "defined" || called.row.statement.kind !== "function") return undefined;
  const { tree, parameters } = called.row.statement;
  const parameter = parameters.find((each) => tree.text(each.name) === name);
  return parameter && { kind: "bound", path: called.path, name, row: called.row, binder: parameter.name };
}

/** The names that a row defines, with where they stand in the note. */
export function declarationsOf(
  snapshot: Snapshot,
  row: Row,
): readonly { readonly name: string; readonly span: Span }[] {
  const { tree } = row.statement;
  const declared: { name: string; span: Span }[] = [];
  for (const { name, node } of declaredNames(row.statement))
    if (tree.kind(node) === Kind.Name) declared.push({ name, span: snapshot.spanOf(row, tree.span(node)) });
  return declared;
}

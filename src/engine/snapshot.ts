import type { Block } from "../note/block";
import type { CellLines } from "../note/cellLines";
import type { Statement } from "../syntax/statement";
import { LineIndex } from "../text/lineIndex";
import { shift, type Span } from "../text/span";
import { declaredNames, type Entry } from "./entry";
import type { Note } from "./note";
import type { Outcome, Problem } from "./outcome";
import type { EngineProblem } from "./problem";
import { sameData } from "./sameData";

/** A statement where it stands, with what came out of it. */
export interface Row {
  readonly statement: Statement;
  /** Offset of its first character in the note. */
  readonly start: number;
  readonly outcome: Outcome;
  /** What the view of the whole note adds: doubled names, measurements, unused assumptions. */
  readonly noteProblems: readonly EngineProblem[];
  /** Of a part of a data table: where its cells stand, in offsets from {@link CellsAt.from}. */
  readonly cells?: CellsAt;
}

/** The cells of a part of a data table, where they stand. */
export interface CellsAt {
  readonly lines: CellLines;
  /** Where their block begins. */
  readonly from: number;
}

/** What a snapshot is made of: for every statement where it stands and what came out of it, in columns. */
export interface Columns {
  readonly statements: readonly Statement[];
  readonly starts: readonly number[];
  readonly outcomes: readonly Outcome[];
  readonly noteProblems: readonly (readonly EngineProblem[])[];
  /** By the number of the statement; most have none. */
  readonly cells: ReadonlyMap<number, CellsAt>;
}

/** A block where it stands. */
export interface PlacedBlock {
  readonly block: Block;
  readonly start: number;
}

/** So many statements are looked for one by one before an index of all is made, which costs as much as hundreds. */
const WORTH_AN_INDEX = 100;

/**
 * A note, settled: its text, its blocks and its statements with their outcomes, in the order of the text. Immutable.
 * Everything that a person sees is a function of one.
 */
export class Snapshot {
  private lineIndex?: LineIndex;
  private readonly madeRows: Row[] = [];
  private allRows?: readonly Row[];
  private places?: Map<Statement, number>;
  private placesAsked = 0;

  /** @param names where names are first defined, by the number of the row, if that is known from the snapshot before */
  constructor(
    readonly path: string,
    readonly text: string,
    readonly blocks: readonly PlacedBlock[],
    readonly columns: Columns,
    private names?: ReadonlyMap<string, number>,
  ) {}

  /** The statements in the order of the text. Made when first asked for, since most snapshots live for one keystroke. */
  get rows(): readonly Row[] {
    return (this.allRows ??= this.columns.statements.map((_, i) => this.row(i)));
  }

  get rowCount(): number {
    return this.columns.statements.length;
  }

  /** One of {@link rows}, for those who need few. */
  row(i: number): Row {
    return (this.madeRows[i] ??= this.makeRow(i));
  }

  private makeRow(i: number): Row {
    const { statements, starts, outcomes, noteProblems, cells } = this.columns;
    const row = { statement: statements[i], start: starts[i], outcome: outcomes[i], noteProblems: noteProblems[i] };
    const at = cells.get(i);
    return at ? { ...row, cells: at } : row;
  }

  get lines(): LineIndex {
    return (this.lineIndex ??= new LineIndex(this.text));
  }

  /** The statement that defines a name: the first in the text. */
  find(name: string): Row | undefined {
    const at = (this.names ??= firstPlaces(this.columns.statements)).get(name);
    return at === undefined ? undefined : this.row(at);
  }

  /** What is known of where names are defined, if the statements of another snapshot define the same ones in the same places. */
  namesFor(statements: readonly Statement[]): ReadonlyMap<string, number> | undefined {
    const own = this.columns.statements;
    if (!this.names || own.length !== statements.length) return undefined;
    return own.every((statement, i) => statement === statements[i] || definesTheSame(statement, statements[i]))
      ? this.names
      : undefined;
  }

  rowOf(statement: Statement): Row | undefined {
    const place = this.placeOf(statement);
    return place === undefined ? undefined : this.row(place);
  }

  /** Which of {@link rows} a statement is. */
  placeOf(statement: Statement): number | undefined {
    const { statements } = this.columns;
    if (!this.places && this.placesAsked++ < WORTH_AN_INDEX) {
      const place = statements.indexOf(statement);
      return place < 0 ? undefined : place;
    }
    this.places ??= new Map(statements.map((each, i) => [each, i]));
    return this.places.get(statement);
  }

  /** The statement on which an offset lies, its last character's end included. */
  rowAt(offset: number): Row | undefined {
    let low = 0;
    let high = this.rowCount - 1;
    if (high < 0) return undefined;
    const { starts } = this.columns;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle] <= offset) low = middle;
      else high = middle - 1;
    }
    const row = this.row(low);
    if (row.cells) return this.partAt(low, offset);
    return row.start <= offset && offset <= row.start + row.statement.text.length ? row : undefined;
  }

  /** The part of a data table, the last of which is given, in one of whose cells an offset lies. */
  private partAt(last: number, offset: number): Row | undefined {
    const { start } = this.row(last);
    for (let i = last; i >= 0 && this.row(i).cells && this.row(i).start === start; i--)
      if (this.placeIn(this.row(i), offset) !== undefined) return this.row(i);
    return undefined;
  }

  /** Where an offset of the note is in the text of a statement; undefined where it lies outside of it. */
  placeIn({ start, cells, statement }: Row, offset: number): number | undefined {
    if (cells) return cells.lines.placeOf(offset - cells.from);
    return start <= offset && offset <= start + statement.text.length ? offset - start : undefined;
  }

  /** Where a span of a statement is in the note. */
  spanOf(row: Row, span: Span): Span {
    return placed(row, span);
  }
}

function firstPlaces(statements: readonly Statement[]): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  statements.forEach((statement, i) => {
    for (const { name } of declaredNames(statement)) if (!places.has(name)) places.set(name, i);
  });
  return places;
}

function definesTheSame(one: Statement, other: Statement): boolean {
  const [a, b] = [declaredNames(one), declaredNames(other)];
  return a.length === b.length && a.every(({ name }, i) => name === b[i].name);
}

/** Where a span of a statement is in its note. */
export function placed({ start, cells }: Row, span: Span): Span {
  return cells ? shift(cells.lines.sourceOf(span), cells.from) : shift(span, start);
}

/** All problems of a row: of its text, of its meaning, and of its place among the others. */
export function problemsOf(row: Row): readonly Problem[] {
  return row.noteProblems.length === 0 ? row.outcome.problems : [...row.outcome.problems, ...row.noteProblems];
}

/** The snapshot of a note whose entries are up to date; the old one where nothing changed. */
export function makeSnapshot(note: Note, old: Snapshot | undefined): Snapshot {
  const blocks = new Column<PlacedBlock>(old?.blocks, (a, b) => a.block === b.block && a.start === b.start);
  const statements = new Column<Statement>(old?.columns.statements);
  const starts = new Column<number>(old?.columns.starts);
  const outcomes = new Column<Outcome>(old?.columns.outcomes);
  const noteProblems = new Column<readonly EngineProblem[]>(old?.columns.noteProblems, sameData);
  const cells = new Map<number, CellsAt>();
  let start = 0;
  for (const block of note.blocks) {
    blocks.add({ block, start });
    const content = note.content(block);
    if (content) {
      for (let i = 0; i < content.entries.length; i++) {
        const entry = content.entries[i];
        if (!entry.outcome) throw new Error("A snapshot was asked for before the notes were up to date.");
        const lines = content.lines?.[i];
        if (lines) cells.set(statements.count, { lines, from: start });
        statements.add(entry.statement);
        starts.add(start + content.starts[i]);
        outcomes.add(entry.outcome);
        noteProblems.add(noteProblemsOf(entry));
      }
    }
    start += block.length;
  }
  const isSame = [blocks, statements, starts, outcomes, noteProblems].every((column) => column.isSame);
  if (old && isSame && old.text === note.text) return old;
  const columns = {
    statements: statements.members,
    starts: starts.members,
    outcomes: outcomes.members,
    noteProblems: noteProblems.members,
    cells,
  };
  return new Snapshot(note.path, note.text, blocks.members, columns, old?.namesFor(columns.statements));
}

/**
 * One column of a snapshot, filled from the top: the old one as long as it is the same, then a copy. Most edits leave most
 * columns as they are, and copies of ten thousand rows at every key are what the garbage collector would be busy with.
 */
class Column<T> {
  private fresh: T[] | undefined;
  count = 0;

  constructor(
    private readonly old: readonly T[] = [],
    private readonly same: (a: T, b: T) => boolean = Object.is,
  ) {}

  add(value: T): void {
    const at = this.count++;
    if (this.fresh) this.fresh.push(at < this.old.length && this.same(this.old[at], value) ? this.old[at] : value);
    else if (at >= this.old.length || !this.same(this.old[at], value)) {
      this.fresh = this.old.slice(0, at);
      this.fresh.push(value);
    }
  }

  get isSame(): boolean {
    return !this.fresh && this.count === this.old.length;
  }

  get members(): readonly T[] {
    return this.isSame ? this.old : (this.fresh ?? this.old.slice(0, this.count));
  }
}

const NO_PROBLEMS: readonly EngineProblem[] = [];

function noteProblemsOf(entry: Entry): readonly EngineProblem[] {
  const { nameProblems, measurementProblems, unusedProblems, correlationProblems } = entry;
  const count = nameProblems.length + measurementProblems.length + unusedProblems.length + correlationProblems.length;
  if (count === 0) return NO_PROBLEMS;
  return [...nameProblems, ...measurementProblems, ...unusedProblems, ...correlationProblems];
}

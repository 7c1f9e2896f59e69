import type { Block } from "../note/block";
import type { Statement } from "../syntax/statement";
import { LineIndex } from "../text/lineIndex";
import type { Span } from "../text/span";
import { declaredNames } from "./entry";
import type { Note } from "./note";
import type { Outcome, Problem } from "./outcome";
import type { EngineProblem } from "./problem";
import type { Program } from "./program";

/** A statement where it stands, with what came out of it. */
export interface Row {
  readonly statement: Statement;
  /** Offset of its first character in the note. */
  readonly start: number;
  readonly outcome: Outcome;
  /** What the view of the whole note adds: doubled names, measurements, unused assumptions. */
  readonly noteProblems: readonly EngineProblem[];
}

/** A block where it stands. */
export interface PlacedBlock {
  readonly block: Block;
  readonly start: number;
}

/**
 * A note, settled: its text, its blocks and its statements with their outcomes, in the order of the text. Immutable.
 * Everything that a person sees is a function of one.
 */
export class Snapshot {
  private lineIndex?: LineIndex;
  private byName?: Map<string, Row>;
  private byStatement?: Map<Statement, Row>;

  constructor(
    readonly path: string,
    readonly text: string,
    readonly blocks: readonly PlacedBlock[],
    readonly rows: readonly Row[],
  ) {}

  get lines(): LineIndex {
    return (this.lineIndex ??= new LineIndex(this.text));
  }

  /** The statement that defines a name: the first in the text. */
  find(name: string): Row | undefined {
    if (!this.byName) {
      this.byName = new Map();
      for (const row of this.rows) {
        for (const declared of declaredNames(row.statement))
          if (!this.byName.has(declared.name)) this.byName.set(declared.name, row);
      }
    }
    return this.byName.get(name);
  }

  rowOf(statement: Statement): Row | undefined {
    this.byStatement ??= new Map(this.rows.map((row) => [row.statement, row]));
    return this.byStatement.get(statement);
  }

  /** The statement on which an offset lies, its last character's end included. */
  rowAt(offset: number): Row | undefined {
    let low = 0;
    let high = this.rows.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.rows[middle].start <= offset) low = middle;
      else high = middle - 1;
    }
    const row = this.rows[low] as Row | undefined;
    return row && row.start <= offset && offset <= row.start + row.statement.text.length ? row : undefined;
  }

  /** Where a span of a statement is in the note. */
  spanOf(row: Row, span: Span): Span {
    return { start: row.start + span.start, end: row.start + span.end };
  }
}

/** All problems of a row: of its text, of its meaning, and of its place among the others. */
export function problemsOf(row: Row): readonly Problem[] {
  return row.noteProblems.length === 0 ? row.outcome.problems : [...row.outcome.problems, ...row.noteProblems];
}

/** The snapshot of a note of a settled program; the old one where nothing changed. */
export function makeSnapshot(program: Program, note: Note, old: Snapshot | undefined): Snapshot {
  const blocks: PlacedBlock[] = [];
  const rows: Row[] = [];
  let start = 0;
  for (const block of note.blocks) {
    blocks.push({ block, start });
    const content = note.content(block);
    content?.entries.forEach((entry, i) => {
      const outcome = entry.outcome;
      if (!outcome) throw new Error("A snapshot was asked for before the notes were settled.");
      const noteProblems = program.noteProblems.get(entry) ?? NO_PROBLEMS;
      const row: Row = { statement: entry.statement, start: start + content.starts[i], outcome, noteProblems };
      const before = old?.rows[rows.length];
      rows.push(before && sameRow(before, row) ? before : row);
    });
    start += block.length;
  }
  const isSame =
    old && old.text === note.text && old.rows.length === rows.length && rows.every((row, i) => row === old.rows[i]);
  return isSame ? old : new Snapshot(note.path, note.text, blocks, rows);
}

const NO_PROBLEMS: readonly EngineProblem[] = [];

function sameRow(a: Row, b: Row): boolean {
  return (
    a.statement === b.statement && a.start === b.start && a.outcome === b.outcome && a.noteProblems === b.noteProblems
  );
}

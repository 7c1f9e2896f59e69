import { entriesOf } from "./engine/entriesOf";
import type { Entry } from "./engine/entry";
import { chapterAt } from "./engine/handbook";
import { openGuesses } from "./engine/influence";
import type { Library } from "./engine/library";
import { Program } from "./engine/program";
import type { Row, Snapshot } from "./engine/snapshot";
import { distributionOf } from "./engine/distribution";
import { Allowance, budgetOf } from "./engine/uncertaintyBudget";
import { chapterWrittenAt, completions } from "./features/completion";
import type {
  Completion,
  DocumentSymbol,
  Folding,
  GuessToSettle,
  Hover,
  LineResult,
  Location,
  NoteEdits,
  Notes,
  Summary,
} from "./features/feature";
import { foldings } from "./features/folding";
import { alignTableAt } from "./features/alignTable";
import { guessSourceAt } from "./features/guessSource";
import { handbookOf, lookUp, type Handbook, type LookUp } from "./features/handbook";
import { hover } from "./features/hover";
import { measureGuessAt } from "./features/measureGuess";
import { definition, references } from "./features/navigation";
import { openItems } from "./features/openItems";
import { record, type NoteRecord } from "./features/record";
import { movedFiles, rename, renameSpan, type Move, type Renaming } from "./features/rename";
import { results } from "./features/results";
import { settleFirst } from "./features/settleFirst";
import { signatureAt, type Signature } from "./features/signature";
import { standardValuesAt } from "./features/standardValues";
import { summary } from "./features/summary";
import { symbols } from "./features/symbols";
import { findingsOf, fixesAt } from "./findings/catalogue";
import type { Finding, FindingContext } from "./findings/finding";
import { outcomeText } from "./phrases/outcomeText";
import { otherChoices, type OtherChoice } from "./phrases/choosing";
import type { Statement } from "./syntax/statement";
import type { Edit } from "./text/edit";
import type { Fix } from "./text/fix";
import type { Span } from "./text/span";

export type {
  Completion,
  DocumentSymbol,
  Folding,
  GuessToSettle,
  Hover,
  LineResult,
  Location,
  NoteEdits,
  Summary,
} from "./features/feature";
export type { Handbook, HandbookMember, LookUp } from "./features/handbook";
export type { ChapterPage } from "./phrases/chapterPage";
export type { Signature } from "./features/signature";
export { objections, type NoteRecord, type Objections } from "./features/record";
export type { Renaming } from "./features/rename";
export type { Finding, Severity } from "./findings/finding";
export { CHAPTERS, chapterAt, chapterPath } from "./engine/handbook";
export type { Library, ReadResult } from "./engine/library";
export type { Snapshot } from "./engine/snapshot";
export type { Edit } from "./text/edit";
export type { Fix } from "./text/fix";
export { LineIndex, type Position } from "./text/lineIndex";
export type { Span } from "./text/span";

/** Choices of the user that change what is offered, never what is computed. */
export interface Settings {
  /** The series that quick fixes choose from. */
  readonly series: { readonly resistor: string; readonly capacitor: string; readonly inductor: string };
}

/** A way out that is offered at a place, and the finding that it answers, if it answers one. */
export interface OfferedFix {
  readonly finding?: Finding;
  readonly fix: Fix;
}

/**
 * The façade: notes are opened, edited and asked about; plain data comes out. It knows no editor, no file system and
 * no clock. Paths are what the {@link Library} takes them for. Asked about a note that it does not hold, it knows of
 * nothing there.
 */
export class Service {
  private readonly program = new Program();
  /** Of the notes as they stand; what is worked out from a snapshot is kept with it. */
  private readonly snapshots = new Map<string, Snapshot>();
  private readonly entries = new Map<string, ReadonlyMap<Statement, Entry>>();
  private toSettle?: readonly GuessToSettle[];
  private readonly foundIn = new Map<string, readonly Finding[]>();
  private readonly notes: Notes = {
    paths: () => [...this.program.notes.keys()],
    get: (path) => this.snapshot(path),
    budget: (home, row, result) => this.budget(home, row, result),
  };

  /**
   * @param searches when ranges that have to be searched for are found: by the call that changes a note, or slice by slice
   * with {@link search}, and until then what rests on them is marked as pending
   */
  constructor(
    private readonly library: Library,
    private settings: Settings,
    private readonly searches: "at once" | "in slices" = "at once",
  ) {}

  /** Opens a note, or gives an open one a new text. Answers are up to date at once, but for notes still to be read by {@link load}. */
  open(path: string, text: string): void {
    this.change(() => this.program.setText(path, text));
  }

  /** Edits an open note; the spans are in the text before. */
  edit(path: string, edits: readonly Edit[]): void {
    const fromTheEnd = [...edits].sort((a, b) => b.span.start - a.span.start || b.span.end - a.span.end);
    this.change(() => fromTheEnd.forEach((edit) => this.program.edit(path, edit)));
  }

  /** Forgets a note. If others use it, {@link load} reads it again: so it is also the answer to a file that changed. */
  close(path: string): void {
    this.change(() => this.program.close(path));
  }

  /** Reads chapters of the handbook that no note mentions yet, and the chapters that those mention. */
  async loadChapters(chapters: readonly string[]): Promise<boolean> {
    for (const chapter of chapters) this.program.chapters.ask(chapter);
    return this.load();
  }

  /** What a word means in the chapters of the handbook that are held: `led`, `led.burden`, `burden`. */
  lookUp(word: string): LookUp {
    return lookUp(word, handbookOf(this.notes));
  }

  /** The chapters of the handbook that are held, by name. */
  handbook(): Handbook {
    return handbookOf(this.notes);
  }

  /** Reads the notes that others use, and the notes that those use, until none is missing. Whether any was read. */
  async load(): Promise<boolean> {
    let isAny = false;
    for (let wanted = this.program.wanted(); wanted.length > 0; wanted = this.program.wanted()) {
      isAny = true;
      const results = await Promise.all(wanted.map(async (path) => ({ path, result: await this.library.read(path) })));
      this.change(() => {
        // What was opened while the library read is newer than what it read.
        for (const { path, result } of results) if (!this.program.notes.has(path)) this.program.provide(path, result);
      });
    }
    return isAny;
  }

  /** Whether there is no range left to be searched for. */
  get isSettled(): boolean {
    return this.program.isSettled;
  }

  /** Searches for ranges until all are found or it is told that it is time to pause. */
  search(isTimeToPause: () => boolean): void {
    if (this.isSettled) return;
    this.forgetAnswers();
    this.program.search(isTimeToPause);
  }

  /** Somebody looks at these spans of a note: what is to be searched there comes first. */
  lookAt(path: string, spans: readonly Span[]): void {
    this.program.lookAt(path, spans);
  }

  configure(settings: Settings): void {
    this.settings = settings;
  }

  /** The notes held: those that are open, and those that they use. Chapters of the handbook are not among them. */
  paths(): readonly string[] {
    return [...this.program.notes.keys()].filter((path) => chapterAt(path) === undefined);
  }

  /** The state of a note. */
  snapshot(path: string): Snapshot | undefined {
    const known = this.snapshots.get(path);
    if (known) return known;
    const fresh = this.program.snapshot(path);
    if (fresh) this.snapshots.set(path, fresh);
    return fresh;
  }

  /** All that is to be said of a note, in the order of its text. */
  findings(path: string): readonly Finding[] {
    const known = this.foundIn.get(path);
    if (known) return known;
    const context = this.contextOf(path);
    const found = context ? findingsOf(context) : [];
    this.foundIn.set(path, found);
    return found;
  }

  /** What can be done at a place: the fixes of the findings that touch it, then what else is offered there. */
  fixes(path: string, span: Span): readonly OfferedFix[] {
    const context = chapterAt(path) === undefined ? this.contextOf(path) : undefined;
    if (!context) return [];
    const { snapshot } = context;
    const others = [
      ...standardValuesAt(context, span),
      ...guessSourceAt(snapshot, span),
      ...alignTableAt(snapshot, span),
      ...measureGuessAt(snapshot, span),
    ];
    return withoutRepeats([...fixesAt(context, span), ...others.map((fix) => ({ fix }))]);
  }

  /** What stands beside the lines. */
  results(path: string): readonly LineResult[] {
    return this.ask(path, [], results);
  }

  hover(path: string, offset: number): Hover | undefined {
    return this.ask(path, undefined, (snapshot) =>
      hover(snapshot, offset, this.notes, (row, expression) => this.tried(snapshot, row, expression)),
    );
  }

  /** Reads the chapter of the handbook whose members {@link completions} and {@link signatureAt} speak of at a place. */
  async loadFor(path: string, offset: number): Promise<void> {
    const chapter = this.ask(path, undefined, (snapshot) => chapterWrittenAt(snapshot, offset));
    if (chapter !== undefined) await this.loadChapters([chapter]);
  }

  completions(path: string, offset: number): readonly Completion[] {
    return this.ask(path, [], (snapshot) => completions(snapshot, offset, this.notes));
  }

  /** The function that is being called at a place, and which of its arguments is being written. */
  signatureAt(path: string, offset: number): Signature | undefined {
    return this.ask(path, undefined, (snapshot) => signatureAt(snapshot, offset, this.notes));
  }

  symbols(path: string): readonly DocumentSymbol[] {
    return this.ask(path, [], symbols);
  }

  /** Where the name at a place is defined: in this note or in one that it uses. */
  definition(path: string, offset: number): Location | undefined {
    return this.ask(path, undefined, (snapshot) => definition(snapshot, offset, this.notes));
  }

  /** Where the name at a place stands in the notes held, its definition included. */
  references(path: string, offset: number): readonly Location[] {
    return this.ask(path, [], (snapshot) => references(snapshot, offset, this.notes));
  }

  /** The name at a place if it can be renamed. */
  renameSpan(path: string, offset: number): Span | undefined {
    return this.ask(path, undefined, (snapshot) => renameSpan(snapshot, offset, this.notes));
  }

  /** Renames the name at a place wherever it stands in the notes held, or says why that cannot be. */
  rename(path: string, offset: number, newName: string): Renaming {
    const unknown: Renaming = { refusal: "This note is not open." };
    return this.ask(path, unknown, (snapshot) => rename(snapshot, offset, newName, this.notes));
  }

  /**
   * What to edit when files or folders of notes are about to be renamed or moved, in one step: the paths in `use` that lead to what moves, and
   * those in notes that move. The edits are for the notes under their old paths.
   */
  movedFiles(moves: readonly Move[]): readonly NoteEdits[] {
    return movedFiles(moves, this.notes);
  }

  foldings(path: string): readonly Folding[] {
    return this.ask(path, [], foldings);
  }

  /** The state of a note in numbers; of one that is not held, all of them zero. */
  summary(path: string): Summary {
    const snapshot = this.snapshot(path);
    const severities = this.findings(path).map(({ severity }) => severity);
    return summary(snapshot?.rows ?? [], severities, snapshot ? openItems(snapshot).length : 0);
  }

  /**
   * What is known of a note, as the command line prints it in JSON. A brief one leaves out what has to be worked out for
   * it: what the uncertainty of each value is made of.
   * @param trials so many builds are drawn for each value, seeded from the text of the note; none unless told
   */
  record(path: string, depth: "brief" | "full" = "full", trials = 0): NoteRecord {
    const empty: NoteRecord = { path, values: [], rules: [], findings: [], openItems: [], settleFirst: [] };
    const allowance = new Allowance();
    return this.ask(path, empty, (snapshot) =>
      record(snapshot, {
        findings: this.findings(path),
        openItems: openItems(snapshot),
        guesses: this.settleFirst().filter((guess) => guess.path === path),
        otherChoice: (rule) => (depth === "full" ? this.otherChoices(path, rule)[0] : undefined),
        budget: (row, result) => (depth === "full" ? this.budget(snapshot, row, result, allowance) : undefined),
        distribution: (row, result) => {
          const entry = trials > 0 ? this.entriesOf(snapshot).get(row.statement) : undefined;
          return entry && distributionOf(this.program, entry, result, trials, snapshot.text);
        },
      }),
    );
  }

  /** The guesses of all notes held that are still open, those that move a `must` most first. */
  settleFirst(): readonly GuessToSettle[] {
    if (this.toSettle) return this.toSettle;
    const paths = this.paths();
    const notes = paths.map((path) => this.program.notes.get(path)!);
    const placeOf = ({ note, order }: Entry) => {
      const snapshot = this.snapshot(note.path);
      return snapshot && { snapshot, row: snapshot.rows[order] };
    };
    return (this.toSettle = settleFirst(openGuesses(this.program, notes), placeOf));
  }

  /** Other values of the choices behind a rule with which it holds, the best first. Costly: each is tried. */
  otherChoices(path: string, rule: Row): readonly OtherChoice[] {
    const context = this.contextOf(path);
    return context ? otherChoices(rule, context) : [];
  }

  private ask<T>(path: string, otherwise: T, look: (snapshot: Snapshot) => T): T {
    const snapshot = this.snapshot(path);
    return snapshot ? look(snapshot) : otherwise;
  }

  private change(make: () => void): void {
    this.forgetAnswers();
    make();
    if (this.searches === "at once") this.program.settle();
    else this.program.update();
  }

  private forgetAnswers(): void {
    this.snapshots.clear();
    this.foundIn.clear();
    this.entries.clear();
    this.toSettle = undefined;
  }

  private contextOf(path: string): FindingContext | undefined {
    const snapshot = this.snapshot(path);
    if (!snapshot) return undefined;
    return {
      snapshot,
      other: (other) => this.snapshot(other),
      whatIf: (edits, look) => this.whatIf(path, edits, look),
      seriesFor: (unit) => this.settings.series[SERIES_OF[unit]],
    };
  }

  /** What an expression gives, were it defined above a statement; empty where it has no value. */
  private tried(snapshot: Snapshot, { start }: Row, expression: string): string {
    if (snapshot.find(TRIED)) return "";
    const indentation = snapshot.text.slice(snapshot.text.lastIndexOf("\n", start - 1) + 1, start);
    const edit = { span: { start, end: start }, text: `${TRIED} = ${expression}\n${indentation}` };
    return this.whatIf(snapshot.path, [edit], (tried) => {
      const outcome = tried.find(TRIED)?.outcome;
      return outcome ? outcomeText(outcome) : "";
    });
  }

  /** The snapshots of the notes as they stand are taken first: they stay true, whatever is tried. */
  private whatIf<T>(path: string, edits: readonly Edit[], look: (snapshot: Snapshot) => T): T {
    for (const each of this.program.notes.keys()) this.snapshot(each);
    // The statements that were edited and put back have new entries.
    this.entries.clear();
    const wasSettled = this.isSettled;
    try {
      return this.program.whatIf(path, edits, () => look(this.program.snapshot(path)!));
    } finally {
      // The trial searched on, also for ranges of the notes as they stand.
      if (!wasSettled) this.forgetAnswers();
    }
  }

  private budget(home: Snapshot, { statement }: Row, result: number, allowance?: Allowance) {
    const entry = this.entriesOf(home).get(statement);
    return entry && budgetOf(this.program, entry, result, allowance);
  }

  private entriesOf(snapshot: Snapshot): ReadonlyMap<Statement, Entry> {
    const { path } = snapshot;
    const known = this.entries.get(path);
    if (known) return known;
    const entries = entriesOf(snapshot, this.program.notes.get(path));
    if (this.snapshots.get(path) === snapshot) this.entries.set(path, entries);
    return entries;
  }
}

/** The first of those that change the text the same way: it answers a finding. */
function withoutRepeats(offered: readonly OfferedFix[]): readonly OfferedFix[] {
  const byEdits = new Map<string, OfferedFix>();
  for (const each of offered) {
    const key = JSON.stringify(each.fix.edits);
    if (!byEdits.has(key)) byEdits.set(key, each);
  }
  return [...byEdits.values()];
}

/** The name under which an expression is tried. */
const TRIED = "_tried";

const SERIES_OF = { Ω: "resistor", F: "capacitor", H: "inductor" } as const;

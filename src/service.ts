import { entriesOf } from "./engine/entriesOf";
import type { Entry } from "./engine/entry";
import { chapterAt } from "./engine/handbook";
import { openGuesses } from "./engine/influence";
import type { Library } from "./engine/library";
import type { Program } from "./engine/program";
import type { Row, Snapshot } from "./engine/snapshot";
import { distributionOf } from "./engine/distribution";
import { referenceAt } from "./engine/referent";
import { finish, type InSlices } from "./engine/slices";
import type { TrialCount } from "./engine/trialCount";
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
  WorkedOut,
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
import { settleFirst } from "./features/settleFirst";
import { tableAsDataAt } from "./features/tableAsData";
import { signatureAt, type Signature } from "./features/signature";
import { standardValuesAt } from "./features/standardValues";
import { summary } from "./features/summary";
import { symbols } from "./features/symbols";
import { WHOLE_PARTS } from "./engine/wholeParts";
import { casesOf, fixesAt, type Case } from "./findings/catalogue";
import type { Finding, FindingContext } from "./findings/finding";
import { HeldNotes, type Searches } from "./heldNotes";
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
export { nearestName } from "./engine/suggest";
export type { Library, ReadResult } from "./engine/library";
export type { InSlices } from "./engine/slices";
export { ASKED_TRIALS, readTrialCount, type TrialCount } from "./engine/trialCount";
export { WHOLE_PARTS } from "./engine/wholeParts";
export type { Snapshot } from "./engine/snapshot";
export type { Edit } from "./text/edit";
export type { Fix } from "./text/fix";
export { LineIndex, type Position } from "./text/lineIndex";
export type { Span } from "./text/span";

/** Choices of the user for a note: they change what is offered and how exactly builds are counted, never a value or a range. */
export interface Settings {
  /** The series that quick fixes choose from. */
  readonly series: { readonly resistor: string; readonly capacitor: string; readonly inductor: string };
  /** How many builds are drawn for a rule or a value: adaptive unless told. */
  readonly trials?: TrialCount;
}

/** A look at what would be goes on for so many slices of a search, some tenths of a second, and says then what is known. */
const MOST_SLICES_TRIED = 1000;
/** So many of them without a pause: a few milliseconds, beside those that the edit and its undoing take. */
const SLICES_AT_ONCE = 15;

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
  private readonly held: HeldNotes;
  /** What was worked out of the notes as they stand. */
  private worked = new Worked(-1);
  /** What takes longer than a look, since the last edit. */
  private lookedInto = new LookedInto(-1);
  private readonly notes: Notes = {
    paths: () => [...this.program.notes.keys()],
    get: (path) => this.snapshot(path),
    budget: (home, row, result) => this.budget(home, row, result),
  };

  /**
   * @param from where notes are read from; or notes that are held already, and asked about here
   * @param settings of all notes, or of the note at a path
   */
  constructor(
    from: Library | HeldNotes,
    private settings: Settings | ((path: string) => Settings),
    searches: Searches = "at once",
  ) {
    if (from instanceof HeldNotes) this.held = from;
    else {
      this.held = new HeldNotes(from, searches, () => Promise.resolve(WHOLE_PARTS));
      this.held.drawBuilds(this.trialsFor);
    }
    // Whoever has a service has all parts at hand.
    this.held.takeParts(WHOLE_PARTS);
  }

  /** {@link HeldNotes.open} */
  open(path: string, text: string): void {
    this.held.open(path, text);
  }

  /** {@link HeldNotes.edit} */
  edit(path: string, edits: readonly Edit[]): void {
    this.held.edit(path, edits);
  }

  /** {@link HeldNotes.close} */
  close(path: string): void {
    this.held.close(path);
  }

  /** {@link HeldNotes.load} */
  load(): Promise<boolean> {
    return this.held.load();
  }

  /** {@link HeldNotes.loadChapters} */
  loadChapters(chapters: readonly string[]): Promise<boolean> {
    return this.held.loadChapters(chapters);
  }

  /** {@link HeldNotes.isSettled} */
  get isSettled(): boolean {
    return this.held.isSettled;
  }

  /** {@link HeldNotes.search} */
  search(isTimeToPause: () => boolean): void {
    this.held.search(isTimeToPause);
  }

  /** {@link HeldNotes.lookAt} */
  lookAt(path: string, spans: readonly Span[]): void {
    this.held.lookAt(path, spans);
  }

  /** {@link HeldNotes.paths} */
  paths(): readonly string[] {
    return this.held.paths();
  }

  /** {@link HeldNotes.snapshot} */
  snapshot(path: string): Snapshot | undefined {
    return this.held.snapshot(path);
  }

  /** {@link HeldNotes.results} */
  results(path: string): readonly LineResult[] {
    return this.held.results(path);
  }

  /** What a word means in the chapters of the handbook that are held: `led`, `led.burden`, `burden`. */
  lookUp(word: string): LookUp {
    return lookUp(word, handbookOf(this.notes));
  }

  /** The chapters of the handbook that are held, by name. */
  handbook(): Handbook {
    return handbookOf(this.notes);
  }

  /** Takes other settings. Shares of builds are worked out anew where the number of trials is another one. */
  configure(settings: Settings | ((path: string) => Settings)): void {
    this.settings = settings;
    this.held.drawBuilds(this.trialsFor);
  }

  /** All that is to be said of a note, in the order of its text. */
  findings(path: string): readonly Finding[] {
    return this.found(path).findings;
  }

  private found(path: string): Found {
    const known = this.known.found.get(path);
    if (known) return known;
    const context = this.contextOf(path);
    const cases = context ? casesOf(context) : [];
    const found = { cases, findings: cases.map(({ finding }) => finding) };
    this.known.found.set(path, found);
    return found;
  }

  /** What can be done at a place: the fixes of the findings that touch it, then what else is offered there. */
  fixes(path: string, span: Span): readonly OfferedFix[] {
    return finish(this.fixesInSlices(path, span));
  }

  /** The same in slices: to say what follows from a fix, it is tried. None where a note is edited meanwhile. */
  fixesInSlices(path: string, span: Span): InSlices<readonly OfferedFix[]> {
    return this.unlessEdited(this.offeredFixes(path, span), []);
  }

  private *offeredFixes(path: string, span: Span): InSlices<readonly OfferedFix[]> {
    const context = chapterAt(path) === undefined ? this.contextOf(path) : undefined;
    if (!context) return [];
    const { snapshot } = context;
    const ofFindings = yield* fixesAt(context, span, this.found(path).cases);
    const others = [
      ...(yield* standardValuesAt(context, span)),
      ...guessSourceAt(snapshot, span),
      ...alignTableAt(snapshot, span),
      ...tableAsDataAt(snapshot, span),
      ...measureGuessAt(snapshot, span),
    ];
    return withoutRepeats([...ofFindings, ...others.map((fix) => ({ fix }))]);
  }

  /** What is known of the word or the rule at a place; of what takes longer, what {@link lookInto} has worked out. */
  hover(path: string, offset: number): Hover | undefined {
    return this.ask(path, undefined, (snapshot) =>
      hover(snapshot, offset, this.notes, {
        tried: (row, expression) => this.tried(snapshot, row, expression),
        workedOut: ({ statement }) => this.workedOut.get(statement),
      }),
    );
  }

  /**
   * Works out what {@link hover} has to say at a place and takes longer than a look, until a note is edited: how a value is
   * distributed, by trials; with which other choice a rule that fails would hold. Each slice gives how far it has come,
   * 0 to 1, if that is known.
   */
  lookInto(path: string, offset: number): InSlices<void> {
    return this.unlessEdited(this.workOut(path, offset), undefined);
  }

  private *workOut(path: string, offset: number): InSlices<void> {
    const snapshot = this.snapshot(path);
    const referent = snapshot && referenceAt(snapshot, offset, this.notes)?.referent;
    const isDefined = referent?.kind === "defined";
    const home = isDefined ? this.snapshot(referent.path) : snapshot;
    const row = isDefined ? referent.row : referent ? undefined : snapshot?.rowAt(offset);
    if (!home || !row || this.workedOut.has(row.statement)) return;
    const { statement, outcome } = row;
    // What is still searched for may come out otherwise.
    if (outcome.kind === "rule" && (outcome.isPending || outcome.awaitsBuilds)) return;
    const begun: WorkedOut = { isPending: true };
    this.workedOut.set(statement, begun);
    try {
      this.workedOut.set(statement, yield* this.workedOutOf(home, row));
    } finally {
      // Who does not go on with it leaves nothing behind.
      if (this.workedOut.get(statement) === begun) this.workedOut.delete(statement);
    }
  }

  private *workedOutOf(home: Snapshot, row: Row): InSlices<WorkedOut> {
    const { outcome, statement } = row;
    if (outcome.kind === "rule") {
      const isFailing = outcome.state === "fails" || outcome.state === "failsAtLimits";
      const context = isFailing ? this.contextOf(home.path) : undefined;
      return context ? { otherChoices: yield* otherChoices(row, context) } : {};
    }
    // What is stated says itself how it is spread.
    const isComputed = statement.kind === "let" || (statement.kind === "derived" && !statement.choice);
    if (outcome.kind !== "quantity" || outcome.isList || !isComputed) return {};
    const run = this.distribution(home, row, 0, this.program.trialsFor(home.path));
    const distribution = run && (yield* run);
    return distribution ? { distribution } : {};
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
  record(path: string, depth: "brief" | "full" = "full", trials?: TrialCount): NoteRecord {
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
          const run = trials === undefined ? undefined : this.distribution(snapshot, row, result, trials);
          return run && finish(run);
        },
      }),
    );
  }

  /** The guesses of all notes held that are still open, those that move a `must` most first. */
  settleFirst(): readonly GuessToSettle[] {
    if (this.known.toSettle) return this.known.toSettle;
    const paths = this.paths();
    const notes = paths.map((path) => this.program.notes.get(path)!);
    const placeOf = ({ note, order }: Entry) => {
      const snapshot = this.snapshot(note.path);
      return snapshot && { snapshot, row: snapshot.rows[order] };
    };
    return (this.known.toSettle = settleFirst(openGuesses(this.program, notes), placeOf));
  }

  /** Other values of the choices behind a rule with which it holds, the best first. Costly: each is tried. */
  otherChoices(path: string, rule: Row): readonly OtherChoice[] {
    const context = this.contextOf(path);
    return context ? finish(otherChoices(rule, context)) : [];
  }

  private ask<T>(path: string, otherwise: T, look: (snapshot: Snapshot) => T): T {
    const snapshot = this.snapshot(path);
    return snapshot ? look(snapshot) : otherwise;
  }

  private get program(): Program {
    return this.held.program;
  }

  private get workedOut(): Map<Statement, WorkedOut> {
    if (this.lookedInto.edits !== this.held.edits) this.lookedInto = new LookedInto(this.held.edits);
    return this.lookedInto.found;
  }

  private get known(): Worked {
    if (this.worked.revision !== this.held.revision) this.worked = new Worked(this.held.revision);
    return this.worked;
  }

  private contextOf(path: string): FindingContext | undefined {
    const snapshot = this.snapshot(path);
    if (!snapshot) return undefined;
    return {
      snapshot,
      other: (other) => this.snapshot(other),
      whatIf: (edits, look) => this.whatIf(path, edits, look),
      seriesFor: (unit) => this.settingsFor(path).series[SERIES_OF[unit]],
    };
  }

  private settingsFor(path: string): Settings {
    return typeof this.settings === "function" ? this.settings(path) : this.settings;
  }

  private readonly trialsFor = (path: string): TrialCount => this.settingsFor(path).trials ?? "adaptive";

  /** What an expression gives, were it defined above a statement; empty where it has no value. */
  private tried(snapshot: Snapshot, { start }: Row, expression: string): string {
    if (snapshot.find(TRIED)) return "";
    const indentation = snapshot.text.slice(snapshot.text.lastIndexOf("\n", start - 1) + 1, start);
    const edit = { span: { start, end: start }, text: `${TRIED} = ${expression}\n${indentation}` };
    return this.tryOnce(snapshot.path, [edit], () => {
      const outcome = this.program.snapshot(snapshot.path)!.find(TRIED)?.outcome;
      return outcome ? outcomeText(outcome) : "";
    });
  }

  /** A look at what would be. What has to be searched for is searched between the looks, on copies. */
  private *whatIf<T>(path: string, edits: readonly Edit[], look: (snapshot: Snapshot) => T): InSlices<T> {
    let left = MOST_SLICES_TRIED;
    for (;;) {
      yield;
      const tried = this.tryOnce(path, edits, () => {
        const remaining = left > 0 ? this.program.remainingOfUpdate() : [];
        return remaining.length > 0 ? { remaining } : { seen: look(this.program.snapshot(path)!) };
      });
      if (!tried.remaining) return tried.seen;
      for (const run of tried.remaining) while (left-- > 0 && !run.next().done) yield;
    }
  }

  /** The snapshots of the notes as they stand are taken first: they stay true, whatever is tried. */
  private tryOnce<T>(path: string, edits: readonly Edit[], look: () => T): T {
    for (const each of this.program.notes.keys()) this.snapshot(each);
    // The statements that were edited and put back have new entries.
    this.known.entries.clear();
    const wasSettled = this.isSettled;
    try {
      return this.program.whatIf(
        path,
        edits,
        look,
        this.held.searches === "at once" ? MOST_SLICES_TRIED : SLICES_AT_ONCE,
      );
    } finally {
      // The trial searched on, also for ranges of the notes as they stand; or there was no time to find them all again.
      if (!wasSettled || !this.isSettled) this.held.forgetStates();
    }
  }

  /** Goes on with a run as long as no note is edited, and no setting. */
  private *unlessEdited<T>(run: InSlices<T>, otherwise: T): InSlices<T> {
    const { edits } = this.held;
    try {
      while (this.held.edits === edits) {
        const step = run.next();
        if (step.done) return step.value;
        yield step.value;
      }
      return otherwise;
    } finally {
      run.return(otherwise);
    }
  }

  private distribution(home: Snapshot, { statement }: Row, result: number, trials: TrialCount) {
    const entry = this.entryOf(home, statement);
    return entry && distributionOf(this.program, entry, result, trials, home.text);
  }

  private budget(home: Snapshot, { statement }: Row, result: number, allowance?: Allowance) {
    const entry = this.entryOf(home, statement);
    return entry && budgetOf(this.program, entry, result, allowance);
  }

  private entryOf(snapshot: Snapshot, statement: Statement): Entry | undefined {
    const place = snapshot.placeOf(statement);
    return place === undefined ? undefined : this.entriesOf(snapshot)[place];
  }

  private entriesOf(snapshot: Snapshot): readonly Entry[] {
    const { path } = snapshot;
    const known = this.known.entries.get(path);
    if (known) return known;
    const entries = entriesOf(snapshot, this.program.notes.get(path));
    if (this.snapshot(path) === snapshot) this.known.entries.set(path, entries);
    return entries;
  }
}

/** What is to be said of a note. */
interface Found {
  readonly cases: readonly Case[];
  readonly findings: readonly Finding[];
}

/** What was worked out of the notes in one state of them. */
class Worked {
  readonly found = new Map<string, Found>();
  readonly entries = new Map<string, readonly Entry[]>();
  toSettle?: readonly GuessToSettle[];

  constructor(readonly revision: number) {}
}

/** What takes longer than a look and somebody asked for, of the notes as they were since an edit. */
class LookedInto {
  readonly found = new Map<Statement, WorkedOut>();

  constructor(readonly edits: number) {}
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

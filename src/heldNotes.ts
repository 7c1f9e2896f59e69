import { chapterAt } from "./engine/handbook";
import type { Library, ReadResult } from "./engine/library";
import type { Parts } from "./engine/parts";
import { Program } from "./engine/program";
import type { Snapshot } from "./engine/snapshot";
import type { TrialCount } from "./engine/trialCount";
import { isTableFile } from "./engine/uses";
import type { LineResult } from "./features/feature";
import { results } from "./features/results";
import type { Edit } from "./text/edit";
import type { Span } from "./text/span";

export type { LineResult } from "./features/feature";
export { isTableFile } from "./engine/uses";
export { CHAPTERS, chapterAt, chapterPath } from "./engine/handbook";
export type { Library, ReadResult } from "./engine/library";
export type { Parts } from "./engine/parts";
export type { Snapshot } from "./engine/snapshot";
export { ASKED_TRIALS, readTrialCount, type TrialCount } from "./engine/trialCount";
export type { Edit } from "./text/edit";
export type { LineIndex } from "./text/lineIndex";
export type { Span } from "./text/span";

/** When ranges that have to be searched for are found. */
export type Searches = "at once" | "in slices";

/**
 * Notes as they are held: opened, edited and read, with their states and what stands beside their lines. It is all that
 * the first values need, and the first of the extension's two files; whatever else is said or asked is the service's.
 * Paths are what the {@link Library} takes them for. Of a note that it does not hold, it knows nothing.
 */
export class HeldNotes {
  readonly program = new Program(undefined);
  /** Another number whenever the notes, or ranges in them, may have become others. */
  revision = 0;
  /** Another number whenever a note was edited, or the number of trials is another one. */
  edits = 0;
  /** Of the notes as they stand; what is worked out from a snapshot is kept with it. */
  private readonly snapshots = new Map<string, Snapshot>();

  /**
   * @param searches when ranges that have to be searched for are found: by the call that changes a note, or slice by slice
   * with {@link search}, and until then what rests on them is marked as pending
   * @param readParts reads what only some notes need, when one first does
   */
  constructor(
    private readonly library: Library,
    readonly searches: Searches,
    private readonly readParts: () => Promise<Parts>,
  ) {}

  /** Opens a note, or gives an open one a new text. Answers are up to date at once, but for notes still to be read by {@link load}. */
  open(path: string, text: string): void {
    // Without what reads tables, a table is left to {@link load}.
    if (isTableFile(path) && !this.program.parts) return this.close(path);
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

  /** Whether a note uses the file at a path as a table. */
  usesTable(path: string): boolean {
    return this.program.tableUsers.isUsed(path);
  }

  /** Takes what the library has now of a file that is used as a table. */
  refreshTable(path: string, result: ReadResult): void {
    // One that was never read is read by {@link load}.
    if (!this.usesTable(path) || !this.program.parts) return;
    this.change(() => {
      if (!("text" in result)) this.program.close(path);
      this.program.provide(path, result);
    });
  }

  /** What only some notes need is there; who waited for it is brought up to date. */
  takeParts(parts: Parts): void {
    if (!this.program.parts) this.change(() => this.program.takeParts(parts));
  }

  /** Reads chapters of the handbook that no note mentions yet, and the chapters that those mention. */
  async loadChapters(chapters: readonly string[]): Promise<boolean> {
    for (const chapter of chapters) this.program.chapters.ask(chapter);
    return this.load();
  }

  /** Reads the notes that others use, and the notes that those use, until none is missing. Whether any was read. */
  async load(): Promise<boolean> {
    let isAny = false;
    const { program } = this;
    for (let wanted = program.wanted(); wanted.length > 0 || program.awaiting.size > 0; wanted = program.wanted()) {
      isAny = true;
      if (!program.parts && (program.awaiting.size > 0 || wanted.some(isTableFile)))
        this.takeParts(await this.readParts());
      const results = await Promise.all(wanted.map(async (path) => ({ path, result: await this.library.read(path) })));
      this.change(() => {
        // What was opened while the library read is newer than what it read.
        for (const { path, result } of results) if (!program.notes.has(path)) program.provide(path, result);
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
    this.forgetStates();
    this.program.search(isTimeToPause);
  }

  /** How many builds are drawn for the rules of each note. Shares of builds are worked out anew where it is another number. */
  drawBuilds(trialsFor: (path: string) => TrialCount): void {
    this.program.trialsFor = trialsFor;
    this.retryTrials("all");
  }

  /** How far the trials have come that {@link search} makes for shares of builds, 0 to 1; undefined where it makes none. */
  get progressOfTrials(): number | undefined {
    return this.program.remaining.progressOfTrials;
  }

  /** Leaves the rules that are still to be tried without a share of builds, until they are edited or tried again. */
  stopTrials(): void {
    this.forgetStates();
    this.program.remaining.stopTrials();
  }

  /** Works out shares of builds again: those that were left out by {@link stopTrials}, or all. */
  retryTrials(which: "stopped" | "all"): void {
    this.change(() => this.program.retryBuilds(which));
  }

  /** Somebody looks at these spans of a note: what is to be searched there comes first. */
  lookAt(path: string, spans: readonly Span[]): void {
    this.program.lookAt(path, spans);
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

  /** What stands beside the lines. */
  results(path: string): readonly LineResult[] {
    const snapshot = this.snapshot(path);
    return snapshot ? results(snapshot) : [];
  }

  /** States are taken anew when they are next asked for. */
  forgetStates(): void {
    this.snapshots.clear();
    this.revision++;
  }

  private change(make: () => void): void {
    this.forgetStates();
    this.edits++;
    make();
    if (this.searches === "at once") this.program.settle();
    else this.program.update();
  }
}

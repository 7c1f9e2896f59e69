import * as vscode from "vscode";
import { CHAPTERS, Service, type InSlices, type NoteEdits, type Span } from "../service";
import type { Guard } from "./guard";
import { NOTE_FILES, type Notes } from "./notes";
import { toPath, toUri } from "./paths";
import { toRange } from "./places";
import { breath, inSlices } from "./slices";

const OTHERS_FILES = "**/node_modules/**";

/** A hover waits so long for what takes longer than a look; then it comes without, and the next one has it. */
const HOVER_WAITS_MS = 400;

/** How far a long task has come. */
export interface Watch {
  readonly token?: vscode.CancellationToken;
  report?(done: number, total: number): void;
}

/** A note that could not be read, and why. */
export interface UnreadNote {
  readonly path: string;
  readonly why: string;
}

/** The notes of the editor, asked: answers come from {@link service}, with the path that {@link pathOf} gives. */
export class AskedNotes {
  private current: { readonly of: Notes["held"]; readonly service: Service } | undefined;

  constructor(
    private readonly notes: Notes,
    private readonly guard: Guard,
  ) {}

  /** Another after a bug, with which nothing that was held before is trusted. */
  get service(): Service {
    const { held } = this.notes;
    if (this.current?.of !== held) this.current = { of: held, service: new Service(held, this.notes.settings.of) };
    return this.current.service;
  }

  /** {@link Notes.onDidChange} */
  get onDidChange(): vscode.Event<void> {
    return this.notes.onDidChange;
  }

  /** {@link Notes.pathOf} */
  pathOf(document: vscode.TextDocument): string | undefined {
    return this.notes.pathOf(document);
  }

  /** {@link Notes.isOpen} */
  isOpen(path: string): boolean {
    return this.notes.isOpen(path);
  }

  /** {@link Notes.lookAt} */
  lookAt(path: string, span: Span): void {
    this.notes.lookAt(path, span);
  }

  /** {@link Notes.searchOn} */
  searchOn(): void {
    this.notes.searchOn();
  }

  /**
   * Somebody points at a place: what takes longer than a look is worked out there. The answer comes when that is done, or
   * after a while, and then it is gone on with behind.
   */
  async lookInto(path: string, offset: number, token: vscode.CancellationToken): Promise<void> {
    const run = this.service.lookInto(path, offset);
    const began = performance.now();
    const isLate = () => performance.now() - began > HOVER_WAITS_MS;
    await inSlices(untilLate(run, isLate), () => token.isCancellationRequested);
    if (token.isCancellationRequested) run.return(undefined);
    else if (isLate()) void this.guard.run("Working out a hover", undefined, () => this.goOn(run));
    this.notes.searchOn();
  }

  /** Goes on behind the editor's back with what took too long to be waited for, and says so. */
  private async goOn(run: InSlices<void>): Promise<void> {
    const work = this.notes.workBar.begin();
    let isStopped = false;
    const stop = () => (isStopped = true);
    try {
      await inSlices(
        run,
        () => isStopped,
        (progress) => work.report("Drawing builds", shareOf(progress), stop),
      );
    } finally {
      work.end();
      this.notes.searchOn();
    }
  }

  /** A service that holds all chapters of the handbook: one of its own, so that no keystroke in a note goes through them. */
  async handbookService(): Promise<Service> {
    const service = new Service(this.notes.library, this.notes.settings.of, "in slices");
    await service.loadChapters([...CHAPTERS.keys()]);
    return service;
  }

  /** Where a span of a note is; undefined for a note that is not held. */
  location(path: string, span: Span): vscode.Location | undefined {
    const snapshot = this.service.snapshot(path);
    const uri = toUri(path);
    return snapshot && uri && new vscode.Location(uri, toRange(snapshot.lines, span));
  }

  /** The edits of several notes as one step of the editor. */
  workspaceEdit(changes: readonly NoteEdits[]): vscode.WorkspaceEdit {
    const result = new vscode.WorkspaceEdit();
    for (const { path, edits } of changes) {
      for (const { span, text } of edits) {
        const place = this.location(path, span);
        if (place === undefined) throw new Error(`An edit was asked for in ${path}, which is not held.`);
        result.replace(place.uri, place.range, text);
      }
    }
    return result;
  }

  /** Reads all notes of the workspace that are not held yet. Gives those that cannot be read. */
  async holdAll({ token, report }: Watch = {}): Promise<readonly UnreadNote[]> {
    const files = await vscode.workspace.findFiles(NOTE_FILES, OTHERS_FILES, undefined, token);
    const held = new Set(this.service.paths());
    const unread: UnreadNote[] = [];
    for (const [done, path] of files.map(toPath).entries()) {
      if (token?.isCancellationRequested) break;
      report?.(done, files.length);
      if (held.has(path)) continue;
      const result = await this.notes.library.read(path);
      await breath();
      if ("text" in result) this.notes.hold(path, result.text);
      else unread.push({ path, why: result.detail });
    }
    await this.notes.load();
    this.notes.changed();
    return unread;
  }

  /** Shares of builds that somebody did not want to wait for are worked out after all. */
  retryStopped(): void {
    this.notes.held.retryTrials("stopped");
    this.notes.searchOn();
  }

  /** Until no range is left to be searched for. */
  async settled(token: vscode.CancellationToken): Promise<void> {
    while (!this.notes.held.isSettled && !token.isCancellationRequested) await breath();
  }
}

/** A run that leaves off when it is late, to be gone on with. */
function* untilLate<T>(run: InSlices<T>, isLate: () => boolean): InSlices<T | undefined> {
  while (!isLate()) {
    const step = run.next();
    if (step.done) return step.value;
    yield step.value;
  }
  return undefined;
}

/** How far trials have come, if that is what a slice tells. */
function shareOf(progress: unknown): number | undefined {
  if (typeof progress !== "object" || progress === null || !("trials" in progress)) return undefined;
  const { trials, expected } = progress as { readonly trials: number; readonly expected: number };
  return Math.min(1, trials / expected);
}

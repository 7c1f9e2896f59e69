import * as vscode from "vscode";
import { CHAPTERS, Service, type Edit, type NoteEdits, type Span } from "../service";
import { toEdit, toRange, toSpan } from "./converters";
import type { Guard } from "./guard";
import { HANDBOOK, type HandbookFiles } from "./handbookDocuments";
import { WorkspaceLibrary } from "./library";
import { toPath, toUri, UNTITLED } from "./paths";
import { readSettings, SECTION } from "./settings";

export const LANGUAGE = "copperbook";
const NOTE_FILES = "**/*.calcs.md";
const OTHERS_FILES = "**/node_modules/**";

/** Ranges are searched for so long before the editor is let in: half a frame of a screen that shows sixty in a second. */
const SLICE_MS = 8;
/** While a search goes on, what it found so far is shown so often: seldom enough to be read. */
const SHOWN_EVERY_MS = 200;

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

/**
 * The notes that the service holds, kept as the editor has them: what is open with each edit, the rest as it is on disk.
 * Answers are asked of {@link service}, with the path that {@link pathOf} gives.
 */
export class Notes implements vscode.Disposable {
  private readonly changes = new vscode.EventEmitter<void>();
  /** Answers may have changed. After an edit it is fired at once, while the editor still waits for the event to end. */
  readonly onDidChange = this.changes.event;

  private readonly open = new Map<string, vscode.TextDocument>();
  private readonly library: WorkspaceLibrary;
  private current: Service;
  private readonly subscriptions: vscode.Disposable[] = [this.changes];

  private isSearching = false;
  private isDisposed = false;

  constructor(
    private readonly guard: Guard,
    handbook: HandbookFiles,
  ) {
    this.library = new WorkspaceLibrary((path) => this.open.get(path)?.getText(), handbook);
    this.current = new Service(this.library, readSettings(), "in slices");
    const { workspace } = vscode;
    const on = <E>(event: vscode.Event<E>, what: string, listener: (given: E) => unknown): void => {
      this.subscriptions.push(event(guard.wrap<[E], unknown>(what, undefined, listener)));
    };
    on(workspace.onDidOpenTextDocument, "A note was opened", (document) => this.opened(document));
    on(workspace.onDidChangeTextDocument, "A note was edited", (event) => this.edited(event));
    on(workspace.onDidCloseTextDocument, "A note was closed", (document) => this.closed(document));
    on(workspace.onDidChangeConfiguration, "Settings were changed", (event) => this.configured(event));
    const watcher = workspace.createFileSystemWatcher(NOTE_FILES);
    this.subscriptions.push(watcher);
    for (const event of [watcher.onDidCreate, watcher.onDidChange, watcher.onDidDelete])
      on(event, "A note changed on disk", (uri) => this.reread(toPath(uri)));
    for (const document of workspace.textDocuments)
      guard.run("A note was open", undefined, () => this.opened(document));
  }

  dispose(): void {
    this.isDisposed = true;
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  get service(): Service {
    return this.current;
  }

  /** A service that holds all chapters of the handbook: one of its own, so that no keystroke in a note goes through them. */
  async handbookService(): Promise<Service> {
    const service = new Service(this.library, readSettings(), "in slices");
    await service.loadChapters([...CHAPTERS.keys()]);
    return service;
  }

  /** The path of a document that is a note or a page of the handbook; undefined for others, and for old versions of notes beside a new one. */
  pathOf(document: vscode.TextDocument): string | undefined {
    if (document.languageId !== LANGUAGE || !isComputed(document.uri.scheme)) return undefined;
    return toPath(document.uri);
  }

  isOpen(path: string): boolean {
    return this.open.has(path);
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
      const result = await this.library.read(path);
      await breath();
      if ("text" in result) this.hold(path, result.text);
      else unread.push({ path, why: result.detail });
    }
    await this.load();
    this.changed();
    return unread;
  }

  /** Until no range is left to be searched for. */
  async settled(token: vscode.CancellationToken): Promise<void> {
    while (!this.current.isSettled && !token.isCancellationRequested) await breath();
  }

  /** Somebody looks at a place: what is still to be searched there is searched now, for a slice of time at the most. */
  lookAt(path: string, span: Span): void {
    if (this.current.isSettled) return;
    this.current.lookAt(path, [span]);
    this.searchSlice();
  }

  /** A text from disk, unless the note was opened meanwhile. */
  private hold(path: string, text: string): void {
    if (!this.open.has(path)) this.service.open(path, text);
  }

  private opened(document: vscode.TextDocument): void {
    const path = this.pathOf(document);
    if (path === undefined) return;
    this.open.set(path, document);
    this.service.open(path, document.getText());
    this.changedInEditor();
  }

  private edited({ document, contentChanges }: vscode.TextDocumentChangeEvent): void {
    const path = this.pathOf(document);
    if (path === undefined || contentChanges.length === 0) return;
    try {
      this.follow(path, document, contentChanges.map(toEdit));
    } catch (error) {
      this.guard.bug(`An edit of ${path} could not be followed; all notes are read afresh`, error);
      this.startAfresh();
    }
    this.changedInEditor();
  }

  private follow(path: string, document: vscode.TextDocument, edits: readonly Edit[]): void {
    this.service.edit(path, edits);
    // A change of all line ends, for one, is not told edit by edit.
    if (this.service.snapshot(path)?.text.length !== lengthOf(document)) this.service.open(path, document.getText());
  }

  private async closed(document: vscode.TextDocument): Promise<void> {
    const path = toPath(document.uri);
    if (this.open.delete(path)) await this.reread(path);
  }

  private configured(event: vscode.ConfigurationChangeEvent): void {
    if (!event.affectsConfiguration(SECTION)) return;
    this.service.configure(readSettings());
    this.changes.fire();
  }

  /** Takes a note that is not open as it is on disk. */
  private async reread(path: string): Promise<void> {
    if (this.open.has(path)) return;
    const result = await this.library.read(path);
    if (this.open.has(path)) return;
    if ("text" in result) this.service.open(path, result.text);
    else this.service.close(path);
    this.changedInEditor();
  }

  /** After a bug nothing that the old service holds is trusted. */
  private startAfresh(): void {
    this.current = new Service(this.library, readSettings(), "in slices");
    for (const [path, document] of this.open)
      this.guard.run(`Opening ${path}`, undefined, () => this.service.open(path, document.getText()));
  }

  private changedInEditor(): void {
    this.changed();
    void this.guard.run("Reading the notes that others use", undefined, async () => {
      if (await this.load()) this.changed();
    });
  }

  /** Tells that answers may have changed, and searches for the ranges that are pending in them. */
  private changed(): void {
    this.changes.fire();
    if (this.isSearching || this.current.isSettled) return;
    this.isSearching = true;
    void this.guard.run("Searching for ranges", undefined, async () => {
      try {
        await this.search();
      } finally {
        this.isSearching = false;
      }
    });
  }

  /** In slices, until nothing is pending, whatever is edited meanwhile. */
  private async search(): Promise<void> {
    let isTold = true;
    for (let shown = performance.now(); !this.isDisposed;) {
      await breath();
      if (this.current.isSettled) {
        // What was asked meanwhile can have searched to the end.
        if (!isTold) this.changes.fire();
        return;
      }
      isTold = false;
      for (const { document, visibleRanges } of vscode.window.visibleTextEditors) {
        const path = this.pathOf(document);
        if (path !== undefined)
          this.current.lookAt(
            path,
            visibleRanges.map((range) => toSpan(document, range)),
          );
      }
      this.searchSlice();
      if (!this.current.isSettled && performance.now() - shown < SHOWN_EVERY_MS) continue;
      shown = performance.now();
      isTold = true;
      this.changes.fire();
    }
  }

  private searchSlice(): void {
    const end = performance.now() + SLICE_MS;
    this.current.search(() => performance.now() >= end);
  }

  private async load(): Promise<boolean> {
    if (!(await this.service.load())) return false;
    // A note that was opened while its file was read may have got the older text.
    for (const [path, document] of this.open) this.service.open(path, document.getText());
    return true;
  }
}

/** Lets the editor do what waits: a long task takes a breath between two notes. */
export function breath(): Promise<void> {
  return new Promise((resume) => setTimeout(resume));
}

/** Whether documents of this scheme are files to work on, or pages of the handbook. The old side of a comparison comes from a read-only one. */
function isComputed(scheme: string): boolean {
  if (scheme === UNTITLED || scheme === HANDBOOK || vscode.workspace.fs.isWritableFileSystem(scheme)) return true;
  return (vscode.workspace.workspaceFolders ?? []).some(({ uri }) => uri.scheme === scheme);
}

function lengthOf(document: vscode.TextDocument): number {
  return document.offsetAt(document.lineAt(document.lineCount - 1).range.end);
}

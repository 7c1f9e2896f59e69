import * as vscode from "vscode";
import { HeldNotes, type Edit, type Parts, type Span } from "../heldNotes";
import type { Guard } from "./guard";
import { HANDBOOK, type HandbookFiles } from "./handbookFiles";
import { WorkspaceLibrary } from "./library";
import { toPath, UNTITLED } from "./paths";
import { toEdit, toSpan } from "./places";
import { openTableText } from "./openTables";
import { NoteSettings, SECTION } from "./settings";
import { breath, SLICE_MS } from "./slices";
import { WorkBar, type Work } from "./workBar";

export const LANGUAGE = "copperbook";
export const NOTE_FILES = "**/*.calcs.md";

/** While a search goes on, what it found so far is shown so often: seldom enough to be read. */
const SHOWN_EVERY_MS = 200;

/**
 * The notes that are held, kept as the editor has them: what is open with each edit, the rest as it is on disk.
 * Of {@link held} they go by the path that {@link pathOf} gives.
 */
export class Notes implements vscode.Disposable {
  private readonly changes = new vscode.EventEmitter<void>();
  /** Answers may have changed. After an edit it is fired at once, while the editor still waits for the event to end. */
  readonly onDidChange = this.changes.event;

  private readonly open = new Map<string, vscode.TextDocument>();
  readonly library: WorkspaceLibrary;
  private current: HeldNotes;
  readonly settings = new NoteSettings();
  readonly workBar = new WorkBar();
  private readonly subscriptions: vscode.Disposable[] = [this.changes, this.workBar];

  private isSearching = false;
  private searchWork?: Work;
  private isDisposed = false;
  /** What only some notes need, once it is read. */
  private parts?: Parts;

  constructor(
    private readonly guard: Guard,
    handbook: HandbookFiles,
    private readonly readParts: () => Promise<Parts>,
  ) {
    this.library = new WorkspaceLibrary((path) => this.open.get(path)?.getText() ?? openTableText(path), handbook);
    this.current = this.heldAfresh();
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

  get held(): HeldNotes {
    return this.current;
  }

  /** The path of a document that is a note or a page of the handbook; undefined for others, and for old versions of notes beside a new one. */
  pathOf(document: vscode.TextDocument): string | undefined {
    if (document.languageId !== LANGUAGE || !isComputed(document.uri.scheme)) return undefined;
    return toPath(document.uri);
  }

  isOpen(path: string): boolean {
    return this.open.has(path);
  }

  /** Takes a text from disk, unless the note was opened meanwhile. */
  hold(path: string, text: string): void {
    if (!this.open.has(path)) this.held.open(path, text);
  }

  /** Somebody looks at a place: what is still to be searched there is searched now, for a slice of time at the most. */
  lookAt(path: string, span: Span): void {
    if (this.current.isSettled) return;
    this.current.lookAt(path, [span]);
    this.searchSlice();
  }

  /** What only some notes need was read: what waited for it is worked out. */
  takeParts(parts: Parts): void {
    this.parts = parts;
    this.held.takeParts(parts);
    this.changed();
  }

  /** Reads the notes that others use. Whether any was read. */
  async load(): Promise<boolean> {
    if (!(await this.held.load())) return false;
    // A note that was opened while its file was read may have got the older text.
    for (const [path, document] of this.open) this.held.open(path, document.getText());
    return true;
  }

  /** Tells that answers may have changed, and searches for the ranges that are pending in them. */
  changed(): void {
    this.changes.fire();
    this.searchOn();
  }

  /** Searches for what is pending, if anything is, and nobody does it yet. */
  searchOn(): void {
    if (this.isSearching || this.current.isSettled) return;
    this.isSearching = true;
    void this.guard.run("Searching for ranges", undefined, async () => {
      try {
        await this.search();
      } finally {
        this.isSearching = false;
        this.searchWork?.end();
        this.searchWork = undefined;
      }
    });
  }

  private opened(document: vscode.TextDocument): void {
    const path = this.pathOf(document);
    if (path === undefined) return;
    this.open.set(path, document);
    this.held.open(path, document.getText());
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
    this.held.edit(path, edits);
    // A change of all line ends, for one, is not told edit by edit.
    if (this.held.snapshot(path)?.text.length !== lengthOf(document)) this.held.open(path, document.getText());
  }

  private async closed(document: vscode.TextDocument): Promise<void> {
    const path = toPath(document.uri);
    if (this.open.delete(path)) await this.reread(path);
  }

  private configured(event: vscode.ConfigurationChangeEvent): void {
    if (!event.affectsConfiguration(SECTION)) return;
    this.settings.forget();
    this.held.drawBuilds(this.settings.trialsFor);
    this.changed();
  }

  /** Takes a note that is not open as it is on disk. */
  private async reread(path: string): Promise<void> {
    if (this.open.has(path)) return;
    const result = await this.library.read(path);
    if (this.open.has(path)) return;
    if ("text" in result) this.held.open(path, result.text);
    else this.held.close(path);
    this.changedInEditor();
  }

  private heldAfresh(): HeldNotes {
    const held = new HeldNotes(this.library, "in slices", this.readParts);
    held.drawBuilds(this.settings.trialsFor);
    if (this.parts) held.takeParts(this.parts);
    return held;
  }

  /** After a bug nothing that the old service holds is trusted. */
  private startAfresh(): void {
    this.current = this.heldAfresh();
    for (const [path, document] of this.open)
      this.guard.run(`Opening ${path}`, undefined, () => this.held.open(path, document.getText()));
  }

  private changedInEditor(): void {
    this.changed();
    void this.guard.run("Reading the notes that others use", undefined, async () => {
      if (await this.load()) this.changed();
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
      this.tellWork();
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

  /** In the status bar, where it takes long. */
  private tellWork(): void {
    this.searchWork ??= this.workBar.begin();
    const share = this.current.progressOfTrials;
    if (share === undefined) this.searchWork.report("Searching for ranges");
    else this.searchWork.report("Drawing builds", share, () => this.stopTrials());
  }

  private stopTrials(): void {
    this.current.stopTrials();
    this.changes.fire();
  }

  private searchSlice(): void {
    const end = performance.now() + SLICE_MS;
    this.current.search(() => performance.now() >= end);
  }
}

/** Whether documents of this scheme are files to work on, or pages of the handbook. The old side of a comparison comes from a read-only one. */
function isComputed(scheme: string): boolean {
  if (scheme === UNTITLED || scheme === HANDBOOK || vscode.workspace.fs.isWritableFileSystem(scheme)) return true;
  return (vscode.workspace.workspaceFolders ?? []).some(({ uri }) => uri.scheme === scheme);
}

function lengthOf(document: vscode.TextDocument): number {
  return document.offsetAt(document.lineAt(document.lineCount - 1).range.end);
}

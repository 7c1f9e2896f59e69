import * as vscode from "vscode";
import { toDiagnostic } from "./converters";
import type { Guard } from "./guard";
import type { AskedNotes, UnreadNote } from "./askedNotes";
import { toUri } from "./paths";
import { breath } from "./slices";

/** Underlines that come and go with every key distract; a value beside its line does not wait for this. */
const DELAY_MS = 250;

/** Findings in the editor's problems list: of the notes that are open and, once all were checked, of the others. */
export class Problems implements vscode.Disposable {
  private readonly list = vscode.languages.createDiagnosticCollection("copperbook");
  /** What the list shows of a note was found in this state of it. */
  private readonly shown = new Map<string, unknown>();
  private readonly subscriptions: vscode.Disposable[];
  private readonly refresh: () => void;
  private waiting: ReturnType<typeof setTimeout> | undefined;
  private showsClosed = false;
  private unread: readonly UnreadNote[] = [];

  constructor(
    private readonly notes: AskedNotes,
    guard: Guard,
  ) {
    this.refresh = guard.wrap("Findings", undefined, () => this.showNow());
    const later = () => {
      clearTimeout(this.waiting);
      this.waiting = setTimeout(this.refresh, DELAY_MS);
    };
    this.subscriptions = [this.list, notes.onDidChange(later)];
    this.refresh();
  }

  dispose(): void {
    clearTimeout(this.waiting);
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  /** Shows the findings of every note that is held, and keeps doing so. */
  async showAll(unread: readonly UnreadNote[], token: vscode.CancellationToken): Promise<void> {
    this.showsClosed = true;
    this.unread = unread;
    for (const path of this.notes.service.paths()) {
      if (token.isCancellationRequested) return;
      this.showNote(path);
      await breath();
    }
    this.showUnread();
  }

  private showNow(): void {
    const paths = this.notes.service.paths().filter((path) => this.showsClosed || this.notes.isOpen(path));
    const gone = [...this.shown.keys()].filter((path) => !paths.includes(path));
    for (const path of gone) this.remove(path);
    for (const path of paths) this.showNote(path);
    this.showUnread();
  }

  private showNote(path: string): void {
    const { service } = this.notes;
    const uri = toUri(path);
    const snapshot = service.snapshot(path);
    if (uri === undefined || snapshot === undefined) return;
    // Series and other notes can change what an open note is told; for a closed one its own state is enough.
    if (this.shown.get(path) === snapshot && !this.notes.isOpen(path)) return;
    const locate = this.notes.location.bind(this.notes);
    this.list.set(
      uri,
      service.findings(path).map((finding) => toDiagnostic(snapshot.lines, finding, locate)),
    );
    this.shown.set(path, snapshot);
  }

  private remove(path: string): void {
    const uri = toUri(path);
    if (uri !== undefined) this.list.delete(uri);
    this.shown.delete(path);
  }

  /** A note that could not be read has no text to underline. */
  private showUnread(): void {
    this.unread = this.unread.filter(({ path }) => this.notes.service.snapshot(path) === undefined);
    for (const { path, why } of this.unread) {
      const uri = toUri(path);
      if (uri === undefined) continue;
      const message = `This note was not checked: ${why}.`;
      this.list.set(uri, [new vscode.Diagnostic(new vscode.Range(0, 0, 0, 0), message)]);
      this.shown.set(path, undefined);
    }
  }
}

import * as vscode from "vscode";
import type { Guard } from "./guard";
import type { Notes } from "./notes";
import { toPath } from "./paths";

const TABLE_FILES = "**/*.[cC][sS][vV]";

/** A file is read whole when it changes, so after an edit of one that is open there is a wait for the next key. */
const QUIET_MS = 300;

/** Keeps the files that notes use as tables as they are on disk or, where one is open, as it stands in the editor. */
export class TableFiles implements vscode.Disposable {
  private readonly waiting = new Map<string, ReturnType<typeof setTimeout>>();
  private readonly subscriptions: vscode.Disposable[] = [];

  constructor(
    private readonly notes: Notes,
    private readonly guard: Guard,
  ) {
    const { workspace } = vscode;
    const watcher = workspace.createFileSystemWatcher(TABLE_FILES);
    this.subscriptions.push(watcher);
    for (const event of [watcher.onDidCreate, watcher.onDidChange, watcher.onDidDelete])
      this.subscriptions.push(event((uri) => this.refresh(toPath(uri))));
    const afterDocument = ({ uri }: vscode.TextDocument) => this.refreshSoon(toPath(uri));
    this.subscriptions.push(
      workspace.onDidOpenTextDocument(afterDocument),
      workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (contentChanges.length > 0) afterDocument(document);
      }),
      workspace.onDidCloseTextDocument(afterDocument),
    );
  }

  dispose(): void {
    for (const timer of this.waiting.values()) clearTimeout(timer);
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  private refreshSoon(path: string): void {
    if (!this.notes.held.usesTable(path)) return;
    clearTimeout(this.waiting.get(path));
    this.waiting.set(
      path,
      setTimeout(() => {
        this.waiting.delete(path);
        this.refresh(path);
      }, QUIET_MS),
    );
  }

  private refresh(path: string): void {
    if (!this.notes.held.usesTable(path)) return;
    void this.guard.run("A table changed", undefined, async () => {
      const result = await this.notes.library.read(path);
      this.notes.held.refreshTable(path, result);
      this.notes.changed();
    });
  }
}

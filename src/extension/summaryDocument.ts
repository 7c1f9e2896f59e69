import * as vscode from "vscode";
import type { Guard } from "./guard";
import { summaryText, type CheckedNote, type SummaryText, type UncheckedNote } from "./summaryText";

const SCHEME = "copperbook-summary";
/** The tab's title is the last part of the path. */
const ADDRESS = vscode.Uri.from({ scheme: SCHEME, path: "/All notes.md" });

/** The summary of all notes: a read-only document whose places lead to the lines that they name. */
export class SummaryDocument implements vscode.Disposable {
  private readonly changes = new vscode.EventEmitter<vscode.Uri>();
  private readonly subscriptions: vscode.Disposable[];
  private current: SummaryText = { verdict: "", text: "", links: [] };
  private addresses = new Map<string, vscode.Uri>();

  constructor(guard: Guard) {
    this.subscriptions = [
      this.changes,
      vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
        onDidChange: this.changes.event,
        provideTextDocumentContent: () => this.current.text,
      }),
      vscode.languages.registerDocumentLinkProvider(
        { scheme: SCHEME },
        { provideDocumentLinks: guard.wrap("Links of the summary", [], () => this.links()) },
      ),
    ];
  }

  dispose(): void {
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  get verdict(): string {
    return this.current.verdict;
  }

  /** Renews it, where it is open too; `addresses` are those of the notes, by name. */
  update(
    checked: readonly CheckedNote[],
    unchecked: readonly UncheckedNote[],
    addresses: Map<string, vscode.Uri>,
  ): void {
    this.current = summaryText(checked, unchecked);
    this.addresses = addresses;
    this.changes.fire(ADDRESS);
  }

  async open(): Promise<void> {
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(ADDRESS), { preview: false });
  }

  private links(): vscode.DocumentLink[] {
    return this.current.links.flatMap(({ at, name, line }) => {
      const uri = this.addresses.get(name);
      if (uri === undefined) return [];
      const range = new vscode.Range(at.line, at.start, at.line, at.end);
      const link = new vscode.DocumentLink(range, uri.with({ fragment: `L${line}` }));
      link.tooltip = `Go to line ${line}`;
      return [link];
    });
  }
}

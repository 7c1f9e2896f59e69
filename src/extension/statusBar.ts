import * as vscode from "vscode";
import type { Guard } from "./guard";
import type { AskedNotes } from "./askedNotes";

/** Beside the counts of problems, which stand at the left with high priorities. */
const PRIORITY = 10;

/** The state of the active note in numbers: `2 fail · 11 hold · 3 guesses`. A click opens the problems list. */
export class StatusBar implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    "copperbook.summary",
    vscode.StatusBarAlignment.Left,
    PRIORITY,
  );
  private readonly subscriptions: vscode.Disposable[];

  constructor(
    private readonly notes: AskedNotes,
    guard: Guard,
  ) {
    this.item.name = "Copperbook";
    this.item.command = "workbench.actions.view.problems";
    const refresh = guard.wrap("The status bar", undefined, () => this.show());
    this.subscriptions = [this.item, notes.onDidChange(refresh), vscode.window.onDidChangeActiveTextEditor(refresh)];
    refresh();
  }

  dispose(): void {
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  private show(): void {
    const document = vscode.window.activeTextEditor?.document;
    const path = document && this.notes.pathOf(document);
    if (path === undefined) return this.item.hide();
    const { text } = this.notes.service.summary(path);
    this.item.text = text;
    this.item.tooltip = "Rules and guesses of this note. Click for its findings.";
    if (text === "") this.item.hide();
    else this.item.show();
  }
}

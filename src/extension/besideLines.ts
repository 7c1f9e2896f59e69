import * as vscode from "vscode";
import type { LineResult } from "../heldNotes";
import { cut, gapBeside } from "./besideLayout";
import type { Guard } from "./guard";
import type { Notes } from "./notes";
import { showsValues } from "./settings";

/** Of notes with more results than this, those around the view are shown: the editor keeps a style rule for each. */
const MANY_RESULTS = 200;
/** Lines around the view whose results are shown with those in view, so that a flick of the wheel finds them there. */
const MARGIN_LINES = 80;

/** The underline that tells where a value comes from, after the line types of technical drawings. */
const UNDERLINES: Readonly<Record<LineResult["style"], string | undefined>> = {
  none: undefined,
  guess: "underline dotted",
  assumed: "underline dashed",
  measured: "underline solid",
};

/** Values and rule phrases beside the lines of the notes on the screen. */
export class BesideLines implements vscode.Disposable {
  /** One type for all: its decorations are replaced in one step, and a line never shows an old and a new value. */
  private readonly type = vscode.window.createTextEditorDecorationType({
    rangeBehavior: vscode.DecorationRangeBehavior.ClosedClosed,
  });
  private readonly subscriptions: vscode.Disposable[];

  constructor(
    private readonly notes: Notes,
    guard: Guard,
  ) {
    const inView = guard.wrap("Values beside lines", undefined, () => this.showInView());
    this.subscriptions = [
      this.type,
      notes.onDidChange(inView),
      vscode.window.onDidChangeVisibleTextEditors(inView),
      vscode.window.onDidChangeTextEditorOptions(inView),
      vscode.window.onDidChangeTextEditorVisibleRanges(
        guard.wrap("Values in view", undefined, ({ textEditor }) => {
          this.show(textEditor);
        }),
      ),
    ];
    inView();
  }

  dispose(): void {
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  private showInView(): void {
    for (const editor of vscode.window.visibleTextEditors) this.show(editor);
  }

  /** Replaces what stands in an editor. */
  private show(editor: vscode.TextEditor): void {
    const path = this.notes.pathOf(editor.document);
    if (path === undefined) return;
    const results = showsValues() ? this.notes.held.results(path) : [];
    const shown = results.length <= MANY_RESULTS ? results : results.filter(nearView(editor));
    editor.setDecorations(
      this.type,
      shown.map((result) => decoration(editor, result)),
    );
  }
}

function nearView({ visibleRanges }: vscode.TextEditor): (result: LineResult) => boolean {
  return ({ line }) =>
    visibleRanges.some(({ start, end }) => start.line - MARGIN_LINES <= line && line <= end.line + MARGIN_LINES);
}

function decoration({ document, options }: vscode.TextEditor, result: LineResult): vscode.DecorationOptions {
  const { text, range } = document.lineAt(result.line);
  const tabSize = typeof options.tabSize === "number" ? options.tabSize : 4;
  return {
    // Collapsed behind the last character, so that the caret stays where the text ends.
    range: new vscode.Range(range.end, range.end),
    renderOptions: {
      after: {
        contentText: cut(result.text),
        margin: `0 0 0 ${gapBeside(text, tabSize)}ch`,
        color: new vscode.ThemeColor(colourOf(result)),
        fontWeight: result.isStrong ? "bold" : "normal",
        fontStyle: "normal",
        textDecoration: UNDERLINES[result.style],
      },
    },
  };
}

function colourOf({ kind, isStrong }: LineResult): string {
  if (kind === "value") return "copperbook.value";
  return isStrong ? "copperbook.ruleFails" : "copperbook.rule";
}

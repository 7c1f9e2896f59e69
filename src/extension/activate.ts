import * as vscode from "vscode";
import { BesideLines } from "./besideLines";
import { registerCheckAll } from "./checkAll";
import { Guard } from "./guard";
import { HandbookFiles, registerHandbook } from "./handbookDocuments";
import { registerLanguageFeatures } from "./languageFeatures";
import { Notes } from "./notes";
import { Problems } from "./problems";
import { registerRenamedFiles } from "./renamedFiles";
import { StatusBar } from "./statusBar";

/** Both faces of the extension, in a Node host and in a page, start here. */
export function activate(context: vscode.ExtensionContext): void {
  const guard = new Guard();
  const handbook = new HandbookFiles(vscode.Uri.joinPath(context.extensionUri, "dist", "handbook"));
  const notes = new Notes(guard, handbook);
  const problems = new Problems(notes, guard);
  context.subscriptions.push(
    guard,
    notes,
    problems,
    new BesideLines(notes, guard),
    new StatusBar(notes, guard),
    registerLanguageFeatures(notes, guard),
    registerHandbook(handbook, () => notes.handbookService(), guard),
    registerRenamedFiles(notes, guard),
    registerCheckAll(notes, problems, guard),
  );
}

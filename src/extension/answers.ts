import * as vscode from "vscode";
import { AskedNotes } from "./askedNotes";
import { registerCheckAll } from "./checkAll";
import type { Guard } from "./guard";
import { registerHandbook } from "./handbookDocuments";
import type { HandbookFiles } from "./handbookFiles";
import { registerLanguageFeatures } from "./languageFeatures";
import type { Notes } from "./notes";
import { Problems } from "./problems";
import { registerRenamedFiles } from "./renamedFiles";
import { StatusBar } from "./statusBar";
import { TableFiles } from "./tableFiles";

export { WHOLE_PARTS } from "../service";

/** The extension's second file: everything but the values beside lines. */
export function registerAnswers(notes: Notes, handbook: HandbookFiles, guard: Guard): vscode.Disposable {
  const asked = new AskedNotes(notes, guard);
  const problems = new Problems(asked, guard);
  return vscode.Disposable.from(
    problems,
    new StatusBar(asked, guard),
    registerLanguageFeatures(asked, guard),
    registerHandbook(handbook, () => asked.handbookService(), guard),
    registerRenamedFiles(asked, guard),
    new TableFiles(notes, guard),
    registerCheckAll(asked, problems, guard),
  );
}

import * as vscode from "vscode";
import { isTableFile } from "../heldNotes";
import { toPath } from "./paths";

/** The text of a table that is open in an editor, which wins over the one on disk. */
export function openTableText(path: string): string | undefined {
  if (!isTableFile(path)) return undefined;
  return vscode.workspace.textDocuments.find(({ uri, isClosed }) => !isClosed && toPath(uri) === path)?.getText();
}

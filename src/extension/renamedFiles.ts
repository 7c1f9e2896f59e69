import * as vscode from "vscode";
import type { Guard } from "./guard";
import type { AskedNotes } from "./askedNotes";
import { toPath } from "./paths";

/** When a person renames or moves notes or folders, the paths in `use` follow it, in the same step. */
export function registerRenamedFiles(notes: AskedNotes, guard: Guard): vscode.Disposable {
  const nothing = new vscode.WorkspaceEdit();
  const follow = guard.wrap("A renamed file", nothing, async (files: vscode.FileWillRenameEvent["files"]) => {
    await notes.holdAll();
    const moves = files.map(({ oldUri, newUri }) => ({ from: toPath(oldUri), to: toPath(newUri) }));
    return notes.workspaceEdit(notes.service.movedFiles(moves));
  });
  return vscode.workspace.onWillRenameFiles((event) => event.waitUntil(follow(event.files)));
}

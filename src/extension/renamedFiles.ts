import * as vscode from "vscode";
import type { Edit, NoteEdits } from "../service";
import type { Guard } from "./guard";
import type { Notes } from "./notes";
import { toPath } from "./paths";

/** When a person renames or moves a note or a folder, the paths in `use` follow it, in the same step. */
export function registerRenamedFiles(notes: Notes, guard: Guard): vscode.Disposable {
  const nothing = new vscode.WorkspaceEdit();
  const follow = guard.wrap("A renamed file", nothing, async (files: vscode.FileWillRenameEvent["files"]) => {
    await notes.holdAll();
    const changes = files.map(({ oldUri, newUri }) => notes.service.renamedFile(toPath(oldUri), toPath(newUri)));
    return notes.workspaceEdit(agreed(changes.flat()));
  });
  return vscode.workspace.onWillRenameFiles((event) => event.waitUntil(follow(event.files)));
}

/**
 * The edits that only one of the moves asks for. Two moves ask for the same `use` when both its ends move, and then
 * mostly together, which leaves its path as it is.
 */
function agreed(changes: readonly NoteEdits[]): NoteEdits[] {
  const places = new Map<string, number>();
  const place = (path: string, { span }: Edit): string => `${span.start} ${path}`;
  for (const { path, edits } of changes)
    for (const edit of edits) places.set(place(path, edit), (places.get(place(path, edit)) ?? 0) + 1);
  return changes.map(({ path, edits }) => ({
    path,
    edits: edits.filter((edit) => places.get(place(path, edit)) === 1),
  }));
}

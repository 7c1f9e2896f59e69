import type { Snapshot } from "../engine/snapshot";
import type { Span } from "../text/span";
import type { NoteEdits, Notes } from "./feature";

/** The edits of a renaming, or a sentence that says why it cannot be. */
export type Renaming = { readonly edits: readonly NoteEdits[] } | { readonly refusal: string };

export function renameSpan(_snapshot: Snapshot, _offset: number, _notes: Notes): Span | undefined {
  return undefined;
}

export function rename(_snapshot: Snapshot, _offset: number, _newName: string, _notes: Notes): Renaming {
  return { refusal: "No name stands here that can be renamed." };
}

export function renamedFile(_oldPath: string, _newPath: string, _notes: Notes): readonly NoteEdits[] {
  return [];
}

import type { Statement } from "../syntax/statement";
import type { Entry } from "./entry";
import type { Note } from "./note";
import type { Snapshot } from "./snapshot";

/**
 * Which entry each statement of a snapshot is: the way back from what is shown to the program that computed it.
 * By place, since a statement that was tried otherwise and put back is read anew. Empty where the note has moved on.
 */
export function entriesOf(snapshot: Snapshot, note: Note | undefined): ReadonlyMap<Statement, Entry> {
  if (note?.text !== snapshot.text) return new Map();
  const entries = [...note.entries()];
  return new Map(snapshot.columns.statements.map((statement, i) => [statement, entries[i]]));
}

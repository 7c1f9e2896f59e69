import type { Entry } from "./entry";
import type { Note } from "./note";
import type { Snapshot } from "./snapshot";

/**
 * Which entry each row of a snapshot is, by its place: the way back from what is shown to the program that computed it. (A
 * statement that was tried otherwise and put back is read anew.) Empty where the note has moved on.
 */
export function entriesOf(snapshot: Snapshot, note: Note | undefined): readonly Entry[] {
  const entries: Entry[] = [];
  if (note?.text === snapshot.text) note.eachEntry((entry) => entries.push(entry));
  return entries;
}

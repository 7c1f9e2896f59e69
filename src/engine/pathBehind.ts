import { chapterMeant as chapterMeantBy, chapterPath } from "./handbook";
import type { Snapshot } from "./snapshot";

/** The path of the note in which the members of a name are looked up: that of a note in use, or of a chapter. */
export function pathBehind(snapshot: Snapshot, name: string): string | undefined {
  const row = snapshot.find(name);
  if (row?.outcome.kind === "use") return row.outcome.path;
  const chapter = chapterMeantBy(name, row?.statement);
  return chapter === undefined ? undefined : chapterPath(chapter);
}

import type { Entry } from "./entry";
import { resolvePath, type ReadResult } from "./library";
import type { Note } from "./note";
import type { EngineProblem } from "./problem";

/** The note that a `use` statement names, where it can be one; undefined for itself and for paths that climb out. */
export function usedPath({ statement, note }: Entry): string | undefined {
  if (statement.kind !== "use") return undefined;
  const path = resolvePath(note.path, statement.tree.text(statement.path));
  return path === undefined || path === note.path || !isUsable(path) ? undefined : path;
}

/** The statements of these notes that use the note at a path. */
export function usesOf(path: string, notes: Iterable<Note>): readonly Entry[] {
  return [...notes].flatMap((note) => [...note.entries()].filter((entry) => usedPath(entry) === path));
}

/** The paths of all notes that these use. */
export function usedPaths(notes: Iterable<Note>): readonly string[] {
  return [...notes].flatMap((note) => [...note.entries()].flatMap((entry) => usedPath(entry) ?? []));
}

/** Why a `use` statement gives nothing. `whyUnread` says what the library had to say of a note that is not there. */
export function useTrouble(
  { statement, note }: Entry,
  whyUnread: (path: string) => ReadResult | undefined,
): EngineProblem | undefined {
  if (statement.kind !== "use") return undefined;
  const { tree, path: node } = statement;
  const written = tree.text(node);
  const trouble = (code: UseCode, detail = ""): EngineProblem => ({
    span: tree.span(node),
    code,
    path: written,
    detail,
  });
  const path = resolvePath(note.path, written);
  if (path === undefined) return trouble("use.outside");
  if (path === note.path) return trouble("use.self");
  if (!isUsable(path)) return trouble("use.notANote");
  const unread = whyUnread(path);
  return unread && "trouble" in unread ? trouble(`use.${unread.trouble}`, unread.detail) : undefined;
}

type UseCode = "use.self" | "use.outside" | "use.missing" | "use.unreadable" | "use.notANote";

const NOTE_ENDING = ".calcs.md";
const TABLE_ENDING = ".csv";

/** Whether a path is that of a file which is a table. */
export function isTableFile(path: string): boolean {
  return path.toLowerCase().endsWith(TABLE_ENDING);
}

function isUsable(path: string): boolean {
  return path.endsWith(NOTE_ENDING) || isTableFile(path);
}

/** The name of the table that a file is, from the last part of its path: `bom/lamp 2.csv` is `lamp_2`. */
export function tableFileName(path: string): string {
  const stem = path.slice(path.lastIndexOf("/") + 1, -TABLE_ENDING.length);
  const joined = stem.replace(/[^\p{L}\p{M}\p{N}_]+/gu, "_");
  return /^[\p{L}_]/u.test(joined) ? joined : `_${joined}`;
}

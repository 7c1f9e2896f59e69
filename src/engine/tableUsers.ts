import type { Entry } from "./entry";
import type { Note } from "./note";
import { isTableFile, usedPath } from "./uses";

/**
 * The statements by which notes use files that are tables. A file declares nothing, so a word behind a number in it is a
 * counted unit where a note that uses it declares the word by `items`.
 */
export class TableUsers {
  private readonly byPath = new Map<string, Set<Entry>>();

  /** Takes up an entry that was declared. Gives the path of the file that it uses, where it uses one. */
  add(entry: Entry): string | undefined {
    const path = tablePath(entry);
    if (path === undefined) return undefined;
    const users = this.byPath.get(path);
    if (users) users.add(entry);
    else this.byPath.set(path, new Set([entry]));
    return path;
  }

  /** Forgets an entry. Gives the path of the file that it used, where it used one. */
  drop(entry: Entry): string | undefined {
    const path = tablePath(entry);
    const users = path === undefined ? undefined : this.byPath.get(path);
    if (!users?.delete(entry)) return undefined;
    if (users.size === 0) this.byPath.delete(path!);
    return path;
  }

  isUsed(path: string): boolean {
    return this.byPath.has(path);
  }

  /** Whether a note that uses the file at a path counts something by this name. */
  count(path: string, name: string): boolean {
    for (const { note } of this.byPath.get(path) ?? []) if (declaresItems(note, name)) return true;
    return false;
  }

  /** The paths of the files that a note uses. */
  usedBy(note: Note): readonly string[] {
    return [...this.byPath].flatMap(([path, users]) => ([...users].some((use) => use.note === note) ? [path] : []));
  }
}

/** Whether a note counts something by this name. */
export function declaresItems(note: Note, name: string): boolean {
  return note.declared.get(name)?.[0].statement.kind === "items";
}

function tablePath(entry: Entry): string | undefined {
  const path = entry.statement.kind === "use" ? usedPath(entry) : undefined;
  return path !== undefined && isTableFile(path) ? path : undefined;
}

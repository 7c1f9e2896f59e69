import { lookAlikeKey } from "../syntax/name";
import { declaredNames, type Entry } from "./entry";
import type { Note } from "./note";
import type { EngineProblem, Place } from "./problem";

/** Finds names that are defined twice, and names that a reader cannot tell apart. The first in the text is the one that counts. */
export function judgeNames(note: Note): void {
  for (const entry of note.entries()) if (entry.nameProblems.length > 0) entry.nameProblems = [];
  note.hasNameProblems = false;
  const add = (entry: Entry, problem: EngineProblem) => {
    entry.nameProblems = [...entry.nameProblems, problem];
    note.hasNameProblems = true;
  };
  const byKey = new Map<string, string>();
  for (const [name, entries] of inOrder(note.declared)) {
    if (entries.length > 1)
      for (const entry of entries.slice(1))
        // Of a table that is there twice, the columns are too.
        if (entry.table === entries[0].table)
          add(entry, { span: spanOf(entry, name), code: "name.doubled", name, first: place(entries[0], name) });
    const key = lookAlikeKey(name);
    const other = byKey.get(key);
    if (other === undefined) {
      byKey.set(key, name);
      continue;
    }
    const [entry] = entries;
    const first = place(note.declared.get(other)![0], other);
    add(entry, { span: spanOf(entry, name), code: "name.lookAlike", name, other, first });
  }
}

/** Names by the place of their first entry; those of one statement as they are written. */
function inOrder(declared: ReadonlyMap<string, readonly Entry[]>): [string, readonly Entry[]][] {
  const placeIn = ([name, [entry]]: [string, readonly Entry[]]) => spanOf(entry, name).start;
  return [...declared].sort((a, b) => a[1][0].order - b[1][0].order || placeIn(a) - placeIn(b));
}

function spanOf(entry: Entry, name: string): { start: number; end: number } {
  const { statement } = entry;
  const found = declaredNames(statement).filter((declared) => declared.name === name);
  return statement.tree.span(found[found.length - 1].node);
}

function place(entry: Entry, name: string): Place {
  return { path: entry.note.path, statement: entry.statement, span: spanOf(entry, name) };
}

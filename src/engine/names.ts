import { lookAlikeKey } from "../syntax/name";
import { declaredNames, type Entry } from "./entry";
import type { Note } from "./note";
import type { EngineProblem, Place } from "./problem";

/** Finds names that are defined twice, and names that a reader cannot tell apart. The first in the text is the one that counts. */
export function judgeNames(note: Note): void {
  for (const entry of note.entries()) if (entry.nameProblems.length > 0) entry.nameProblems = [];
  const add = (entry: Entry, problem: EngineProblem) => {
    entry.nameProblems = [...entry.nameProblems, problem];
  };
  const byKey = new Map<string, string>();
  for (const [name, entries] of note.declared) {
    if (entries.length > 1)
      for (const entry of entries.slice(1))
        add(entry, { span: spanOf(entry, name), code: "name.doubled", name, first: place(entries[0], name) });
    const key = lookAlikeKey(name);
    const other = byKey.get(key);
    if (other === undefined) {
      byKey.set(key, name);
      continue;
    }
    const [early, late] = [other, name].sort((a, b) => note.declared.get(a)![0].order - note.declared.get(b)![0].order);
    const [entry] = note.declared.get(late)!;
    add(entry, {
      span: spanOf(entry, late),
      code: "name.lookAlike",
      name: late,
      other: early,
      first: place(note.declared.get(early)![0], early),
    });
    byKey.set(key, early);
  }
}

function spanOf(entry: Entry, name: string): { start: number; end: number } {
  const { statement } = entry;
  const found = declaredNames(statement).filter((declared) => declared.name === name);
  return statement.tree.span(found[found.length - 1].node);
}

function place(entry: Entry, name: string): Place {
  return { path: entry.note.path, statement: entry.statement, span: spanOf(entry, name) };
}

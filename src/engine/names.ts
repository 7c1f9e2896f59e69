import { lookAlikeKey } from "../syntax/name";
import { declaredNames, type Entry } from "./entry";
import type { Note } from "./note";
import type { EngineProblem, Place } from "./problem";

/** Finds names that are defined twice, and names that a reader cannot tell apart. The first in the text is the one that counts. */
export function judgeNames(note: Note): void {
  note.eachEntry((entry) => {
    if (entry.nameProblems.length > 0) entry.nameProblems = [];
  });
  note.hasNameProblems = false;
  // Names that are their own keys are told apart by them.
  if (note.doubled.size === 0 && !hasLookAlikes(note)) return;
  const add = (entry: Entry, problem: EngineProblem) => {
    entry.nameProblems = [...entry.nameProblems, problem];
    note.hasNameProblems = true;
  };
  const byKey = new Map<string, string>();
  eachFirstPlace(note, (entry, name) => {
    const entries = note.declared.get(name)!;
    if (entries.length > 1)
      for (const other of entries.slice(1))
        // Of a table that is there twice, the columns are too.
        if (other.table === entry.table)
          add(other, { span: spanOf(other, name), code: "name.doubled", name, first: place(entry, name) });
    const key = lookAlikeKey(name);
    const other = byKey.get(key);
    if (other === undefined) {
      byKey.set(key, name);
      return;
    }
    const first = place(note.declared.get(other)![0], other);
    add(entry, { span: spanOf(entry, name), code: "name.lookAlike", name, other, first });
  });
}

/** Whether a name has letters that could be taken for others. */
function hasLookAlikes(note: Note): boolean {
  for (const name of note.declared.keys()) if (lookAlikeKey(name) !== name) return true;
  return false;
}

/** Visits each name of a note with its first entry, in the order of the text; those of one statement as they are written. */
function eachFirstPlace(note: Note, visit: (entry: Entry, name: string) => void): void {
  const visitFirst = (entry: Entry, name: string) => {
    if (note.declared.get(name)?.[0] === entry) visit(entry, name);
  };
  note.eachEntry((entry) => {
    const { name } = entry;
    if (name !== undefined) visitFirst(entry, name);
    else for (const each of new Set(declaredNames(entry.statement).map((one) => one.name))) visitFirst(entry, each);
  });
}

function spanOf(entry: Entry, name: string): { start: number; end: number } {
  const { statement } = entry;
  const found = declaredNames(statement).filter((declared) => declared.name === name);
  return statement.tree.span(found[found.length - 1].node);
}

function place(entry: Entry, name: string): Place {
  return { path: entry.note.path, statement: entry.statement, span: spanOf(entry, name) };
}

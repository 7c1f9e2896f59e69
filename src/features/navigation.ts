import { declarationsOf, referenceAt, referencesTo } from "../engine/referent";
import type { Snapshot } from "../engine/snapshot";
import type { Location, Notes } from "./feature";

/** Where the word at a place is defined: in this note, in one that it uses, or at the beginning of the note that it names. */
export function definition(snapshot: Snapshot, offset: number, notes: Notes): Location | undefined {
  const referent = referenceAt(snapshot, offset, notes)?.referent;
  switch (referent?.kind) {
    case "note":
      return notes.get(referent.path) && { path: referent.path, span: { start: 0, end: 0 } };
    case "bound": {
      const { path, row, binder } = referent;
      const home = notes.get(path);
      return home && { path, span: home.spanOf(row, row.statement.tree.span(binder)) };
    }
    case "defined": {
      const { path, row, name } = referent;
      const home = notes.get(path);
      const place = home && declarationsOf(home, row).find((declared) => declared.name === name);
      return place && { path, span: place.span };
    }
    case "row": {
      const { path, row, index } = referent;
      const home = notes.get(path);
      const node = row.statement.kind === "table" ? row.statement.rows[index] : undefined;
      return home && node !== undefined ? { path, span: home.spanOf(row, row.statement.tree.span(node)) } : undefined;
    }
    default:
      return undefined;
  }
}

/** Where the word at a place stands for the same thing in the notes held, its definition included. */
export function references(snapshot: Snapshot, offset: number, notes: Notes): readonly Location[] {
  const reference = referenceAt(snapshot, offset, notes);
  return reference ? referencesTo(reference.referent, notes) : [];
}

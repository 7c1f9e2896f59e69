import type { Entry } from "./entry";
import { withOneMore } from "./entryLists";
import type { Note } from "./note";

const NONE: readonly never[] = [];

/** What the names that an entry mentions lead to, collected while they are looked up; for one entry after the other. */
export class Links {
  /** The entries that it rests on, each once, in the order in which they are met. */
  dependencies: readonly Entry[] = NONE;
  /** The names of other notes, and of tables, under which it was registered. */
  foreign: readonly { readonly note: Note; readonly name: string }[] = NONE;
  private entry!: Entry;

  begin(entry: Entry): void {
    this.entry = entry;
    this.dependencies = this.foreign = NONE;
  }

  readonly depend = (found: Entry | undefined): void => {
    if (found && !this.dependencies.includes(found)) this.dependencies = withOneMore(this.dependencies, found);
  };

  readonly register = (note: Note, name: string): void => {
    note.addMention(name, this.entry);
    this.foreign = withOneMore(this.foreign, { note, name });
  };
}

import { columnName, type Entry } from "./entry";
import type { Note } from "./note";
import { pathOf } from "./paths";
import { tableFileName, usedPath } from "./uses";

/** What names mean: in their own note, behind the alias of another, in a table, of a part. It finds entries and changes none. */
export class Lookup {
  constructor(private readonly notes: ReadonlyMap<string, Note>) {}

  /** The entry that a name means in the note of another. */
  find(from: Entry, name: string): Entry | undefined {
    return from.note.declared.get(name)?.[0];
  }

  noteUsedBy(use: Entry): Note | undefined {
    const path = usedPath(use);
    return path === undefined ? undefined : this.notes.get(path);
  }

  /** The entry of the note that a `use` statement names. */
  member(use: Entry, name: string): Entry | undefined {
    return this.noteUsedBy(use)?.declared.get(name)?.[0];
  }

  /** The table that a `use` statement names, where it names a file that is one. */
  tableUsedBy(use: Entry): Entry | undefined {
    const note = this.noteUsedBy(use);
    return note?.isTable ? note.declared.get(tableFileName(note.path))?.[0] : undefined;
  }

  /** The measurement that stands instead of an assumption: the one with the latest date, else the last written. */
  replacementOf(entry: Entry): Entry | undefined {
    const { name, note } = entry;
    return name !== undefined && this.find(entry, name) === entry ? note.replacements.get(name)?.at(-1) : undefined;
  }

  /** A column of a table, by the table's head. */
  column(table: Entry, name: string): Entry | undefined {
    return table.note.declared.get(columnName(table.name ?? "", name))?.find((column) => column.table === table);
  }

  /** The column that a name with a dot means in the note of an entry: of the entry's own table, or of the first of that name. */
  columnFor(from: Entry, name: string): Entry | undefined {
    const table = name.slice(0, name.indexOf("."));
    const own = from.table?.name === table ? from.table : this.find(from, table);
    return from.note.declared.get(name)?.find((column) => column.table === own);
  }

  /** The names of a table's columns, in the order of the text. */
  columnsOf(table: Entry): readonly string[] {
    const columns = [...table.note.declared.values()].flatMap((entries) => entries.filter((e) => e.table === table));
    const inOrder = columns.sort((a, b) => a.order - b.order).map(({ statement }) => statement);
    return [
      ...new Set(
        inOrder.flatMap((statement) => (statement.kind === "column" ? [statement.tree.text(statement.name)] : [])),
      ),
    ];
  }

  /**
   * Follows the names behind an entry's name and a dot: the quantities of another note, the columns of a table or of a part.
   * @param from who follows them; a column does not depend on itself, for its cells may use each other
   * @param register is told of every name that is looked up in a note, found or not
   */
  follow(
    from: Entry,
    found: Entry,
    names: readonly string[],
    register: (note: Note, name: string) => void,
    depend: (found: Entry | undefined) => void,
  ): void {
    const other = found.statement.kind === "use" ? this.noteUsedBy(found) : undefined;
    if (other?.isTable) {
      const name = tableFileName(other.path);
      register(other, name);
      const head = other.declared.get(name)?.[0];
      depend(head);
      if (head) this.follow(from, head, names, register, depend);
      return;
    }
    if (other && names.length > 0) this.followInto(from, other, names, register, depend);
    const table = found.statement.kind === "table" ? found : this.tableOfPart(found, register);
    if (!table) return;
    for (const name of names) {
      register(table.note, columnName(table.name ?? "", name));
      const column = this.column(table, name);
      if (column !== from) depend(column);
    }
  }

  /** As {@link follow}, from the first name of a note on. */
  followInto(
    from: Entry,
    note: Note,
    [first, ...others]: readonly string[],
    register: (note: Note, name: string) => void,
    depend: (found: Entry | undefined) => void,
  ): void {
    register(note, first);
    const next = note.declared.get(first)?.[0];
    depend(next);
    if (next && others.length > 0) this.follow(from, next, others, register, depend);
  }

  /** The table whose row is chosen as a part. */
  private tableOfPart({ statement, note }: Entry, register: (note: Note, name: string) => void): Entry | undefined {
    if (statement.kind !== "choice") return undefined;
    const { tree, value, text } = statement;
    const path = pathOf(tree, value, text);
    if (!path) return undefined;
    register(note, tree.text(path.base));
    let found = note.declared.get(tree.text(path.base))?.[0];
    for (const { name, isKey } of path.steps) {
      const other = found?.statement.kind === "use" && !isKey ? this.noteUsedBy(found) : undefined;
      if (!other) break;
      const wanted = other.isTable ? tableFileName(other.path) : name;
      register(other, wanted);
      found = other.declared.get(wanted)?.[0];
    }
    return found?.statement.kind === "table" ? found : undefined;
  }
}

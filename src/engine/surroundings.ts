import type { Node } from "../syntax/tree";
import type { Surroundings } from "./compile";
import type { Entry } from "./entry";
import { chapterPath } from "./handbook";
import type { ReadResult } from "./library";
import type { Literal } from "./literal";
import type { LiteralSlots } from "./literalSlots";
import type { Lookup } from "./lookup";
import type { Parts } from "./parts";
import type { Piece } from "./piece";
import { probe, type Probed } from "./probe";
import type { Program } from "./program";
import { declaresItems } from "./tableUsers";
import type { Code, Slots } from "./tape";

/** The notes of a program, as the compiler sees them. */
export class NotesAround implements Surroundings {
  /** The entry that is compiled: it hears when what it was told changes. */
  compiling?: Entry;
  readonly slots: Slots;

  constructor(
    private readonly program: Program,
    private readonly literals: LiteralSlots,
    private readonly lookup: Lookup,
    private readonly unread: ReadonlyMap<string, ReadResult>,
  ) {
    this.slots = program.slots;
  }

  /** What only some notes need. Who asks before it is there is compiled again when it is. */
  get parts(): Parts | undefined {
    const { parts } = this.program;
    if (!parts && this.compiling) this.program.awaiting.add(this.compiling);
    return parts;
  }

  find(from: Entry, name: string): Entry | undefined {
    return this.lookup.find(from, name);
  }

  chapter(name: string): ReturnType<Surroundings["chapter"]> {
    const path = chapterPath(name);
    const note = this.program.notes.get(path);
    if (note) return { note };
    const unread = this.unread.get(path);
    return unread && "trouble" in unread ? { trouble: unread.detail || unread.trouble } : undefined;
  }

  member(use: Entry, name: string): Entry | undefined {
    return this.lookup.member(use, name);
  }

  tableUsedBy(use: Entry): Entry | undefined {
    return this.lookup.tableUsedBy(use);
  }

  column(table: Entry, name: string): Entry | undefined {
    return this.lookup.column(table, name);
  }

  columns(table: Entry): ReturnType<Surroundings["columns"]> {
    // A column that comes or goes is told to those who were told which there are.
    if (this.compiling) table.note.suggestions.listen(this.compiling);
    return this.lookup.columnsOf(table);
  }

  isRead(use: Entry): boolean {
    return this.lookup.noteUsedBy(use) !== undefined;
  }

  literalSlot(entry: Entry, node: Node, literal: Literal, name?: string, piece?: Piece): number {
    return this.literals.slotOf(entry, node, literal, name, piece);
  }

  probe(entry: Entry, code: Code, at: readonly number[], copied: readonly Entry[]): readonly Probed[] {
    return probe(this.program, this.parts, entry, code, at, copied);
  }

  replacementOf(entry: Entry): Entry | undefined {
    return this.program.replacementOf(entry);
  }

  constantSlot(value: number, of?: "table"): number {
    return this.literals.constant(this.compiling!, value, of);
  }

  isCounted(entry: Entry, name: string): boolean {
    const { note } = entry;
    return declaresItems(note, name) || (note.isTable && this.program.tableUsers.count(note.path, name));
  }

  suggest(entry: Entry, name: string, wanted: "quantity" | "function"): string | undefined {
    return entry.note.suggestions.ask(name, wanted, this.compiling ?? entry);
  }
}

import type { Block, CalculationBlock } from "../note/block";
import { rescan, scan } from "../note/scan";
import { parseStatement } from "../syntax/parse";
import { splitStatements } from "../syntax/split";
import type { Statement } from "../syntax/statement";
import { Arena } from "../syntax/tree";
import { applyEdits, type Edit } from "../text/edit";
import type { Entry } from "./entry";

/** The statements of one calculation block, with where each begins, counted from the block. */
export interface BlockContent {
  readonly starts: readonly number[];
  readonly entries: readonly Entry[];
}

/** What an edit did to the statements of a note. */
export interface NoteChange {
  readonly added: readonly Entry[];
  readonly removed: readonly Entry[];
  /** Edited in place: the entry stays and defines the same name, its statement is a new one. */
  readonly replaced: readonly Entry[];
  /** Kept entries stand in another order than before. */
  readonly moved: boolean;
}

/** Makes and keeps entries for the note; the program gives each its number. */
export type MakeEntry = (statement: Statement) => Entry;

/**
 * A note as text, blocks and statements. An edit rescans the blocks around it, splits the calculation blocks that
 * changed, and parses the statements whose text is not already there.
 */
export class Note {
  text = "";
  blocks: readonly Block[] = [];
  /** Entries by the name they define; the first in the text is the one that counts. */
  readonly declared = new Map<string, Entry[]>();
  /** `measured … instead` by the name they replace. */
  readonly replacements = new Map<string, Entry[]>();
  /** All measurements. */
  readonly measurements = new Set<Entry>();
  /** Names with more than one entry, and perhaps some that had. */
  readonly doubled = new Set<string>();
  /** What unknown names were found likely to mean, until a name comes or goes. */
  readonly suggestions = new Map<string, { readonly name: string | undefined }>();
  /** A name came or went since the names were last judged. */
  namesChanged = false;
  /** When the names were last judged, there was something to say. */
  hasNameProblems = false;
  /** Entries, of this note and of others, that were told which name of this note an unknown one is likely to mean. */
  readonly guesses = new Set<Entry>();
  /** Entries, of this note and of others, that mention a name of this one: one alone, or a set. */
  private readonly mentionedBy = new Map<string, Entry | Set<Entry>>();
  private readonly contents = new Map<Block, BlockContent>();
  private arena = new Arena();
  /** Rows of the arena at which it is worth counting the living ones. */
  private compactAt = 0;

  constructor(
    readonly path: string,
    /** It stands open in the editor or was named for checking; else it is here because another note uses it. */
    public isOpen: boolean,
  ) {}

  /** All entries in the order of the text. */
  *entries(): Iterable<Entry> {
    for (const block of this.blocks) yield* this.contents.get(block)?.entries ?? [];
  }

  /** The entries that mention a name. */
  *mentions(name: string): Iterable<Entry> {
    const found = this.mentionedBy.get(name);
    if (found instanceof Set) yield* [...found];
    else if (found) yield found;
  }

  addMention(name: string, entry: Entry): void {
    const found = this.mentionedBy.get(name);
    if (found === undefined) this.mentionedBy.set(name, entry);
    else if (found instanceof Set) found.add(entry);
    else if (found !== entry) this.mentionedBy.set(name, new Set([found, entry]));
  }

  dropMention(name: string, entry: Entry): void {
    const found = this.mentionedBy.get(name);
    if (found === entry) this.mentionedBy.delete(name);
    else if (found instanceof Set && found.delete(entry) && found.size === 0) this.mentionedBy.delete(name);
  }

  content(block: Block): BlockContent | undefined {
    return this.contents.get(block);
  }

  setText(text: string, make: MakeEntry): NoteChange {
    this.text = text;
    return this.setBlocks(scan(text), make);
  }

  edit(edit: Edit, make: MakeEntry): NoteChange {
    this.text = applyEdits(this.text, [edit]);
    return this.setBlocks(rescan(this.blocks, edit, this.text), make);
  }

  private setBlocks(blocks: readonly Block[], make: MakeEntry): NoteChange {
    const kept = new Set(blocks);
    const gone: Entry[] = [];
    for (const block of this.blocks) {
      if (kept.has(block)) continue;
      gone.push(...(this.contents.get(block)?.entries ?? []));
      this.contents.delete(block);
    }
    this.blocks = blocks;
    const fresh: { block: CalculationBlock; text: string }[] = [];
    let start = 0;
    for (const block of blocks) {
      if (block.kind === "calculation" && !this.contents.has(block))
        fresh.push({ block, text: this.text.slice(start, start + block.length) });
      start += block.length;
    }
    const change = this.fill(fresh, gone, make);
    if (change.moved || change.added.length > 0 || change.removed.length > 0) this.number();
    this.compact();
    return change;
  }

  /** Places the statements of the new blocks: the same text keeps its entry, the same name its entry with a new statement. */
  private fill(
    fresh: readonly { block: CalculationBlock; text: string }[],
    gone: readonly Entry[],
    make: MakeEntry,
  ): NoteChange {
    const slices = fresh.map(({ block, text }) =>
      splitStatements(text, block.lines).map(({ start, end }) => ({ start, text: text.slice(start, end) })),
    );
    const matched = matchInOrder(
      gone,
      slices.flat().map(({ text }) => text),
    );
    const kept = new Set(matched);
    const unused = gone.filter((entry) => !kept.has(entry));
    const added: Entry[] = [];
    const replaced: Entry[] = [];
    let moved = false;
    let last = -1;
    const keep = (entry: Entry): Entry => {
      moved ||= entry.order < last;
      last = entry.order;
      return entry;
    };
    let next = 0;
    fresh.forEach(({ block }, i) => {
      const entries = slices[i].map(({ text }) => {
        const same = matched[next++];
        if (same) return keep(same);
        const statement = parseStatement(this.arena, text);
        const at = unused.findIndex((entry) => continues(entry.statement, statement));
        if (at < 0) {
          const entry = make(statement);
          added.push(entry);
          return entry;
        }
        const [entry] = unused.splice(at, 1);
        replaced.push(entry);
        entry.statement = statement;
        return keep(entry);
      });
      this.contents.set(block, { starts: slices[i].map(({ start }) => start), entries });
    });
    return { added, removed: unused, replaced, moved };
  }

  private number(): void {
    let order = 0;
    for (const block of this.blocks) for (const entry of this.contents.get(block)?.entries ?? []) entry.order = order++;
  }

  /** Moves the living trees to a new arena when most of the old one is dead. */
  private compact(): void {
    if (this.arena.count < this.compactAt) return;
    const ROOM = 4096;
    let living = 0;
    for (const entry of this.entries()) living += entry.statement.tree.count;
    this.compactAt = 2 * living + ROOM;
    if (this.arena.count < this.compactAt) return;
    const arena = new Arena();
    for (const entry of this.entries()) entry.statement.tree.moveTo(arena);
    this.arena = arena;
  }
}

/**
 * For each new text the old entry with the same text, or nothing: a common head and tail first, so that of equal lines
 * each keeps its own; what lies between by text, in order.
 */
function matchInOrder(old: readonly Entry[], texts: readonly string[]): (Entry | undefined)[] {
  const result: (Entry | undefined)[] = texts.map(() => undefined);
  const shorter = Math.min(old.length, texts.length);
  let head = 0;
  while (head < shorter && old[head].statement.text === texts[head]) {
    result[head] = old[head];
    head++;
  }
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail].statement.text === texts[texts.length - 1 - tail]) {
    result[texts.length - 1 - tail] = old[old.length - 1 - tail];
    tail++;
  }
  const waiting = new Map<string, Entry[]>();
  for (const entry of old.slice(head, old.length - tail)) {
    const list = waiting.get(entry.statement.text);
    if (list) list.push(entry);
    else waiting.set(entry.statement.text, [entry]);
  }
  for (let i = head; i < texts.length - tail; i++) result[i] = waiting.get(texts[i])?.shift();
  return result;
}

/** Whether a statement is the old one edited: it defines the same name the same way, so that those who use it need not look again. */
function continues(old: Statement, fresh: Statement): boolean {
  if (old.kind !== fresh.kind) return false;
  switch (fresh.kind) {
    case "given":
    case "assume":
    case "over":
    case "derived":
    case "choice":
    case "order":
      return "name" in old && old.name !== undefined && old.tree.text(old.name) === fresh.tree.text(fresh.name);
    default:
      return false;
  }
}

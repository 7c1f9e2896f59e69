import type { Block } from "../note/block";
import type { CellLines } from "../note/cellLines";
import { rescan, scan } from "../note/scan";
import { parseStatement } from "../syntax/parse";
import { splitStatements } from "../syntax/split";
import type { Statement } from "../syntax/statement";
import { Arena, Kind } from "../syntax/tree";
import { applyEdits, type Edit } from "../text/edit";
import { definedName, type Entry } from "./entry";
import type { Parts } from "./parts";
import { csvSources, tableSources, type Source } from "./tableSources";
import { editedPart, joined, type EditedPart } from "./blockEdit";
import { isTableFile, tableFileName } from "./uses";
import type { Span } from "../text/span";
import { Suggestions } from "./suggestions";

/** The statements of one block, with where each begins, counted from the block. */
export interface BlockContent {
  readonly starts: readonly number[];
  readonly entries: readonly Entry[];
  /** Of the parts of data tables: where their cells stand, counted from the block. */
  readonly lines?: readonly (CellLines | undefined)[];
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

/** A block that was not there before, and what its statements are read from; after an edit in it, those of a part. */
interface FreshBlock {
  readonly block: Block;
  readonly sources: readonly Source[];
  readonly part?: EditedPart;
}

/** Makes and keeps entries for the note; the program gives each its number. */
export type MakeEntry = (statement: Statement, source: string, table?: Entry) => Entry;

/**
 * A note as text, blocks and statements. An edit rescans the blocks around it, splits the calculation blocks that
 * changed, and parses the statements whose text is not already there.
 */
export class Note {
  text = "";
  blocks: readonly Block[] = [];
  /** Entries by the name they define; the first in the text is the one that counts. */
  readonly declared = new Map<string, Entry[]>();
  /** `measured … instead` by the name they replace; the one that counts is the last. */
  readonly replacements = new Map<string, Entry[]>();
  /** All correlations. */
  readonly correlations = new Set<Entry>();
  /** Those that hold, by the entries that they are of, when they were last judged. */
  correlated = "";
  /** All measurements. */
  readonly measurements = new Set<Entry>();
  /** Names with more than one entry, and perhaps some that had. */
  readonly doubled = new Set<string>();
  /** What its unknown names are likely to mean. */
  readonly suggestions = new Suggestions(this.declared);
  /** A name came or went since the names were last judged. */
  namesChanged = false;
  /** When the names were last judged, there was something to say. */
  hasNameProblems = false;
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
    private readonly parts: () => Parts | undefined,
  ) {}

  /** All entries in the order of the text. */
  *entries(): Iterable<Entry> {
    for (const block of this.blocks) yield* this.contents.get(block)?.entries ?? [];
  }

  /** Visits all entries in the order of the text: what {@link entries} does, in a third of the time. */
  eachEntry(visit: (entry: Entry) => void): void {
    for (const block of this.blocks) {
      const entries = this.contents.get(block)?.entries;
      if (entries) for (const entry of entries) visit(entry);
    }
  }

  /** The entries that touch these spans. */
  *entriesIn(spans: readonly Span[]): Iterable<Entry> {
    const isIn = (from: number, to: number) => spans.some(({ start, end }) => start <= to && from <= end);
    let start = 0;
    for (const block of this.blocks) {
      const content = isIn(start, start + block.length) ? this.contents.get(block) : undefined;
      for (let i = 0; content && i < content.entries.length; i++) {
        const from = start + content.starts[i];
        if (isIn(from, from + content.entries[i].statement.text.length)) yield content.entries[i];
      }
      start += block.length;
    }
  }

  /** Visits the entries that mention a name. */
  eachMention(name: string, visit: (entry: Entry) => void): void {
    const found = this.mentionedBy.get(name);
    if (found instanceof Set) for (const entry of found) visit(entry);
    else if (found) visit(found);
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

  /** It is a CSV file: one table. */
  get isTable(): boolean {
    return isTableFile(this.path);
  }

  private sourcesOf(block: Block, text: string): readonly Source[] {
    if (!this.isTable) return sourcesOf(block, text);
    const parts = this.parts();
    if (!parts) throw new Error(`${this.path} was opened before what reads tables was there.`);
    return csvSources(parts.readCsvTable(text, tableFileName(this.path)));
  }

  content(block: Block): BlockContent | undefined {
    return this.contents.get(block);
  }

  setText(text: string, make: MakeEntry): NoteChange {
    this.text = text;
    return this.setBlocks(this.isTable ? wholeFile(text) : scan(text), make);
  }

  edit(edit: Edit, make: MakeEntry): NoteChange {
    this.text = applyEdits(this.text, [edit]);
    if (this.isTable) return this.setBlocks(wholeFile(this.text), make);
    const blocks = rescan(this.blocks, edit, this.text);
    return this.setBlocks(blocks, make, editedPart(this.blocks, blocks, edit, this.text, this.contents));
  }

  /** @param part of an edit in one calculation block: what it can have changed there */
  private setBlocks(blocks: readonly Block[], make: MakeEntry, part?: EditedPart): NoteChange {
    const kept = new Set(blocks);
    const gone: Entry[] = [];
    for (const block of this.blocks) {
      if (kept.has(block)) continue;
      const entries = this.contents.get(block)?.entries ?? [];
      for (const entry of block === part?.old ? entries.slice(part.from, part.to) : entries) gone.push(entry);
      this.contents.delete(block);
    }
    this.blocks = blocks;
    const fresh: FreshBlock[] = [];
    let start = 0;
    for (const block of blocks) {
      const isNew = !this.contents.has(block) && (block.kind === "calculation" || block.tables.length > 0);
      if (isNew) {
        const text = this.text.slice(start, start + block.length);
        if (block === part?.block) fresh.push({ block, sources: calculations(text, part.spans), part });
        else fresh.push({ block, sources: this.sourcesOf(block, text) });
      }
      start += block.length;
    }
    const change = this.fill(fresh, gone, make);
    if (change.moved || change.added.length > 0 || change.removed.length > 0) this.number();
    this.compact();
    return change;
  }

  /** Places the statements of the new blocks: the same text keeps its entry, the same name its entry with a new statement. */
  private fill(fresh: readonly FreshBlock[], gone: readonly Entry[], make: MakeEntry): NoteChange {
    const matched = matchInOrder(
      gone,
      fresh.flatMap(({ sources }) => sources.map(({ source }) => source)),
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
    fresh.forEach(({ block, sources, part }) => {
      let head: Entry | undefined;
      if (part && part.above.entries.length > 0) keep(part.above.entries.at(-1)!);
      const entries = sources.map((each) => {
        const { source, part } = each;
        const table = part === "column" ? head : undefined;
        const same = matched[next++];
        if (same && same.table === table) return ((head = part === "head" ? same : head), keep(same));
        if (same) unused.push(same);
        const statement = each.parse(this.arena);
        const at = unused.findIndex((entry) => entry.table === table && continues(entry.statement, statement));
        if (at < 0) {
          const entry = make(statement, source, table);
          added.push(entry);
          return ((head = part === "head" ? entry : head), entry);
        }
        const [entry] = unused.splice(at, 1);
        replaced.push(entry);
        entry.statement = statement;
        entry.source = source;
        return ((head = part === "head" ? entry : head), keep(entry));
      });
      if (part) {
        const [first] = part.below.entries;
        if (first) keep(first);
        last = part.below.entries.at(-1)?.order ?? last;
      }
      const starts = sources.map(({ start }) => start);
      if (part) this.contents.set(block, joined(part, starts, entries));
      else if (sources.length > 0)
        this.contents.set(block, {
          starts,
          entries,
          ...(sources.some(({ lines }) => lines) ? { lines: sources.map(({ lines }) => lines) } : {}),
        });
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
    this.eachEntry((entry) => (living += entry.statement.tree.count));
    this.compactAt = 2 * living + ROOM;
    if (this.arena.count < this.compactAt) return;
    const arena = new Arena();
    this.eachEntry((entry) => entry.statement.tree.moveTo(arena));
    this.arena = arena;
  }
}

/** The one block that a file of another kind is. */
function wholeFile(text: string): readonly Block[] {
  if (text === "") return [];
  const none: readonly never[] = [];
  const tables = [{ start: 0, end: text.length }];
  return [{ kind: "prose", length: text.length, headings: none, tasks: none, codeSpans: none, traps: none, tables }];
}

/** What the statements of a block are read from: of calculations its lines, of prose its data tables. */
function sourcesOf(block: Block, text: string): readonly Source[] {
  if (block.kind === "prose") return tableSources(text, block);
  return calculations(text, splitStatements(text, block.lines));
}

class Calculation implements Source {
  constructor(
    readonly source: string,
    readonly start: number,
  ) {}

  parse(arena: Arena): Statement {
    return parseStatement(arena, this.source);
  }
}

function calculations(text: string, spans: readonly Span[]): readonly Source[] {
  return spans.map(({ start, end }) => new Calculation(text.slice(start, end), start));
}

/**
 * For each new text the old entry with the same text, or nothing: a common head and tail first, so that of equal lines
 * each keeps its own; what lies between by text, in order.
 */
function matchInOrder(old: readonly Entry[], texts: readonly string[]): (Entry | undefined)[] {
  const result: (Entry | undefined)[] = texts.map(() => undefined);
  const shorter = Math.min(old.length, texts.length);
  let head = 0;
  while (head < shorter && old[head].source === texts[head]) {
    result[head] = old[head];
    head++;
  }
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail].source === texts[texts.length - 1 - tail]) {
    result[texts.length - 1 - tail] = old[old.length - 1 - tail];
    tail++;
  }
  const waiting = new Map<string, Entry[]>();
  for (const entry of old.slice(head, old.length - tail)) {
    const list = waiting.get(entry.source);
    if (list) list.push(entry);
    else waiting.set(entry.source, [entry]);
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
    case "order":
    case "table":
      return "name" in old && old.name !== undefined && old.tree.text(old.name) === fresh.tree.text(fresh.name);
    case "choice":
      // Which columns are meant by `Q.R_on` depends on the table that Q is chosen from.
      return (
        old.kind === "choice" &&
        fresh.tree.kind(fresh.value) === Kind.Literal &&
        old.tree.kind(old.value) === Kind.Literal &&
        old.tree.text(old.name) === fresh.tree.text(fresh.name)
      );
    case "column":
      return old.kind === "column" && old.table === fresh.table && definedName(old) === definedName(fresh);
    default:
      return false;
  }
}

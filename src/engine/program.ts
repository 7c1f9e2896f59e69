import { applyEdits, difference, type Edit } from "../text/edit";
import type { Span } from "../text/span";
import { forEachComponent } from "./components";
import { circleProblems } from "./circles";
import { knownBuilds } from "./builds";
import { compileEntry, without } from "./definition";
import { declaredNames, sameType, Entry } from "./entry";
import { dropFrom, dropOne, sortByDate, sortByOrder, withOneMore } from "./entryLists";
import { chapterAt, chapterMeant, chapterPath, ChapterReaders } from "./handbook";
import { judge, type JudgeContext } from "./judge";
import type { ReadResult } from "./library";
import { LiteralSlots } from "./literalSlots";
import { correlationsIn, judgeCorrelations } from "./correlatedInputs";
import { tiedNames, tieOf } from "./tiedInputs";
import { compareMeasurements } from "./measurements";
import { Lookup } from "./lookup";
import { mentionsOf } from "./mentions";
import { judgeNames } from "./names";
import { Note, type MakeEntry, type NoteChange } from "./note";
import type { Parts } from "./parts";
import { Links } from "./links";
import type { EngineProblem } from "./problem";
import { differsFromPieceToPiece } from "./instances";
import { Runner } from "./runner";
import { Remaining } from "./remaining";
import { coneDepthOf, isTooDeep } from "./search";
import { makeSnapshot, type Snapshot } from "./snapshot";
import type { TrialCount } from "./trialCount";
import { NotesAround } from "./surroundings";
import { TableUsers } from "./tableUsers";
import { Code, NO_RUN, Slots, Tape } from "./tape";
import { judgeAssumptions } from "./unused";
import { usedPath, usedPaths, usesOf, useTrouble } from "./uses";

const NO_NAMES: readonly string[] = [];

/** What a settling did, for tests: nothing else may depend on it. */
export interface Log {
  readonly compiled: string[];
  readonly run: string[];
}

/**
 * All notes that are open or used, compiled to one tape, and kept up to date edit by edit.
 *
 * An edit marks the entries that it touched as stale (to be resolved and compiled again) and all that rest on them as
 * dirty. {@link settle} visits the dirty ones, dependencies first: a stale one, or one whose dependencies changed their
 * type, is compiled; one whose dependencies changed their value is run; and what comes out equal stops the ripple.
 * Notes are one graph, so a quantity reached by two paths is one quantity.
 */
export class Program {
  readonly notes = new Map<string, Note>();
  readonly tape = new Tape();
  readonly slots = new Slots();
  readonly runner = new Runner(this.tape, this.slots);
  private readonly lookup = new Lookup(this.notes);
  private readonly literals = new LiteralSlots(this.slots);
  /** Set by tests. */
  log?: Log;
  /** How many trials are made of the rules of a note. Where that is changed, {@link retryBuilds} is to be called. */
  trialsFor: (path: string) => TrialCount = () => "adaptive";

  private revision = 1;
  private readonly code = new Code();
  private readonly byId: (Entry | undefined)[] = [];
  private readonly freeIds: number[] = [];
  private readonly dirty = new Set<Entry>();
  /** Names that came, went or mean another entry, by the note that defines them. */
  private readonly changedNames = new Map<Note, Set<string>>();
  /** Dependents of dirty entries have to be marked before settling. */
  private readonly frontier: Entry[] = [];
  private readonly unread = new Map<string, ReadResult>();
  private readonly surroundings = new NotesAround(this, this.literals, this.lookup, this.unread);
  readonly chapters = new ChapterReaders();
  readonly tableUsers = new TableUsers();
  private readonly links = new Links();
  private graphChanged = false;
  /** What the last update left to be worked out. */
  readonly remaining = new Remaining(this);
  private readonly snapshots = new Map<string, Snapshot>();

  /** Entries that cannot be compiled before what only some notes need is there. */
  readonly awaiting = new Set<Entry>();

  /** @param parts what only some notes need; it may come later, by {@link takeParts} */
  constructor(public parts: Parts | undefined) {}

  /** What only some notes need is there: who asked for it is compiled by the next update. */
  takeParts(parts: Parts): void {
    this.parts ??= parts;
    for (const entry of this.awaiting) this.invalidate(entry);
    this.awaiting.clear();
  }

  /** Opens a note, or gives an open one a new text. */
  setText(path: string, text: string, isOpen = true): void {
    const known = this.notes.get(path);
    const note = known ?? new Note(path, isOpen, () => this.parts);
    note.isOpen ||= isOpen;
    if (known && known.text === text) return;
    this.notes.set(path, note);
    this.unread.delete(path);
    this.apply(note, note.setText(text, this.makeIn(note)));
    if (!known) this.noteArrived(path);
  }

  /** Edits an open note; the span is in the text before. */
  edit(path: string, edit: Edit): void {
    const note = this.notes.get(path);
    if (!note) throw new Error(`The note ${path} is not open.`);
    this.apply(note, note.edit(edit, this.makeIn(note)));
  }

  /** Forgets a note, or that there is none. What uses it waits until it is opened or provided again. */
  close(path: string): void {
    const note = this.notes.get(path);
    if (!note) {
      if (this.unread.delete(path)) this.noteArrived(path);
      return;
    }
    for (const entry of [...note.entries()]) this.remove(entry);
    this.notes.delete(path);
    this.snapshots.delete(path);
    this.noteArrived(path);
  }

  /** Says what the library has for a path that {@link wanted} asked for. */
  provide(path: string, result: ReadResult): void {
    if ("text" in result) return this.setText(path, result.text, false);
    this.unread.set(path, result);
    this.noteArrived(path);
  }

  /** The paths of notes that are used, and of chapters that are mentioned, that are neither open nor asked for yet. */
  wanted(): string[] {
    const chapters = [...this.chapters.wanted()].map(chapterPath);
    const isKnown = (path: string) => this.notes.has(path) || this.unread.has(path);
    return [...new Set([...chapters, ...usedPaths(this.notes.values())])].filter((path) => !isKnown(path));
  }

  /** Brings every entry up to date, and finds every range that has to be searched for. */
  settle(): void {
    this.update();
    this.search(() => false);
  }

  /** Whether there is no range left to be searched for, and no share of builds to be found. */
  get isSettled(): boolean {
    return this.remaining.isDone;
  }

  /** Searches for ranges after an {@link update}, then for shares of builds, until all are found or it is told that it is time to pause. */
  search(isTimeToPause: () => boolean): void {
    if (this.isSettled) return;
    this.remaining.work(isTimeToPause);
    if (this.isSettled) for (const note of this.notes.values()) compareMeasurements(this, note);
  }

  /** Somebody looks at these spans of a note: what is to be searched there comes first. */
  lookAt(path: string, spans: readonly Span[]): void {
    const note = this.isSettled ? undefined : this.notes.get(path);
    if (note) this.remaining.prefer(note.entriesIn(spans));
  }

  /** Tries the builds anew of rules of all notes: of those that were stopped, or where the number of trials is another one, of all. */
  retryBuilds(which: "stopped" | "all"): void {
    for (const note of this.notes.values()) this.remaining.retry(note.entries(), which);
  }

  /** Something was found out about an entry. What is wrong with a range is told by the run at hand. */
  judgeAgain(entry: Entry): void {
    this.runner.run(entry.code);
    this.setOutcome(entry);
  }

  /** Brings every entry up to date, but for ranges that have to be searched for: those are marked as pending. */
  update(): void {
    this.spreadNames();
    this.spread();
    const waiting = [...this.dirty];
    for (const entry of waiting) if (entry.stale) this.resolve(entry);
    // Most names are used below their definition, so in that order most entries find all they need up to date.
    const later = waiting.filter((entry) => !this.updateAtOnce(entry));
    if (later.length > 0) {
      const next = (entry: Entry) => entry.dependencies.filter((dependency) => dependency.dirty);
      forEachComponent(later, next, (component) => this.updateComponent(component));
    }
    this.dirty.clear();
    this.literals.giveBackReleased();
    if (this.graphChanged || waiting.length > 0) this.judgeNotes();
    this.revision++;
  }

  /** The state of a settled note. The same object as before where nothing changed. */
  snapshot(path: string): Snapshot | undefined {
    const note = this.notes.get(path);
    if (note) this.snapshots.set(path, makeSnapshot(note, this.snapshots.get(path)));
    return this.snapshots.get(path);
  }

  /**
   * What would be, were a note edited so: the edits are applied, the notes settled, in so many slices at the most, looked at,
   * and put back. Nothing of the looking may be kept but plain data, snapshots, and {@link remainingOfUpdate}.
   */
  whatIf<T>(path: string, edits: readonly Edit[], look: () => T, mostSlices = Infinity): T {
    const before = this.notes.get(path)?.text;
    if (before === undefined) throw new Error(`The note ${path} is not open.`);
    const after = applyEdits(before, edits);
    const wasSettled = this.isSettled;
    const builds = knownBuilds(this.notes.values());
    this.remaining.isTrying = true;
    this.edit(path, difference(before, after));
    try {
      this.update();
      this.searchSlices(mostSlices);
      return look();
    } finally {
      this.remaining.isTrying = false;
      this.edit(path, difference(after, before));
      this.update();
      // The same text has the same figures.
      this.remaining.restore(builds, (entry) => this.byId[entry.id] === entry);
      // What was found before is known, and costs little to find again.
      if (wasSettled) this.searchSlices(mostSlices);
    }
  }

  /**
   * What remains to be worked out of what the last update changed, as runs on copies: they can be gone on with whatever
   * is edited meanwhile, and once they are done, the same notes are settled at once.
   */
  remainingOfUpdate(): readonly Generator<unknown, unknown>[] {
    return this.remaining.copies(({ coneChanged }) => coneChanged === this.revision - 1);
  }

  private searchSlices(most: number): void {
    const end = this.remaining.slices + most;
    this.search(() => this.remaining.slices >= end);
  }

  private makeIn(note: Note): MakeEntry {
    return (statement, source, table) => {
      const id = this.freeIds.pop() ?? this.byId.length;
      return (this.byId[id] = new Entry(id, note, statement, source, table));
    };
  }

  /** The uncertain literal behind a slot, as its readers are told of it. */
  readonly inputPlace = (slot: number) => this.literals.inputAt(slot);

  entryById(id: number): Entry {
    return this.byId[id]!;
  }

  private apply(note: Note, change: NoteChange): void {
    for (const entry of change.removed) this.remove(entry);
    if (change.added.length > 0) this.graphChanged = true;
    // Who was told which names there are was told them in their order.
    if (change.moved && !this.changedNames.has(note)) this.changedNames.set(note, new Set());
    if (change.moved || (change.replaced.length > 0 && note.hasNameProblems)) note.namesChanged = true;
    if (change.replaced.some(({ unusedProblems }) => unusedProblems.length > 0)) this.graphChanged = true;
    // An entry that was edited in place defines the same name: those who use it look again only if its type changes.
    for (const entry of change.replaced) this.invalidate(entry);
    for (const entry of change.added) {
      this.declare(entry);
      this.invalidate(entry);
    }
    if (change.moved || change.added.length > 0 || change.removed.length > 0) this.putInOrder(note);
    // Inputs that are one variable look at each other's statements.
    for (const name of tiedNames(note)) this.invalidateDeclared(note, name);
  }

  /** A name doubled in the text belongs to its first place, which any insertion can change. */
  private putInOrder(note: Note): void {
    for (const name of note.doubled) {
      const entries = note.declared.get(name) ?? [];
      if (entries.length < 2) note.doubled.delete(name);
      else if (sortByOrder(entries)) this.nameChanged(note, name);
    }
    for (const [name, entries] of note.replacements) if (sortByDate(entries)) this.invalidateDeclared(note, name);
  }

  private declare(entry: Entry): void {
    const { note, statement } = entry;
    for (const { name } of declaredNames(statement)) {
      const list = note.declared.get(name);
      if (list) {
        list.push(entry);
        note.doubled.add(name);
      } else note.declared.set(name, [entry]);
      this.nameChanged(note, name);
    }
    this.recount(this.tableUsers.add(entry));
    if (statement.kind === "correlation") note.correlations.add(entry);
    if (statement.kind === "measured") note.measurements.add(entry);
    if (statement.kind === "measured" && statement.instead) {
      const name = statement.tree.text(statement.name);
      const list = note.replacements.get(name);
      if (list) list.push(entry);
      else note.replacements.set(name, [entry]);
      this.invalidateDeclared(note, name);
    }
  }

  private undeclare(entry: Entry): void {
    const { note, statement } = entry;
    for (const { name } of declaredNames(statement)) {
      dropFrom(note.declared, name, entry);
      this.nameChanged(note, name);
    }
    this.recount(this.tableUsers.drop(entry));
    if (note.correlations.delete(entry) && statement.kind === "correlation")
      for (const node of [statement.first, statement.second]) this.invalidateDeclared(note, statement.tree.text(node));
    note.measurements.delete(entry);
    if (statement.kind === "measured" && statement.instead) {
      const name = statement.tree.text(statement.name);
      dropFrom(note.replacements, name, entry);
      this.invalidateDeclared(note, name);
    }
  }

  private remove(entry: Entry): void {
    this.undeclare(entry);
    for (const dependent of entry.dependents) this.invalidate(dependent);
    this.unlink(entry);
    this.unregister(entry);
    this.tape.giveBack(entry.code);
    this.slots.giveBack(entry.results);
    this.slots.giveBack(entry.checked);
    this.literals.release(entry);
    this.remaining.drop(entry);
    this.dirty.delete(entry);
    this.byId[entry.id] = undefined;
    this.freeIds.push(entry.id);
    this.graphChanged = true;
  }

  private readonly invalidateEntry = (entry: Entry): void => this.invalidate(entry);

  private invalidate(entry: Entry): void {
    if (this.byId[entry.id] !== entry) return;
    entry.stale = true;
    this.soil(entry);
  }

  private soil(entry: Entry): void {
    if (entry.dirty && this.dirty.has(entry)) return;
    entry.dirty = true;
    this.dirty.add(entry);
    this.frontier.push(entry);
  }

  /** A name came, went or means another entry. Who is to look again is worked out once for all changes, in {@link spreadNames}. */
  private nameChanged(note: Note, name: string): void {
    const names = this.changedNames.get(note);
    if (names) names.add(name);
    else this.changedNames.set(note, new Set([name]));
    note.namesChanged = true;
  }

  /** Marks those who mention changed names, and those who define them: what replaces an assumption depends on which entry is meant. */
  private spreadNames(): void {
    for (const [note, names] of this.changedNames) {
      for (const name of names) {
        this.invalidateMentions(note, name);
        this.invalidateDeclared(note, name);
      }
      for (const path of this.tableUsers.usedBy(note)) this.recount(path, names);
      for (const entry of note.suggestions.changed(names)) this.invalidate(entry);
    }
    this.changedNames.clear();
  }

  /** What a file counts may have changed: all of it, or what these names mean there. */
  private recount(path: string | undefined, names?: Iterable<string>): void {
    const table = path === undefined ? undefined : this.notes.get(path);
    if (!names) for (const entry of table?.entries() ?? []) this.invalidate(entry);
    else if (table) for (const name of names) this.invalidateMentions(table, name);
  }

  private invalidateMentions(note: Note, name: string): void {
    note.eachMention(name, this.invalidateEntry);
  }

  private invalidateDeclared(note: Note, name: string): void {
    for (const entry of note.declared.get(name) ?? []) this.invalidate(entry);
  }

  /** A note came or went: whoever uses it looks again. */
  private noteArrived(path: string): void {
    const chapter = chapterAt(path);
    if (chapter !== undefined) return this.chapters.of(chapter).forEach((entry) => this.invalidate(entry));
    for (const use of usesOf(path, this.notes.values())) {
      this.invalidate(use);
      this.invalidateMentions(use.note, use.name ?? "");
    }
  }

  /** Marks all that rests on what is dirty. */
  private spread(): void {
    for (let entry = this.frontier.pop(); entry !== undefined; entry = this.frontier.pop())
      for (const dependent of entry.dependents) this.soil(dependent);
  }

  /** Looks up the names that an entry mentions, and registers it with each, so that it hears when one changes its meaning. */
  private resolve(entry: Entry): void {
    this.unregister(entry);
    entry.mentions = mentionsOf(entry.statement);
    const links = this.links;
    links.begin(entry);
    for (const { name, member, steps, use, unless } of entry.mentions) {
      entry.note.addMention(name, entry);
      if (use === "target") continue;
      const found = use === "column" ? this.lookup.columnFor(entry, name) : this.find(entry, name);
      // Behind a number `V` is the volt, whatever the note calls V; only what is counted is asked for there.
      if (use === "unit" && found?.statement.kind !== "items") continue;
      // What a column says of itself is its own business: its cells may use each other.
      if (found === entry && use === "column") continue;
      if (unless !== undefined && this.lookup.columnFor(entry, unless)) continue;
      const names = member === undefined ? NO_NAMES : [member, ...(steps ?? [])];
      const chapter = member === undefined ? undefined : chapterMeant(name, found?.statement);
      if (chapter !== undefined) {
        this.chapters.add(chapter, entry);
        const note = this.notes.get(chapterPath(chapter));
        if (note) this.lookup.followInto(entry, note, names, links.register, links.depend);
        continue;
      }
      links.depend(found);
      // A row of a file is named by a key alone.
      if (found && (names.length > 0 || found.statement.kind === "use"))
        this.lookup.follow(entry, found, names, links.register, links.depend);
    }
    links.depend(entry.table);
    if (entry.statement.kind === "assume") links.depend(this.replacementOf(entry));
    links.depend(tieOf(entry)?.root);
    if (links.foreign.length > 0) entry.foreign = links.foreign;
    this.link(entry, links.dependencies);
  }

  private link(entry: Entry, dependencies: readonly Entry[]): void {
    const before = entry.dependencies;
    if (before.length === dependencies.length && dependencies.every((dependency, i) => dependency === before[i]))
      return;
    this.unlink(entry);
    entry.dependencies = dependencies;
    for (const dependency of dependencies) dependency.dependents = withOneMore(dependency.dependents, entry);
    this.graphChanged = true;
  }

  private unlink(entry: Entry): void {
    for (const { dependents } of entry.dependencies) dropOne(dependents, entry);
    entry.dependencies = [];
  }

  private unregister(entry: Entry): void {
    for (const { name, member } of entry.mentions) {
      entry.note.dropMention(name, entry);
      if (member !== undefined) this.chapters.drop(name, entry);
    }
    for (const { note, name } of entry.foreign) note.dropMention(name, entry);
    entry.foreign = [];
  }

  find(from: Entry, name: string): Entry | undefined {
    return this.lookup.find(from, name);
  }

  noteUsedBy(use: Entry): Note | undefined {
    return this.lookup.noteUsedBy(use);
  }

  replacementOf(entry: Entry): Entry | undefined {
    return this.lookup.replacementOf(entry);
  }

  /** Brings an entry up to date if nothing that it rests on is still waiting. */
  private updateAtOnce(entry: Entry): boolean {
    for (const dependency of entry.dependencies) if (dependency.dirty) return false;
    this.updateOne(entry);
    return true;
  }

  /** Brings one entry up to date, or the members of a circle. */
  private updateComponent(component: readonly Entry[]): void {
    const [entry] = component;
    if (component.length > 1 || entry.dependencies.includes(entry)) {
      const problemOf = circleProblems(component);
      for (const member of component) this.breakCircle(member, problemOf(member));
      return;
    }
    this.updateOne(entry);
  }

  private updateOne(entry: Entry): void {
    let isRetyped = entry.stale || entry.isWatchful;
    let isMoved = false;
    for (const { typeChanged, valueChanged, coneChanged } of entry.dependencies) {
      isRetyped ||= typeChanged === this.revision;
      isMoved ||= valueChanged === this.revision;
      if (coneChanged === this.revision) entry.coneChanged = this.revision;
    }
    if (isRetyped || (isMoved && entry.readsValues)) this.compile(entry);
    const wasTooDeep = isTooDeep(entry);
    entry.coneDepth = coneDepthOf(entry);
    const restsOnCone = wasTooDeep !== isTooDeep(entry) || entry.isKnownByCone;
    if (isRetyped || isMoved || (restsOnCone && entry.coneChanged === this.revision)) this.run(entry);
    entry.differs = differsFromPieceToPiece(entry, this.slots);
    entry.dirty = false;
  }

  private compile(entry: Entry): void {
    this.log?.compiled.push(entry.statement.text);
    this.literals.release(entry);
    this.surroundings.compiling = entry;
    const definition = compileEntry(entry, this.surroundings, this.code, this.replacementOf(entry));
    if (entry.results.length !== definition.stores.length) {
      this.slots.giveBack(entry.results);
      entry.results = this.slots.take(definition.stores.length);
      entry.typeChanged = this.revision;
    }
    if (entry.checked.length !== definition.checked.length) {
      this.slots.giveBack(entry.checked);
      entry.checked = this.slots.take(definition.checked.length);
    }
    definition.checked.forEach(({ at, node }, i) => this.code.emit(0, node, entry.id, at, entry.checked.from + i));
    definition.stores.forEach(({ at, node }, i) => this.code.emit(0, node, entry.id, at, entry.results.from + i));
    if (!this.tape.holds(entry.code, this.code)) entry.coneChanged = this.revision;
    this.tape.giveBack(entry.code);
    entry.code = this.tape.append(this.code);
    if (
      !sameType(entry.type, definition.type) ||
      entry.unit?.text !== definition.unit?.text ||
      entry.step !== definition.step ||
      entry.statement.kind === "function"
    )
      entry.typeChanged = this.revision;
    entry.adopt(definition);
    entry.stale = false;
  }

  private run(entry: Entry): void {
    this.log?.run.push(entry.statement.text);
    const changed = entry.code.length > 0 && this.runner.run(entry.code);
    if (changed || entry.statement.kind === "function") entry.valueChanged = entry.coneChanged = this.revision;
    if (entry.coneChanged === this.revision) this.remaining.changed(entry);
    this.setOutcome(entry);
  }

  private setOutcome(entry: Entry): void {
    this.remaining.check(entry);
    entry.outcome = judge(entry, this.judgeContext, entry.outcome);
    this.remaining.judged(entry);
  }

  /** Members of a circle have no value. */
  private breakCircle(entry: Entry, problem: EngineProblem): void {
    this.literals.release(entry);
    this.tape.giveBack(entry.code);
    this.slots.giveBack(entry.results);
    this.slots.giveBack(entry.checked);
    entry.code = entry.results = entry.checked = NO_RUN;
    // Who calls a function compiles its body, of whatever type it is.
    if (entry.type.kind !== "none" || entry.statement.kind === "function") entry.typeChanged = this.revision;
    entry.adopt(without(problem));
    entry.differs = false;
    entry.builds = entry.found = undefined;
    this.remaining.drop(entry);
    // Whatever becomes of the circle, its members are compiled again: they have no code, and a problem that may be gone.
    entry.stale = true;
    entry.dirty = false;
    this.setOutcome(entry);
  }

  /** What needs a view of the whole note: doubled names, measurements against predictions, assumptions that nobody needs. */
  private judgeNotes(): void {
    for (const note of this.notes.values()) {
      if (note.namesChanged) judgeNames(note);
      note.namesChanged = false;
      compareMeasurements(this, note);
    }
    // Shares of builds rest on correlations, and no value does.
    if (judgeCorrelations(this, this.notes.values())) this.retryBuilds("all");
    if (this.graphChanged) judgeAssumptions(this.notes.values());
    this.graphChanged = false;
  }

  /** The correlations among inputs of a cone, by their places in the list (JCGM 100, 5.2). */
  readonly correlationsAmong = correlationsIn(this);

  private readonly judgeContext: JudgeContext = {
    slots: this.slots,
    runner: this.runner,
    tape: this.tape,
    inputPlace: (slot) => this.inputPlace(slot),
    entryById: (id) => this.entryById(id),
    usedPath,
    useTrouble: (entry) => useTrouble(entry, (path) => (this.notes.has(path) ? undefined : this.unread.get(path))),
    isRead: (path) => this.notes.has(path),
  };
}

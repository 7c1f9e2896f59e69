import { coneOfSlot, coneWithin, type Cone, type ConeSource } from "./cone";
import type { Entry } from "./entry";
import { KnownRanges } from "./knownRanges";
import { Standing } from "./tape";
import type { Parts } from "./parts";
import type { SearchOptions, TrueRange } from "./trueRange";

/**
 * Tape operations that a search may spend on an end. They are counted, never timed, so that the same note gives the same
 * figures anywhere. An operation takes some 30 ns: a definition that is hard takes a few milliseconds, and a command line
 * that checks a hundred of them a second. What a rule needs is the sign of its margin, on which an order may hang: beyond
 * the first budget it is searched on only until that is known, for up to a fifth of a second.
 */
const OF_DEFINITION: SearchOptions = { budget: 100_000 };
const OF_RULE: SearchOptions = { budget: 2_000_000, budgetOnceSignProved: 100_000 };
/** A network has some values for each of its branches, which are shown at a glance. */
const OF_NETWORK: SearchOptions = { budget: 40_000 };
/** What many calls ask for, each by itself, has a few tenths of a millisecond. */
const SHORT = { budget: 6_000 };
/** What rests on more operations than this, each counted once, is left enclosed: copying it alone would be felt. */
const LARGEST_CONE = 2_000;
/** A rule of four rows has a slot for either side and one for their difference in each: so many results have a budget of their own. */
const RESULTS_WITH_A_BUDGET = 12;
/** Columns of a network that are longer than this, on each of which most of the network bears, are left enclosed. */
const MOST_OF_NETWORK = 64;
/** Operations between two looks at whether it is time to pause: a few tenths of a millisecond. */
const SLICE = 10_000;

/** What is searched, and what searches, once it is there. */
export interface SearchSource extends ConeSource {
  readonly parts?: Parts;
}

/** For each result of an entry what was found of its range; undefined where stage A had settled it. */
export type FoundRanges = readonly (TrueRange | undefined)[];

/** Operations along the longest way from an entry down to its inputs. Of a list each row has a way of its own. */
export function coneDepthOf({ code, results, dependencies }: Entry): number {
  let below = 0;
  for (const { coneDepth } of dependencies) if (coneDepth > below) below = coneDepth;
  return Math.min(below + (results.length > 1 ? 1 : code.length), LARGEST_CONE + 1);
}

/** Whether an entry surely rests on too much to be searched. What it rests on is counted only when it is its turn. */
export function isTooDeep({ coneDepth }: Entry): boolean {
  return coneDepth > LARGEST_CONE;
}

/** Whether an entry that was just run has a result whose range stage A left enclosed, or could not give. */
export function isToBeSearched({ slots }: ConeSource, entry: Entry): boolean {
  const { results, type, keeps } = entry;
  const count = shownResults(entry);
  if (isSolved(entry) && count > MOST_OF_NETWORK) return false;
  const isSearched =
    type.kind === "quantity" || type.kind === "rule" || (type.kind === "column" && type.of === "quantity");
  if (!isSearched || isTooDeep(entry)) return false;
  for (let i = 0; i < count; i++) if (i !== keeps && isOpen(slots, results.from + i)) return true;
  return false;
}

function isSolved({ statement }: Entry): boolean {
  return statement.kind === "column" && statement.solved !== undefined;
}

/** How many results are shown: behind those of a network's voltages there are others, which other columns show. */
function shownResults({ type, results }: Entry): number {
  return type.kind === "column" ? type.length : results.length;
}

/**
 * Searches a result of an entry at once as that of a definition, for who cannot go on without; undefined where there is no need,
 * or nothing yet that searches.
 */
export function searchResult(
  source: ConeSource,
  parts: Parts | undefined,
  entry: Entry,
  result: number,
): TrueRange | undefined {
  if (!parts || isTooDeep(entry) || !isOpen(source.slots, entry.results.from + result)) return undefined;
  const cone = coneWithin(source, entry, result, LARGEST_CONE);
  return cone && parts.trueRangeOfCone(cone, OF_DEFINITION);
}

/** Whether a slot has a value, and a range that is not known to be the true one. */
export function isOpen({ nominal, standing }: ConeSource["slots"], slot: number): boolean {
  if (Number.isNaN(nominal[slot])) return false;
  return standing[slot] === Standing.Enclosed || standing[slot] === Standing.Undefined;
}

/**
 * The searches that stage A leaves to be done, worked on a slice at a time. What one finds depends on what its entry
 * rests on and on nothing else, so they can be done in any order; those that somebody looks at come first, then rules.
 * Each works on a copy: edits of other entries do not disturb it, and an edit of its own drops it.
 */
export class Searches {
  private readonly waiting: readonly Set<Entry>[] = [new Set(), new Set(), new Set()];
  private readonly begun = new Map<Entry, Generator<void, FoundRanges>>();
  private readonly known = new KnownRanges();
  /** Slices that were worked so far; what was known already takes none. */
  slices = 0;

  constructor(private readonly source: SearchSource) {}

  get isDone(): boolean {
    return this.waiting.every(({ size }) => size === 0);
  }

  /** Puts an entry on the list; whatever was begun for it is dropped. */
  add(entry: Entry): void {
    this.drop(entry);
    entry.isPending = true;
    this.waiting[entry.type.kind === "rule" ? Turn.Rule : Turn.Other].add(entry);
  }

  drop(entry: Entry): void {
    if (!entry.isPending) return;
    entry.isPending = false;
    this.begun.delete(entry);
    for (const turn of this.waiting) turn.delete(entry);
  }

  /** Somebody looks at these entries: what is to be searched of them comes first. */
  prefer(entries: Iterable<Entry>): void {
    for (const entry of entries) {
      if (!entry.isPending) continue;
      for (const turn of this.waiting) turn.delete(entry);
      this.waiting[Turn.LookedAt].add(entry);
    }
  }

  /** Searches until all is found, or it is told that it is time to pause. */
  work(isTimeToPause: () => boolean, found: (entry: Entry, ranges: FoundRanges) => void): void {
    for (let entry = this.next(); entry && !isTimeToPause(); entry = this.next()) {
      let search = this.begun.get(entry);
      if (!search) this.begun.set(entry, (search = this.search(entry)));
      const slice = search.next();
      if (!slice.done) continue;
      this.drop(entry);
      found(entry, slice.value);
    }
  }

  private get parts(): Parts {
    const { parts } = this.source;
    if (!parts) throw new Error("A range is searched for before what searches is there.");
    return parts;
  }

  private next(): Entry | undefined {
    for (const turn of this.waiting) for (const entry of turn) return entry;
    return undefined;
  }

  /**
   * For each entry that waits and is meant, a search that goes on whatever becomes of the entry: once it is done, what it
   * found is known.
   */
  copies(isMeant: (entry: Entry) => boolean): readonly Generator<void, unknown>[] {
    return this.waiting.flatMap((turn) =>
      [...turn].filter(isMeant).map((entry) => {
        const copying = this.copy(entry);
        let step = copying.next();
        while (!step.done) step = copying.next();
        return this.searchAll(step.value);
      }),
    );
  }

  /**
   * A range, as narrow as a short search makes it, of a slot that an entry reads or writes; undefined where that costs too
   * much. It pauses before it searches, so that what is known comes without a pause.
   */
  *searchSlot(entry: Entry, slot: number): Generator<void, TrueRange | undefined> {
    const cone = isTooDeep(entry) ? undefined : coneOfSlot(this.source, entry, slot, LARGEST_CONE);
    if (!cone) return undefined;
    const known = this.known.get(cone, SHORT);
    if (known) return known;
    yield;
    this.slices++;
    const range = this.parts.trueRangeOfCone(cone, SHORT);
    this.known.set(cone, SHORT, range);
    return range;
  }

  private *search(entry: Entry): Generator<void, FoundRanges> {
    return yield* this.searchAll(yield* this.copy(entry));
  }

  /** What is to be searched of an entry, as copies; undefined where there is nothing, or too much. */
  private *copy(entry: Entry): Generator<void, readonly (Task | undefined)[]> {
    const { results, keeps, clauses, type } = entry;
    const open: number[] = [];
    for (let i = 0; i < shownResults(entry); i++)
      if (i !== keeps && isOpen(this.source.slots, results.from + i)) open.push(i);
    const sides = new Set(clauses.flatMap(({ slot }) => [slot, slot + 1]));
    const tasks: (Task | undefined)[] = [];
    let copied = 0;
    for (const i of open) {
      if (copied > SLICE / COPYING) {
        yield;
        copied = 0;
      }
      const cone = coneWithin(this.source, entry, i, LARGEST_CONE);
      copied += cone?.op.length ?? LARGEST_CONE;
      const alone = isSolved(entry) ? OF_NETWORK : type.kind === "rule" && !sides.has(i) ? OF_RULE : OF_DEFINITION;
      const options = shared(alone, open.length);
      if (cone) tasks[i] = { cone, options };
    }
    return tasks;
  }

  private *searchAll(tasks: readonly (Task | undefined)[]): Generator<void, (TrueRange | undefined)[]> {
    const found: (TrueRange | undefined)[] = [];
    let spent = 0;
    for (const [i, task] of tasks.entries()) {
      if (!task) continue;
      const { cone, options } = task;
      found[i] = this.known.get(cone, options);
      if (found[i]) continue;
      if (spent > SLICE) {
        yield;
        spent = 0;
      }
      const search = this.parts.searchInSlices(cone, options, SLICE);
      for (;;) {
        if (spent === 0) this.slices++;
        const slice = search.next();
        if (slice.done) {
          this.known.set(cone, options, (found[i] = slice.value));
          spent += Math.min(SLICE, slice.value.operations);
          break;
        }
        yield;
        spent = 0;
      }
    }
    return found;
  }
}

/** A range that is to be searched, and how long. */
interface Task {
  readonly cone: Cone;
  readonly options: SearchOptions;
}

/** What copying an operation costs, in operations: it is looked up by what it does to what. */
const COPYING = 10;

/** Many results share what a few may spend together, so that a table of two hundred rows is not searched for minutes. */
function shared({ budget = Infinity, budgetOnceSignProved }: SearchOptions, results: number): SearchOptions {
  const share = Math.min(1, RESULTS_WITH_A_BUDGET / results);
  const part = (operations: number) => Math.max(SHORT.budget, Math.floor(operations * share));
  return {
    budget: part(budget),
    ...(budgetOnceSignProved === undefined ? {} : { budgetOnceSignProved: part(budgetOnceSignProved) }),
  };
}

const enum Turn {
  LookedAt,
  Rule,
  Other,
}

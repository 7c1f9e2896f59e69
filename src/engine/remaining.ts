import { Builds, type BuildsSource } from "./builds";
import { DomainSearches } from "./domainSearches";
import type { Entry } from "./entry";
import type { BuildsOutcome } from "./outcome";
import { isToBeSearched, Searches } from "./search";

/** The notes that are kept up to date, as what remains of an update is worked out for them. */
export interface RemainingSource extends BuildsSource {
  /** Judges an entry anew: something was found out about it. */
  judgeAgain(entry: Entry): void;
}

/** A slice of trials takes as long as so many of a search. */
const SLICE_OF_TRIALS = 8;

/**
 * What an update leaves to be worked out, a slice at a time: ranges that have to be searched for, what functions hold for,
 * then shares of builds.
 */
export class Remaining {
  private readonly searches: Searches;
  private readonly domains: DomainSearches;
  private readonly builds: Builds;
  /** Something is tried that will be put back: only shares that decide a rule are worked out, since somebody waits. */
  isTrying = false;

  constructor(private readonly source: RemainingSource) {
    const searches = (this.searches = new Searches(source));
    const { slots } = source;
    this.domains = new DomainSearches({ slots, searchSlot: (entry, slot) => searches.searchSlot(entry, slot) });
    this.builds = new Builds(source);
  }

  /** Nothing waits, or what works it out is not there yet. */
  get isDone(): boolean {
    return !this.source.parts || (this.searches.isDone && this.domains.isDone && this.builds.isDone);
  }

  /** How far the trials of builds have come, 0 to 1; undefined while there is something else to do, or nothing. */
  get progressOfTrials(): number | undefined {
    const isTrying = this.searches.isDone && this.domains.isDone && !this.builds.isDone;
    return isTrying ? this.builds.progress : undefined;
  }

  /** Slices that were worked so far, counted in those of searches, a few tenths of a millisecond each. */
  get slices(): number {
    return this.searches.slices + SLICE_OF_TRIALS * this.builds.slices;
  }

  /** Works until nothing remains or it is told that it is time to pause. */
  work(isTimeToPause: () => boolean): void {
    if (!this.source.parts) return;
    this.searches.work(isTimeToPause, (entry, ranges) => {
      entry.found = ranges;
      this.source.judgeAgain(entry);
    });
    if (this.searches.isDone) this.domains.work(isTimeToPause, (entry) => this.source.judgeAgain(entry));
    if (this.searches.isDone && this.domains.isDone)
      this.builds.work(isTimeToPause, (entry, builds) => {
        entry.builds = builds;
        this.source.judgeAgain(entry);
      });
  }

  /** Leaves the rules that are still to be tried without a share of builds. */
  stopTrials(): void {
    this.builds.stop((entry, builds) => {
      entry.builds = builds;
      this.source.judgeAgain(entry);
    });
  }

  /**
   * What remains of the entries that are meant, as runs that go on whatever becomes of the entries: once they are done,
   * {@link work} finds at once what they found.
   */
  copies(isMeant: (entry: Entry) => boolean): readonly Generator<unknown, unknown>[] {
    if (!this.source.parts) return [];
    return [...this.searches.copies(isMeant), ...this.builds.copies(isMeant)];
  }

  /** Rules that are what they were before have the shares that they had. */
  restore(known: ReadonlyMap<Entry, BuildsOutcome>, isThere: (entry: Entry) => boolean): void {
    for (const [entry, builds] of known) {
      if (entry.builds !== undefined || !isThere(entry)) continue;
      entry.builds = builds;
      this.source.judgeAgain(entry);
    }
  }

  /** Tries the builds anew of the rules among these that were tried, or wait for it. */
  retry(entries: Iterable<Entry>, which: "stopped" | "all"): void {
    for (const entry of entries) {
      const { outcome, builds } = entry;
      if (outcome?.kind !== "rule" || !(builds || outcome.awaitsBuilds)) continue;
      if (which === "stopped" && !(builds?.isTried === false && builds.isStopped)) continue;
      entry.builds = undefined;
      this.source.judgeAgain(entry);
    }
  }

  prefer(entries: Iterable<Entry>): void {
    this.searches.prefer(entries);
  }

  /** An entry or something that it rests on is different: what was found out about it holds no longer. */
  changed(entry: Entry): void {
    entry.found = entry.builds = entry.domainProblems = undefined;
    if (isToBeSearched(this.source, entry)) this.searches.add(entry);
    else this.searches.drop(entry);
  }

  /** An entry is about to be judged: what its calls ask of their arguments is checked, or put on the list. */
  check(entry: Entry): void {
    this.domains.begin(entry);
  }

  /** An entry was judged: if it awaits its share of builds, that is worked out. */
  judged(entry: Entry): void {
    const { outcome } = entry;
    if (outcome?.kind !== "rule") return;
    if (outcome.awaitsBuilds && (!this.isTrying || outcome.required !== undefined)) this.builds.add(entry);
    else this.builds.drop(entry);
  }

  /** An entry is gone, or has no value. */
  drop(entry: Entry): void {
    this.searches.drop(entry);
    this.domains.drop(entry);
    this.builds.drop(entry);
  }
}

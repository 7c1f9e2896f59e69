import { domainProblems, type DomainContext } from "./domains";
import type { Entry } from "./entry";
import type { EngineProblem } from "./problem";

const NO_PROBLEMS: readonly EngineProblem[] = [];

/**
 * The checks of what functions hold for that take a search, worked out a slice at a time. Those that take none, or whose
 * searches are known, are done at once.
 */
export class DomainSearches {
  private readonly begun = new Map<Entry, Generator<void, readonly EngineProblem[]>>();

  constructor(private readonly context: DomainContext) {}

  get isDone(): boolean {
    return this.begun.size === 0;
  }

  /** An entry was just run: its checks are done, or put on the list. */
  begin(entry: Entry): void {
    this.drop(entry);
    if (entry.domainProblems) return;
    // Most statements call nothing that asks for anything, and a run is made for each call.
    if (entry.domainChecks.length === 0) return void (entry.domainProblems = NO_PROBLEMS);
    const run = domainProblems(entry, this.context);
    const step = run.next();
    if (step.done) entry.domainProblems = step.value;
    else this.begun.set(entry, run);
  }

  drop(entry: Entry): void {
    if (this.begun.size > 0) this.begun.delete(entry);
  }

  /** Searches until all checks are done, or it is told that it is time to pause. */
  work(isTimeToPause: () => boolean, found: (entry: Entry) => void): void {
    for (const [entry, run] of this.begun) {
      for (;;) {
        if (isTimeToPause()) return;
        const step = run.next();
        if (!step.done) continue;
        this.begun.delete(entry);
        entry.domainProblems = step.value;
        found(entry);
        break;
      }
    }
  }
}

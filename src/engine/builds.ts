import { coneWithin, type ConeInput, type ConeSource } from "./cone";
import { conditionsOf, lowestShare, type LowestShare } from "./conditions";
import type { Correlation } from "./correlation";
import type { Entry } from "./entry";
import type { Note } from "./note";
import type { BuildsOutcome, InputPlace } from "./outcome";
import { MOST_TRIALS, type Progress } from "./trials";

/** What shares are worked out from: the notes, up to date. */
export interface BuildsSource extends ConeSource {
  inputPlace(slot: number): InputPlace;
  /** The correlations among inputs (JCGM 100, 5.2), by their places in the list; none where it is absent. */
  correlationsAmong?(inputs: readonly ConeInput[]): readonly Correlation[];
}

/** What rests on more operations than this is not tried: a million builds of it would take minutes. */
const LARGEST_CONE = 2_000;
/**
 * Operations of all trials of a rule, at every condition: about half a second. Counted, never timed, so that the same
 * note has the same figures anywhere.
 */
const MOST_OPERATIONS = 4e8;
/** Fewer trials than this say little about rare builds. */
const FEWEST_TRIALS = 20_000;

/**
 * The shares of builds that are still to be worked out, by trials (JCGM 101:2008), a slice at a time. What comes out
 * depends on what a rule rests on and on its text, from which the draws are seeded, and on nothing else.
 */
export class Builds {
  private readonly waiting = new Map<Entry, Generator<Progress, BuildsOutcome | undefined>>();

  constructor(private readonly source: BuildsSource) {}

  get isDone(): boolean {
    return this.waiting.size === 0;
  }

  add(entry: Entry): void {
    this.waiting.set(entry, buildsOf(this.source, entry));
  }

  drop(entry: Entry): void {
    this.waiting.delete(entry);
  }

  /** Tries builds until all shares are known, or it is told that it is time to pause. */
  work(isTimeToPause: () => boolean, found: (entry: Entry, builds: BuildsOutcome) => void): void {
    for (const [entry, run] of this.waiting) {
      for (;;) {
        if (isTimeToPause()) return;
        const step = run.next();
        if (!step.done) continue;
        this.waiting.delete(entry);
        found(entry, step.value ?? NOT_TRIED);
        break;
      }
    }
  }
}

/** What trials said so far of the rules of notes. */
export function knownBuilds(notes: Iterable<Note>): ReadonlyMap<Entry, BuildsOutcome> {
  const known = new Map<Entry, BuildsOutcome>();
  for (const note of notes)
    for (const entry of note.entries()) if (entry.builds !== undefined) known.set(entry, entry.builds);
  return known;
}

const NOT_TRIED: BuildsOutcome = { isTried: false };

/** The share of builds that keep a rule. Undefined where none varies, or it rests on more than is affordable. */
function* buildsOf(source: BuildsSource, entry: Entry): Generator<Progress, BuildsOutcome | undefined> {
  const { statement, keeps } = entry;
  const cone = keeps === undefined ? undefined : coneWithin(source, entry, keeps, LARGEST_CONE);
  if (!cone || statement.kind !== "rule") return undefined;
  const places = cone.inputs.map(({ slot }) => source.inputPlace(slot));
  const spreads = places.map(({ spread }) => spread);
  if (spreads.every(({ shape }) => shape === "held")) return undefined;
  const conditions = conditionsOf(cone, spreads);
  const affordable = Math.floor(MOST_OPERATIONS / ((cone.op.length + 1) * conditions.length));
  const most = Math.min(MOST_TRIALS, Math.max(FEWEST_TRIALS, affordable));
  const found: LowestShare = yield* lowestShare(cone, spreads, conditions, {
    seed: statement.text,
    correlations: source.correlationsAmong?.(cone.inputs) ?? [],
    most,
    ...(statement.share === undefined ? {} : { required: statement.share }),
  });
  const { trials, share, low, high, reaches, at } = found;
  return {
    isTried: true,
    trials,
    share,
    low,
    high,
    ...(reaches === undefined ? {} : { reaches }),
    at: [...at].map(([input, value]) => ({ input: places[input], value })),
  };
}

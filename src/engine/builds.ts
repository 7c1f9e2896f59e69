import { coneWithin, type Cone, type ConeInput, type ConeSource } from "./cone";
import type { Condition } from "./conditions";
import type { Correlation } from "./correlation";
import type { Entry } from "./entry";
import { KnownShares, type Tried } from "./knownShares";
import type { Note } from "./note";
import type { BuildsOutcome, InputPlace } from "./outcome";
import type { Parts } from "./parts";
import type { ShareSettings } from "./shareOfBuilds";
import { MOST_TRIALS, type Progress, type TrialCount } from "./trialCount";

/** What shares are worked out from: the notes, up to date. */
export interface BuildsSource extends ConeSource {
  inputPlace(slot: number): InputPlace;
  /** The correlations among inputs (JCGM 100, 5.2), by their places in the list; none where it is absent. */
  correlationsAmong?(inputs: readonly ConeInput[]): readonly Correlation[];
  /** How many trials are made of the rules of a note; adaptive where it is absent. */
  trialsFor?(path: string): TrialCount;
  /** What makes the trials, once it is there. */
  readonly parts?: Parts;
}

/** What rests on more operations than this is not tried: a million builds of it would take minutes. */
const LARGEST_CONE = 2_000;
/**
 * Operations of all trials of a rule or a value, where nobody says how many: about half a second. Counted, never timed, so
 * that the same note has the same figures anywhere.
 */
const MOST_OPERATIONS = 4e8;
/** Fewer trials than this say little about rare builds. */
const FEWEST_TRIALS = 20_000;

/** Trials of so many runs of a cone that are affordable where nobody says how many. */
export function affordableTrials({ op }: Cone, runs: number): number {
  const affordable = Math.floor(MOST_OPERATIONS / ((op.length + 1) * runs));
  return Math.min(MOST_TRIALS, Math.max(FEWEST_TRIALS, affordable));
}

/**
 * The shares of builds that are still to be worked out, by trials (JCGM 101:2008), a slice at a time. What comes out
 * depends on what a rule rests on and on its text, from which the draws are seeded, and on nothing else.
 */
export class Builds {
  /** Rules that are to be tried, with the run of the one that was begun. */
  private readonly waiting = new Map<Entry, Generator<Progress, BuildsOutcome> | undefined>();
  private readonly known = new KnownShares();
  /** Slices that were worked so far; what was known already takes none. */
  slices = 0;
  /** Rules that were tried since there was nothing to do. */
  private tried = 0;
  /** How far the rule that is being tried has come, 0 to 1. */
  private share = 0;

  constructor(private readonly source: BuildsSource) {}

  get isDone(): boolean {
    return this.waiting.size === 0;
  }

  /** How much of what there is to do is done, 0 to 1; a rule counts as one, whatever it takes. */
  get progress(): number {
    return this.isDone ? 1 : (this.tried + this.share) / (this.tried + this.waiting.size);
  }

  add(entry: Entry): void {
    this.waiting.set(entry, undefined);
  }

  drop(entry: Entry): void {
    this.waiting.delete(entry);
  }

  /** Tries builds until all shares are known, or it is told that it is time to pause. */
  work(isTimeToPause: () => boolean, found: (entry: Entry, builds: BuildsOutcome) => void): void {
    const { parts } = this.source;
    if (!parts) return;
    for (const [entry, begun] of this.waiting) {
      const run = begun ?? this.begin(entry, parts);
      this.waiting.set(entry, run);
      for (;;) {
        if (isTimeToPause()) return;
        const step = run.next();
        if (!step.done) {
          this.slices++;
          this.share = step.value.trials / step.value.expected;
          continue;
        }
        this.end(entry);
        found(entry, step.value);
        break;
      }
    }
  }

  /** Somebody does not want to wait: what is still to be tried is left without a share. */
  stop(stopped: (entry: Entry, builds: BuildsOutcome) => void): void {
    for (const entry of [...this.waiting.keys()]) {
      this.end(entry);
      stopped(entry, STOPPED);
    }
  }

  /** For each rule that waits and is meant, a run that goes on whatever becomes of the rule: once it is done, the share is known. */
  copies(isMeant: (entry: Entry) => boolean): readonly Generator<unknown, unknown>[] {
    const { parts } = this.source;
    return parts ? [...this.waiting.keys()].filter(isMeant).map((entry) => this.begin(entry, parts)) : [];
  }

  private begin(entry: Entry, parts: Parts): Generator<Progress, BuildsOutcome> {
    return buildsOf(trialOf(this.source, entry, parts), this.known, parts);
  }

  private end(entry: Entry): void {
    this.waiting.delete(entry);
    this.share = 0;
    this.tried = this.isDone ? 0 : this.tried + 1;
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
const STOPPED: BuildsOutcome = { isTried: false, isStopped: true };

/** What a rule is tried on: all is copied, so that it can be tried whatever is edited meanwhile. */
interface Trial extends Tried {
  readonly places: readonly InputPlace[];
  readonly conditions: readonly Condition[];
  readonly settings: ShareSettings;
}

/** Undefined where nothing varies from build to build, or the rule rests on more than is affordable. */
function trialOf(source: BuildsSource, entry: Entry, { conditionsOf }: Parts): Trial | undefined {
  const { statement, keeps } = entry;
  const cone = keeps === undefined ? undefined : coneWithin(source, entry, keeps, LARGEST_CONE);
  if (!cone || statement.kind !== "rule") return undefined;
  const places = cone.inputs.map(({ slot }) => source.inputPlace(slot));
  const spreads = places.map(({ spread }) => spread);
  if (spreads.every(({ shape }) => shape === "held")) return undefined;
  const conditions = conditionsOf(cone, spreads);
  const count = source.trialsFor?.(entry.note.path) ?? "adaptive";
  const settings = {
    seed: statement.text,
    correlations: source.correlationsAmong?.(cone.inputs) ?? [],
    ...(count === "adaptive" ? { most: affordableTrials(cone, conditions.length) } : { trials: count }),
    ...(statement.share === undefined ? {} : { required: statement.share }),
  };
  return { cone, spreads, places, conditions, settings };
}

/** The share of builds that keep a rule. */
function* buildsOf(
  trial: Trial | undefined,
  known: KnownShares,
  { lowestShare }: Parts,
): Generator<Progress, BuildsOutcome> {
  if (!trial) return NOT_TRIED;
  const { cone, spreads, places, conditions, settings } = trial;
  const found = known.get(trial) ?? (yield* lowestShare(cone, spreads, conditions, settings));
  known.set(trial, found);
  const { trials, share, low, high, reaches, at } = found;
  return {
    isTried: true,
    trials,
    ...(settings.trials === undefined ? {} : { isCountAsked: true }),
    share,
    low,
    high,
    ...(reaches === undefined ? {} : { reaches }),
    at: [...at].map(([input, value]) => ({ input: places[input], value })),
  };
}

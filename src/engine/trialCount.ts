/** How far a run has come. */
export interface Progress {
  readonly trials: number;
  /** How many it will probably be. */
  readonly expected: number;
}

/** Most trials, where nobody says how many: a run then takes seconds, and holds 16 MB. */
export const MOST_TRIALS = 2_000_000;

/** How many trials are made: so many, or as many as it takes until the figures are stable (JCGM 101:2008, 7.9). */
export type TrialCount = "adaptive" | number;

/** Numbers that may be asked for. Fewer say nothing about 95 %; more hold too much memory, and say no more. */
export const ASKED_TRIALS = { least: 100, most: 10_000_000 } as const;

/** The number of trials that a person wrote, `adaptive`, `20000`, `1_000_000`; undefined where it is neither. */
export function readTrialCount(text: string): TrialCount | undefined {
  if (text === "adaptive") return "adaptive";
  const count = /^\d[\d_]*$/.test(text) ? Number(text.replaceAll("_", "")) : NaN;
  return count >= ASKED_TRIALS.least && count <= ASKED_TRIALS.most ? count : undefined;
}

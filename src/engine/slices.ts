/**
 * Work that pauses every few milliseconds, so that others are let in between. Who does not ask for the next slice has
 * cancelled it.
 */
export type InSlices<T> = Generator<unknown, T>;

/** Runs what pauses to its end. */
export function finish<T>(run: InSlices<T>): T {
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
}

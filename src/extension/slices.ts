import type { CancellationToken } from "vscode";
import type { InSlices } from "../service";

/** Work goes on so long before the editor is let in: half a frame of a screen that shows sixty in a second. */
export const SLICE_MS = 8;

/** Lets the editor do what waits: a long task takes a breath between two notes. */
export function breath(): Promise<void> {
  return new Promise((resume) => setTimeout(resume));
}

/**
 * Goes on with a run until it has an answer, letting the editor in between. Undefined where it is told to stop.
 * @param report is told what each slice says of how far it has come
 */
export async function inSlices<T>(
  run: InSlices<T>,
  isToStop: () => boolean,
  report?: (progress: unknown) => void,
): Promise<T | undefined> {
  for (;;) {
    const end = performance.now() + SLICE_MS;
    let progress: unknown;
    do {
      const step = run.next();
      if (step.done) return step.value;
      progress = step.value;
    } while (performance.now() < end);
    report?.(progress);
    await breath();
    if (!isToStop()) continue;
    run.return(undefined as T);
    return undefined;
  }
}

/** The same as long as the person waits for it. */
export function whileWaitedFor<T>(run: InSlices<T>, token: CancellationToken): Promise<T | undefined> {
  return inSlices(run, () => token.isCancellationRequested);
}

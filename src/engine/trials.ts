import type { Cone } from "./cone";
import { Draws, type DrawSettings } from "./draws";
import { withEveryPiece } from "./everyPiece";
import { BLOCK, Samples } from "./samples";
import type { Spread } from "./spread";
import type { Progress } from "./trialCount";

/** Registers that are written before a pause: one to three milliseconds of work, counted so that it never matters when. */
const SLICE = 2 ** 20;

/** Trials of one cone: draws the inputs and computes the result, block by block. */
export class Trials {
  private readonly samples: Samples;
  private readonly draws: Draws;
  private readonly work: number;
  private sincePause = 0;

  constructor(cone: Cone, spreads: readonly Spread[], settings: DrawSettings) {
    const drawn = withEveryPiece({ cone, spreads, settings });
    this.samples = new Samples(drawn.cone);
    this.draws = new Draws(drawn.cone.inputs, drawn.spreads, drawn.settings);
    // A draw costs about as much as four operations.
    this.work = drawn.cone.op.length + 4 * drawn.cone.inputs.length + 1;
  }

  /** Writes the results of so many trials; NaN where one has no value. Pauses in between with the progress as it was. */
  *run(out: Float64Array, count: number, progress: Progress): Generator<Progress, void> {
    const { samples, draws } = this;
    for (let done = 0; done < count; done += BLOCK) {
      const now = Math.min(BLOCK, count - done);
      draws.fill(samples.inputs, now);
      samples.run(now);
      out.set(now < BLOCK ? samples.result.subarray(0, now) : samples.result, done);
      this.sincePause += this.work * now;
      if (this.sincePause < SLICE) continue;
      this.sincePause = 0;
      yield progress;
    }
  }
}

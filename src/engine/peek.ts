import { OPERATIONS } from "./operations";
import type { Code, Slots } from "./tape";

/** A value as it stands while something is compiled. */
export interface Peeked {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What operands come to, where how many members a list has depends on it. All that the operations so far read has been run,
 * since what a definition rests on comes before it; whoever asks is compiled again when one of those values changes.
 */
export function peek(code: Code, slots: Slots, operands: readonly number[]): readonly Peeked[] {
  const count = operands.some((at) => at < 0) ? code.count : 0;
  const [number, low, high] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const ends = new Float64Array(6);
  const look = (at: number): Peeked =>
    at < 0
      ? { nominal: number[-1 - at], low: low[-1 - at], high: high[-1 - at] }
      : { nominal: slots.nominal[at], low: slots.low[at], high: slots.high[at] };
  for (let k = 0; k < count; k++) {
    const { number: value, range, arity } = OPERATIONS[code.op[k]];
    const x = look(code.a[k]);
    const y = arity > 1 ? look(code.b[k]) : x;
    const z = arity > 2 ? look(code.c[k]) : x;
    number[k] = value(x.nominal, y.nominal, z.nominal);
    range(ends, x.low, x.high, y.low, y.high, z.low, z.high);
    const isExact = [x, y, z].every((each) => each.low === each.high);
    low[k] = isExact ? number[k] : ends[0];
    high[k] = isExact ? number[k] : ends[1];
  }
  return operands.map(look);
}

import { NO_PUSHES, type Pushes } from "./tape";

/**
 * Beyond so many uncertain inputs a value is not proved monotone at once: the lists would grow with the square of a
 * chain in which every line adds an input.
 */
const MOST_INPUTS = 128;

/**
 * How the inputs push a result, given how they push its arguments and which way each argument pushes it; of both lists the
 * first `count` members are meant.
 * Undefined where one input pushes both ways, or where there are too many.
 */
export function merge(parts: readonly Pushes[], signs: readonly number[], count: number): Pushes | undefined {
  if (count === 0) return NO_PUSHES;
  let merged = signs[0] > 0 ? parts[0] : turned(parts[0]);
  for (let i = 1; i < count; i++) {
    const next = mergeTwo(merged, parts[i], signs[i]);
    if (!next) return undefined;
    merged = next;
  }
  return merged;
}

export function samePushes(a: Pushes, b: Pushes): boolean {
  if (a === b) return true;
  if (a.inputs.length !== b.inputs.length) return false;
  for (let i = 0; i < a.inputs.length; i++) if (a.inputs[i] !== b.inputs[i] || a.signs[i] !== b.signs[i]) return false;
  return true;
}

function turned(pushes: Pushes): Pushes {
  return { inputs: pushes.inputs, signs: pushes.signs.map((sign) => -sign) };
}

/** Where one of the two names all inputs of both, as along a chain, it is given back and shared. */
function mergeTwo(a: Pushes, b: Pushes, signOfB: number): Pushes | undefined {
  const size = unionSize(a, b, signOfB);
  if (size > MOST_INPUTS) return undefined;
  if (size === a.inputs.length) return a;
  if (size === b.inputs.length && signOfB > 0) return b;
  const inputs = new Array<number>(size);
  const signs = new Array<number>(size);
  for (let i = 0, j = 0, k = 0; k < size; k++) {
    const isOfA = j >= b.inputs.length || (i < a.inputs.length && a.inputs[i] <= b.inputs[j]);
    const isOfB = i >= a.inputs.length || (j < b.inputs.length && b.inputs[j] <= a.inputs[i]);
    inputs[k] = isOfA ? a.inputs[i] : b.inputs[j];
    signs[k] = isOfA ? a.signs[i] : b.signs[j] * signOfB;
    if (isOfA) i++;
    if (isOfB) j++;
  }
  return { inputs, signs };
}

/** How many inputs the two have together; infinitely many where one is pushed both ways. */
function unionSize(a: Pushes, b: Pushes, signOfB: number): number {
  let common = 0;
  for (let i = 0, j = 0; i < a.inputs.length && j < b.inputs.length;) {
    const [left, right] = [a.inputs[i], b.inputs[j]];
    if (left === right) {
      if (a.signs[i] !== b.signs[j] * signOfB) return Infinity;
      common++;
    }
    if (left <= right) i++;
    if (right <= left) j++;
  }
  return a.inputs.length + b.inputs.length - common;
}

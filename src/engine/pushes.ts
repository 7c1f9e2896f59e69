import { NO_PUSHES, type Pushes } from "./tape";

/**
 * Beyond so many uncertain inputs a value is not proved monotone at once: the lists would grow with the square of a
 * chain in which every line adds an input.
 */
const MOST_INPUTS = 128;

/**
 * How the inputs push a result, given how they push its arguments and which way each argument pushes it.
 * Undefined where one input pushes both ways, or where there are too many.
 */
export function merge(parts: readonly Pushes[], signs: readonly number[]): Pushes | undefined {
  if (parts.length === 0) return NO_PUSHES;
  let merged = signs[0] > 0 ? parts[0] : turned(parts[0]);
  for (let i = 1; i < parts.length; i++) {
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

function mergeTwo(a: Pushes, b: Pushes, signOfB: number): Pushes | undefined {
  if (a.inputs.length + b.inputs.length > 2 * MOST_INPUTS) return undefined;
  const inputs: number[] = [];
  const signs: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.inputs.length || j < b.inputs.length) {
    const left = i < a.inputs.length ? a.inputs[i] : Infinity;
    const right = j < b.inputs.length ? b.inputs[j] : Infinity;
    if (left === right && a.signs[i] !== b.signs[j] * signOfB) return undefined;
    inputs.push(Math.min(left, right));
    signs.push(left <= right ? a.signs[i] : b.signs[j] * signOfB);
    if (left <= right) i++;
    if (right <= left) j++;
  }
  return inputs.length > MOST_INPUTS ? undefined : { inputs, signs };
}

import type { Residual } from "./residual";
import { rootBetween } from "./rootFinding";

/** In how many places the sides are compared: solutions that are closer together are seen as one, or not at all. */
const PLACES = 200;
/** In how many steps a bracket is narrowed, by halves, until the sign at its end is no longer certain. */
const HALVINGS = 60;

/** Limits in which a solution is looked for. */
export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** All solutions that lie apart from each other, in rising order. A jump across zero, as at a pole, is none. */
export function solutionsIn(residual: Residual, { low, high }: Limits): readonly number[] {
  const found: number[] = [];
  const f = (x: number) => residual.at(x);
  let [from, before] = [NaN, NaN];
  for (const x of placesIn(low, high)) {
    const value = f(x);
    if (value === 0) found.push(x);
    else if (before * value < 0) {
      const root = rootBetween(f, from, x);
      if (root !== undefined && Math.abs(f(root)) <= Math.min(Math.abs(before), Math.abs(value))) found.push(root);
    }
    [from, before] = [x, value];
  }
  return found;
}

/** Evenly spaced; and spaced by equal ratios too where the limits are decades apart. Both ends are among them. */
function placesIn(low: number, high: number): readonly number[] {
  const places = [low, high];
  const size = Math.max(Math.abs(low), Math.abs(high));
  for (let i = 1; i < PLACES; i++) {
    const share = i / PLACES;
    places.push(low + share * (high - low));
    if (low > 0 || high < 0) places.push(low * (high / low) ** share);
    else {
      // Of a bracket that begins at zero, or holds it, the decades next to zero.
      const near = size * 10 ** (-15 * share);
      if (near < high) places.push(near);
      if (-near > low) places.push(-near);
    }
  }
  return [...new Set(places)].sort((a, b) => a - b);
}

/**
 * The narrowest bracket around a solution that halving finds, at whose ends the sign is certain whatever the inputs. Where
 * it is not even at the ends that were written, those.
 */
export function bracketAround(residual: Residual, solution: number, { low, high }: Limits): readonly [number, number] {
  return [narrowed(residual, low, solution), narrowed(residual, high, solution)];
}

function narrowed(residual: Residual, end: number, solution: number): number {
  const sign = residual.signAt(end);
  if (sign === 0) return end;
  const distance = Math.abs(end - solution);
  const least = CLOSEST * (solution === 0 ? distance : Math.min(distance, Math.abs(solution)));
  let [outer, inner] = [end, solution];
  for (let i = 0; i < HALVINGS; i++) {
    const left = Math.abs(outer - solution);
    if (left <= least || Math.abs(outer - inner) <= SPARE * left) break;
    const middle = outer + (inner - outer) / 2;
    if (residual.signAt(middle) === sign) outer = middle;
    else inner = middle;
  }
  // A little is left to spare, for ranges of the inputs that are found by another way.
  const spared = outer + SPARE * (outer - solution);
  return Math.abs(spared - solution) < distance && residual.signAt(spared) === sign ? spared : outer;
}

/** No closer to the solution than this share of it, so that one of exact inputs can be followed when they are changed. */
const CLOSEST = 1e-4;
const SPARE = 0.02;

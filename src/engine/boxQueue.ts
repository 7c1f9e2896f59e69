import type { Box } from "./boxRunner";

/** A part of the inputs' box that is still to be searched. */
export interface OpenBox {
  readonly sides: Box;
  /** No value in it is higher. */
  height: number;
  /** What was added to the height because inputs were fixed whose derivative has the wrong sign somewhere. */
  slack: number;
  /** Its parent had no range. */
  readonly isLost: boolean;
  /** It is run with the domains of its operations clipped. */
  readonly clips: boolean;
}

/**
 * The open boxes of a search. Those whose range was lost come first, the latest before the others, so that a place
 * without a value is soon cornered; then the highest, of equal ones the latest. A binary heap, its ties told apart, so
 * that the order is the same on any machine.
 */
export class BoxQueue {
  private readonly lost: OpenBox[] = [];
  private readonly heap: Turn[] = [];
  private turns = 0;

  get isEmpty(): boolean {
    return this.lost.length === 0 && this.heap.length === 0;
  }

  get hasLost(): boolean {
    return this.lost.length > 0;
  }

  /** No value in any of the boxes is higher; −∞ where there is none. */
  get highest(): number {
    if (this.lost.length > 0) return Infinity;
    return this.heap.length > 0 ? this.heap[0].box.height : -Infinity;
  }

  push(box: OpenBox): void {
    if (box.isLost) {
      this.lost.push(box);
      return;
    }
    const { heap } = this;
    const item = { box, turn: this.turns++ };
    let at = heap.push(item) - 1;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (!isBefore(item, heap[parent])) break;
      heap[at] = heap[parent];
      at = parent;
    }
    heap[at] = item;
  }

  pop(): OpenBox | undefined {
    const lost = this.lost.pop();
    if (lost) return lost;
    const { heap } = this;
    const top = heap[0];
    const last = heap.pop();
    if (last && last !== top) this.sink(last);
    return top?.box;
  }

  private sink(item: Turn): void {
    const { heap } = this;
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= heap.length) break;
      if (child + 1 < heap.length && isBefore(heap[child + 1], heap[child])) child++;
      if (!isBefore(heap[child], item)) break;
      heap[at] = heap[child];
      at = child;
    }
    heap[at] = item;
  }
}

type Turn = { readonly box: OpenBox; readonly turn: number };

function isBefore(a: Turn, b: Turn): boolean {
  return a.box.height > b.box.height || (a.box.height === b.box.height && a.turn > b.turn);
}

import type { InputPlace, Push } from "./outcome";
import type { Slots } from "./tape";

/** The inputs that a value is attained by, with the ends at which it is highest. */
export function pushedBy({ pushes }: Slots, slot: number, inputPlace: (slot: number) => InputPlace): readonly Push[] {
  const { inputs, signs } = pushes[slot];
  const pushed = inputs.map((input, i): Push => ({
    input: inputPlace(input),
    highestAt: signs[i] > 0 ? "high" : "low",
  }));
  return pushed.length <= SHORT ? sortedShort(pushed) : pushed.sort(inOrderOfInputs);
}

/** Up to so many are sorted here: for the library's sort the machine makes a copy. */
const SHORT = 12;

function sortedShort(pushed: Push[]): readonly Push[] {
  for (let i = 1; i < pushed.length; i++) {
    const push = pushed[i];
    let at = i;
    for (; at > 0 && inOrderOfInputs(pushed[at - 1], push) > 0; at--) pushed[at] = pushed[at - 1];
    pushed[at] = push;
  }
  return pushed;
}

/** By what they are, not by their slots, whose numbers depend on the order of earlier edits. */
function inOrderOfInputs(one: Push, other: Push): number {
  const [a, b] = [one.input, other.input];
  if (a.name !== b.name) return a.name < b.name ? -1 : 1;
  const way = one.highestAt === other.highestAt ? 0 : one.highestAt === "high" ? -1 : 1;
  const pieces = (a.spread.pieces ?? 1) - (b.spread.pieces ?? 1);
  return a.nominal - b.nominal || a.low - b.low || a.high - b.high || pieces || way;
}

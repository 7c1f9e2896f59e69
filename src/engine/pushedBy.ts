import type { InputPlace, Push } from "./outcome";
import type { Slots } from "./tape";

/** The inputs that a value is attained by, with the ends at which it is highest. */
export function pushedBy({ pushes }: Slots, slot: number, inputPlace: (slot: number) => InputPlace): readonly Push[] {
  const { inputs, signs } = pushes[slot];
  return inputs
    .map((input, i): Push => ({ input: inputPlace(input), highestAt: signs[i] > 0 ? "high" : "low" }))
    .sort(inOrderOfInputs);
}

/** By what they are, not by their slots, whose numbers depend on the order of earlier edits. */
function inOrderOfInputs(one: Push, other: Push): number {
  const [a, b] = [one.input, other.input];
  if (a.name !== b.name) return a.name < b.name ? -1 : 1;
  const way = one.highestAt === other.highestAt ? 0 : one.highestAt === "high" ? -1 : 1;
  const pieces = (a.spread.pieces ?? 1) - (b.spread.pieces ?? 1);
  return a.nominal - b.nominal || a.low - b.low || a.high - b.high || pieces || way;
}

import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `lookup(x, [10, 1, 100], …)`. */
export const lookupKeys: Wording<"lookup.keys"> = {
  severity: "error",
  reference:
    "What is looked up by its place among others needs keys that are exact numbers, written out and rising, each once. Values between points on a smooth curve need exact numbers, too.",
  message: ({ text, reason, doubled }) =>
    doubled
      ? `The key "${shortened(doubled.key)}" is in \`${shortened(text)}\` twice, as number ${doubled.places[0]} and number ${doubled.places[1]}, and only one of the two could be meant.`
      : `\`${shortened(text)}\` ${REASONS[reason]}`,
};

const REASONS = {
  "not exact": "is not made of exact numbers only. Write the numbers out, without limits.",
  "not rising": "is not in order: each key has to be above the one before it.",
  doubled: "has one key twice, and only one of the two could be meant.",
  "too few": "is a single point, and a line needs two.",
};

import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `let I in 5 mA satisfy …`. */
export const solutionBracket: Wording<"solution.bracket"> = {
  severity: "error",
  reference:
    "What is solved for needs a bracket in which it lies: two limits, from low to high, as `1 .. 20 mA`. Temperatures on a scale cannot stand there.",
  message: ({ text, reason }) => `\`${shortened(text)}\` ${REASONS[reason]}`,
};

const REASONS = {
  "not a range": "is no bracket. Write two limits in which the solution lies, the lower first: `1 .. 20 mA`.",
  points:
    "are temperatures on a scale, for which nothing can be solved. Solve for a difference in K, and add it to a point.",
};

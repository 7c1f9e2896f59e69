import type { Wording } from "./finding";

/** `let x in 1 .. 2 satisfy floor(x) = 1`. */
export const solutionJumps: Wording<"solution.jumps"> = {
  severity: "error",
  reference:
    "An equation can be solved where both sides change smoothly with what is solved for. Roundings, look-ups and choices by its value jump.",
  message: ({ name }) =>
    `The equation jumps as \`${name}\` changes: it has a rounding, a look-up or a choice that rests on it. Solve each part between the jumps by itself.`,
};

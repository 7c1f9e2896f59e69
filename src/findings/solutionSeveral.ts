import type { Wording } from "./finding";

/** `let x in -2 .. 2 satisfy x^2 = 2`. */
export const solutionSeveral: Wording<"solution.several"> = {
  severity: "error",
  reference: "Several values in the bracket satisfy the equation, and only one can be meant. Narrow the bracket to it.",
  message: ({ name, at, left }) =>
    `Several values of \`${name}\` satisfy the equation: ${at.join(", ")}${left > 0 ? ` and ${left} more` : ""}. Narrow the bracket to the one that is meant.`,
};

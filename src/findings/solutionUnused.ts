import type { Wording } from "./finding";

/** `let I in 1 .. 2 A satisfy R = V`. */
export const solutionUnused: Wording<"solution.unused"> = {
  severity: "error",
  reference: "What is solved for has to stand in the equation behind `satisfy`.",
  message: ({ name }) =>
    `\`${name}\` stands on neither side of the equation, so no value of it is the solution. The equation has to speak of it.`,
};

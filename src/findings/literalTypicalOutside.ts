import type { Wording } from "./finding";

/** `2.8 .. 3.5 .. 3.2 V`. */
export const literalTypicalOutside: Wording<"literal.typicalOutside"> = {
  severity: "error",
  reference: "Three numbers are minimum .. typical .. maximum, and the typical one lies between the others.",
  message: ({ typical, low, high }) =>
    `The typical value ${typical} is not between ${low} and ${high}. Three numbers are minimum .. typical .. maximum.`,
};

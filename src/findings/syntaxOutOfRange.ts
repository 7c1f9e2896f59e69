import type { Wording } from "./finding";

/** `in 120 % of builds`, `correlation R1, R2 = 1.5`. */
export const syntaxOutOfRange: Wording<"syntax.outOfRange"> = {
  severity: "error",
  reference: "A share of builds lies between 0 % and 100 %, a correlation between -1 and 1.",
  message: ({ what, found }) =>
    what === "share"
      ? `A share of builds lies between 0 % and 100 %; ${found} does not.`
      : `A correlation lies between -1 and 1; ${found} does not.`,
};

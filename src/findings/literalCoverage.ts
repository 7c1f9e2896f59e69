import type { Wording } from "./finding";

/** `(k = 0)`. */
export const literalCoverage: Wording<"literal.coverage"> = {
  severity: "error",
  reference: "A coverage factor is greater than zero (JCGM 100, 6.2.1).",
  message: ({ text }) => `A coverage factor is greater than zero; ${text} is not. Of a standard uncertainty it is 1.`,
};

import type { Wording } from "./finding";

/** `must x inside y`. */
export const literalBandNeeded: Wording<"literal.bandNeeded"> = {
  severity: "error",
  reference: "`inside` takes a band as numbers: `x inside 3.2 .. 3.4 V`, or `3.3 V ± 3 %`.",
  message: ({ text }) => `\`inside\` takes a band as numbers, such as \`3.2 .. 3.4 V\`, not \`${text}\`.`,
};

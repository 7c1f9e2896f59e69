import type { Wording } from "./finding";

/** `of 2.5`. */
export const syntaxWholeNumberExpected: Wording<"syntax.wholeNumberExpected"> = {
  severity: "error",
  reference: "A number of pieces is a whole number.",
  message: ({ found }) => `A number of pieces is whole; \`${found}\` is not.`,
};

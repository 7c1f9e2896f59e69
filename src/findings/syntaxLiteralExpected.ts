import type { Wording } from "./finding";

/** `over T = T_low`. */
export const syntaxLiteralExpected: Wording<"syntax.literalExpected"> = {
  severity: "error",
  reference: "A number as written is wanted here, with or without limits, not an expression.",
  message: ({ found }) =>
    found === ""
      ? "A number as written is expected here."
      : `A number as written is expected here, such as \`3 V\` or \`3 .. 5 V\`, not \`${found}\`.`,
};

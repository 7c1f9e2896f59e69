import type { Wording } from "./finding";

/** `for = 3`. */
export const syntaxReservedName: Wording<"syntax.reservedName"> = {
  severity: "error",
  reference: "A word of the language, such as `for` or `if`, is no name, because no expression could use it.",
  message: ({ word }) =>
    `\`${word}\` is a word of the language, so that no expression could use this name. Choose another one.`,
};

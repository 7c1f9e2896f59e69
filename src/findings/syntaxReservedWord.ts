import type { Wording } from "./finding";

/** `x = from * 2`. */
export const syntaxReservedWord: Wording<"syntax.reservedWord"> = {
  severity: "error",
  reference: "A word of the language stands where a value is expected.",
  message: ({ word }) =>
    `\`${word}\` is a word of the language, and a value is expected here. If it is meant as a name, choose another one.`,
};

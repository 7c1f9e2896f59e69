import type { Wording } from "./finding";

/** Brackets in brackets in brackets. */
export const syntaxTooDeep: Wording<"syntax.tooDeep"> = {
  severity: "error",
  reference:
    "Brackets and operators are nested deeper than anyone can read. Give parts of the expression names of their own.",
  message: ({ limit }) =>
    `Brackets and operators are nested more than ${limit} deep. Give a part of this a name of its own.`,
};

import type { Wording } from "./finding";

/** Functions that call each other twice over grow without bound. */
export const functionTooLarge: Wording<"function.tooLarge"> = {
  severity: "error",
  reference:
    "Functions that call functions have grown to more operations than are computed. Give intermediate results names of their own.",
  message: ({ name }) =>
    `\`${name}\` grows to more operations than are computed. Give intermediate results names of their own.`,
};

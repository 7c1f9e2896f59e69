import type { Wording } from "./finding";

/** `on 2026-02-30`. */
export const syntaxImpossibleDate: Wording<"syntax.impossibleDate"> = {
  severity: "error",
  reference: "A date is year, month and day, as in 2026-03-14 (ISO 8601), and a day that exists.",
  message: ({ found }) =>
    `\`${found}\` is no date. Write year, month and day of a day that exists, such as 2026-03-14.`,
};

import type { Wording } from "./finding";

/** `choose 3 V from x`. */
export const choiceSeries: Wording<"choice.series"> = {
  severity: "error",
  reference: "A value is chosen from a series (E3 to E192), a list or a column.",
  message: ({ text, reason }) => `\`${text}\` ${reason}.`,
};

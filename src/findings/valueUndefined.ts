import { lostText } from "../phrases/lost";
import type { Wording } from "./finding";

/** `1 / 0`. */
export const valueUndefined: Wording<"value.undefined"> = {
  severity: "error",
  reference: "The value cannot be computed, as in a division by zero. What rests on it has no value either.",
  message: (problem, { row, context }) => `There is no value: ${lostText(problem, row, context)}.`,
};

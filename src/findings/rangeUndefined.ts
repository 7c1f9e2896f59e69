import { lostText } from "../phrases/lost";
import type { Wording } from "./finding";

/** `1 / x` where x can be zero. */
export const rangeUndefined: Wording<"range.undefined"> = {
  severity: "warning",
  reference:
    "Inside the limits of its inputs the value is not defined everywhere, as where a divisor can be zero. There is a nominal value but no range, and no rule on it can hold.",
  message: (problem, { row, context }) => `There is no range: inside the limits ${lostText(problem, row, context)}.`,
};

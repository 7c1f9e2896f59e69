import { lookedUpText } from "../phrases/lookedUp";
import { lostText } from "../phrases/lost";
import { lineText } from "../phrases/place";
import type { Wording } from "./finding";

/** `1 / 0`. */
export const valueUndefined: Wording<"value.undefined"> = {
  severity: "error",
  reference: "The value cannot be computed, as in a division by zero. What rests on it has no value either.",
  message: (problem, { row, context }) => {
    const { text, reason, within, lookedUp } = problem;
    const seen = lookedUp && lookedUpText(text, lookedUp, within, context);
    if (!seen) return `There is no value: ${lostText(problem, row, context)}.`;
    const where = within ? ` ${lineText(within, context)}` : "";
    const next =
      seen.keys === "" ? "" : ` Next to it there ${seen.keys.includes(" and ") ? "are" : "is"} ${seen.keys}.`;
    return `There is no value: ${seen.subject} ${reason}${where}.${next}`;
  },
};

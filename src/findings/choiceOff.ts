import { choose } from "../phrases/choosing";
import type { Wording } from "./finding";

/** `choose 155 Ω from E24`. */
export const choiceOff: Wording<"choice.off"> = {
  severity: "warning",
  reference: "The value that is used is no member of the series or list it is to be chosen from.",
  message: ({ used, series, below, above }) => {
    const near = [below, above].filter((each) => each !== undefined);
    return `${used} is not in ${series}.${near.length > 0 ? ` Its neighbours are ${near.join(" and ")}.` : ""}`;
  },
  fixes: ({ below, above }, { row, context }) => choose([below, above], row, context),
};

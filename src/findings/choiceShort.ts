import { choose } from "../phrases/choosing";
import type { Wording } from "./finding";

/** `choose at least 47 µF` where 50 µF are wanted. */
export const choiceShort: Wording<"choice.short"> = {
  severity: "warning",
  reference:
    "`at least` or `at most` is not met over the whole range of what is wanted, with the limits of what is used.",
  message: ({ used, sense, wanted, next }) => {
    const plain = `At ${sense} ${wanted} is wanted, and ${used} is used.`;
    return next === undefined ? plain : `${plain} The next that serves is ${next}.`;
  },
  fixes: ({ next }, { row, context }) => choose([next], row, context),
};

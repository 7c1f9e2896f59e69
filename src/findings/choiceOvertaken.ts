import { choose } from "../phrases/choosing";
import type { Wording } from "./finding";

/** The want has moved, and another member of the series is nearer to it. */
export const choiceOvertaken: Wording<"choice.overtaken"> = {
  severity: "warning",
  reference:
    "Another member of the series or list is nearer to what is wanted than the one in use: the inputs have moved since it was chosen.",
  message: ({ used, wanted, series, better }) =>
    `${used} is used, but ${better} of ${series} is nearer to the ${wanted} wanted.`,
  fixes: ({ better }, { row, context }) => choose([better], row, context),
};

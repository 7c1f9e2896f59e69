import { sideText } from "../phrases/side";
import type { Wording } from "./finding";

/** `if 3 V then …`. */
export const truthNeeded: Wording<"truth.needed"> = {
  severity: "error",
  reference: "A condition, such as `a < b`, is wanted where a quantity stands.",
  message: ({ where, side }, { row, context }) =>
    `A condition is wanted ${where}, not ${sideText(side, row, context)}. Compare it with something: \`a < b\`.`,
};

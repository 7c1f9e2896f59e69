import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `3 V + (a < b)`. */
export const truthUnexpected: Wording<"truth.unexpected"> = {
  severity: "error",
  reference: "A quantity is wanted where a condition, such as `a < b`, stands.",
  message: ({ where, text }) =>
    `A quantity is wanted ${where}, and \`${shortened(text)}\` is a condition. As a number it is \`if … then 1 else 0\`.`,
};

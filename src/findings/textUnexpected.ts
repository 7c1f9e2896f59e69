import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `sum(parts.kind)` of a column of words. */
export const textUnexpected: Wording<"text.unexpected"> = {
  severity: "error",
  reference:
    "Text stands where a quantity or a condition is needed. Text is compared with `=` and `!=`, and nothing else is done with it.",
  message: ({ where, text }) =>
    `\`${shortened(text)}\` is text, and cannot stand ${where}. Text is compared with \`=\` and \`!=\`: \`parts.kind = "screw"\`.`,
};

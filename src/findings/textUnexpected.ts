import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `x = "H7"`, `sum(parts.kind)` of a column of words. */
export const textUnexpected: Wording<"text.unexpected"> = {
  severity: "error",
  reference:
    'Text in quotes or in a cell names a case. It is looked up, it is the argument of a function, such as `nearest("E24", x)`, and it is compared by `=` and `!=`. It is no value.',
  message: ({ where, text }) =>
    `\`${shortened(text)}\` is text, and cannot stand ${where}. Text is compared with \`=\` and \`!=\`: \`parts.kind = "screw"\`.`,
};

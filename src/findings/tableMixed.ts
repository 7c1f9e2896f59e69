import { kindText } from "../phrases/side";
import type { Wording } from "./finding";

/** `sum(parts.price)` of prices apiece and prices a board. */
export const tableMixed: Wording<"table.mixed"> = {
  severity: "error",
  reference:
    "The cells of the column are of more than one kind, so that they make no list. A computed column may use them row by row.",
  message: ({ column, left, right }) =>
    `\`${column}\` is no list of one kind: \`${left.row}\` is ${kindText(left)} and \`${right.row}\` is ${kindText(right)}. Row by row a computed column can use it.`,
};

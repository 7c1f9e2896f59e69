import { shortened } from "../phrases/side";
import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** A word in a column of values, or a calculation without `=`. */
export const tableCell: Wording<"table.cell"> = {
  severity: "error",
  reference:
    "A cell holds a value (`40 mA`, `12 V ± 5 %`), or `=` and an expression; it is text where one cell of the column is in quotes, or where most are words.",
  message: ({ found, column, rewritten }) =>
    rewritten.length > 0
      ? `\`${shortened(found)}\` is a calculation: in a cell it begins with \`=\`.`
      : `\`${shortened(found)}\` is no value, and \`${column}\` is a column of values. Write a value, \`= ${shortened(found)}\` for the quantity of that name, or put it in quotes if the column is text.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

import type { Wording } from "./finding";

/** A row and a column of one name. */
export const tableRowLikeColumn: Wording<"table.rowLikeColumn"> = {
  severity: "warning",
  reference: "A row and a column have the same name, which means the column. The row is found by its name in brackets.",
  message: ({ table, row }) =>
    `\`${row}\` is the name of a row too: \`${table}.${row}\` is this column, and the row is \`${table}["${row}"]\`.`,
};

import type { Wording } from "./finding";

/** A cell of a column of values that says nothing. */
export const tableEmptyCell: Wording<"table.emptyCell"> = {
  severity: "warning",
  reference: "The cell is empty in a column of values. What rests on it has no value; nothing is written `0`.",
  message: ({ row, column }) =>
    `\`${row}\` has no value in \`${column}\`, and neither has what rests on it. Write \`0\` for nothing.`,
};

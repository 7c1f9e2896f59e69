import type { Wording } from "./finding";

/** A row of a file is named, and others have the same name. */
export const tableRepeatedRow: Wording<"table.repeatedRow"> = {
  severity: "warning",
  reference:
    "Rows of a file may have the same name. Where one is named, the first of them is meant; the others are reached by `filter`.",
  message: ({ row, table, count }) =>
    `\`${row}\` is the name of ${count} rows of \`${table}\`, and only the first is meant by it. All of them are \`filter(${table}.column, ${table}.name = "${row}")\`, with the names of two columns.`,
};

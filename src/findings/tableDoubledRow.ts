import type { Wording } from "./finding";

/** Two rows of one name. */
export const tableDoubledRow: Wording<"table.doubledRow"> = {
  severity: "error",
  reference:
    "A row is found by the name in its first cell, so each has its own. The first of two equal ones is the one that is found.",
  message: ({ row, firstRow }) =>
    `\`${row}\` is the name of row ${firstRow + 1} already, which is the one that is found by it. Rename one of the two.`,
};

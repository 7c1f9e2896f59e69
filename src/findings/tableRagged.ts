import { isTableFile } from "../engine/uses";
import type { Wording } from "./finding";

/** A row with fewer or more cells than the header. */
export const tableRagged: Wording<"table.ragged"> = {
  severity: "error",
  reference:
    "Every row of a data table has as many cells as its header. An empty cell is still written; a pipe inside a cell is `\\|`, and parallel is `∥`.",
  message: ({ row, cells, columns }, { context }) => {
    const name = row === "" ? "This row" : `\`${row}\``;
    const inside = isTableFile(context.snapshot.path)
      ? "A field with a separator in it stands in quotes."
      : "A pipe inside a cell is written `\\|`.";
    return cells > columns
      ? `${name} has ${cells} cells under ${columns === 1 ? "one header" : `${columns} headers`}: what is too much is not read. ${inside}`
      : `${name} has ${cells} of ${columns} cells. Write the others, if only empty, so that none stands in the wrong column.`;
  },
};

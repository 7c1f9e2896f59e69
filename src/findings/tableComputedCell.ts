import { shortened } from "../phrases/side";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** A value under `total = qty * price`. */
export const tableComputedCell: Wording<"table.computedCell"> = {
  severity: "warning",
  reference: "The header of the column has a formula, so its cells are computed and stay empty in the text.",
  message: ({ found, column }) =>
    `\`${column}\` is computed in every row, and \`${shortened(found)}\` is not used. Empty the cell, or take the formula out of the header.`,
  fixes: ({ span }, { row }) => [{ title: "Empty the cell", edits: [replaceIn(row, span, "")] }],
};

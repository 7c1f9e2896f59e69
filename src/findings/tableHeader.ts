import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `| parts: | unit price |`: a column has no name by which it could be used. */
export const tableHeader: Wording<"table.header"> = {
  severity: "error",
  reference:
    "The header of a data table's column is a name, perhaps with a unit in brackets or with a formula: `qty`, `current [mA]`, `total = qty * price`.",
  message: ({ found }) =>
    found === ""
      ? "This column has no name. Write one, or what it computes: `total = qty * price`."
      : `\`${found}\` is no name, so nothing can use this column. A name has letters, digits and \`_\`.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

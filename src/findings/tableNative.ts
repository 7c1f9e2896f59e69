import type { Wording } from "./finding";

/** A column that is called `sum`. */
export const tableNative: Wording<"table.native"> = {
  severity: "information",
  reference:
    "The column has the name of a built-in function. Both can be used, since a function is followed by brackets; a reader may take one for the other.",
  message: ({ column }) =>
    `\`${column}\` is a built-in function too. In formulas \`${column}\` is this column, and \`${column}(…)\` the function.`,
};

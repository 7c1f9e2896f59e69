import type { Slip } from "./slip";

const CELLS =
  "Cells have no addresses here: each value has a name, and a column of a table is written `table.column`, its total `sum(table.column)`.";

/** `A1`, `$B$2`. */
const ADDRESS = /(?<![\p{L}\d_])\$?[A-Z]{1,3}\$?\d+(?![\p{L}\d_])/u;

/** What is left of a formula that was copied from a spreadsheet. */
export const SPREADSHEETS: readonly Slip[] = [
  {
    // `total = SUM(A1:A3)`
    behind: /^:\s*\$?[A-Z]{1,3}\$?\d+/,
    before: /(?<![\p{L}\d_])\$?[A-Z]{1,3}\$?\d+\s*$/u,
    says: () => CELLS,
  },
  {
    // `x = $A$1 * 3`
    behind: /^\$[A-Z]{1,3}\$?\d+/,
    says: () => CELLS,
  },
  {
    // `x = A$1 * 3`
    behind: /^\$\d+(?![\d.])/,
    before: /(?<![\p{L}\d_])[A-Z]{1,3}$/u,
    says: () => CELLS,
  },
  {
    // `=IF(A1>3,1,2)`
    behind: /^=\s*(\S.*?)\s*$/,
    before: /^\s*$/,
    says: ([, formula]) =>
      ADDRESS.test(formula)
        ? `A formula has a name before its \`=\`. ${CELLS}`
        : `A formula has a name before its \`=\`: \`x = ${formula}\`.`,
  },
  {
    // `x = =3 * a`
    behind: /^(=\s*)(\S.*)/,
    before: /=\s*$/,
    says: ([, , formula]) => (ADDRESS.test(formula) ? CELLS : "A definition has one `=`."),
    mends: ([, sign, formula]) => (ADDRESS.test(formula) ? undefined : { length: sign.length, text: "" }),
  },
];

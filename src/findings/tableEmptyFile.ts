import type { Wording } from "./finding";

/** A file that is used as a table, and has nothing in it. */
export const tableEmptyFile: Wording<"table.emptyFile"> = {
  severity: "error",
  reference: "A table that is a file begins with a line of headers, and this file has none.",
  message: ({ path }) =>
    `\`${fileName(path)}\` is empty. A table begins with a line of headers, a row to each line after it.`,
};

function fileName(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

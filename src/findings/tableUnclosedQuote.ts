import type { Wording } from "./finding";

/** A field in quotes that runs to the end of a file. */
export const tableUnclosedQuote: Wording<"table.unclosedQuote"> = {
  severity: "error",
  reference:
    "A field of a CSV file opens with a quotation mark that nothing closes, so that the rest of the file is read as one field.",
  message: () =>
    "A field opens here with a quotation mark that nothing closes: the rest of the file is read as part of it. Inside quotes a mark is written twice.",
};

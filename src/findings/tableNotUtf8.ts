import type { Wording } from "./finding";

/** U+FFFD in a file that is used as a table. */
export const tableNotUtf8: Wording<"table.notUtf8"> = {
  severity: "warning",
  reference:
    "A table that is a file holds characters that are not UTF-8, and they are lost where it is read. Export it as UTF-8.",
  message: ({ count }) =>
    `${count === 1 ? "A character" : `${count} characters`} of this file could not be read, because it is not UTF-8, so that a name or text in it may not be found. Export it as UTF-8, or save it so in an editor.`,
};

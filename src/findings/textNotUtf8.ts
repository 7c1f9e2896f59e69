import type { Wording } from "./finding";

/** U+FFFD, which stands for what could not be read. */
export const textNotUtf8: Wording<"text.notUtf8"> = {
  severity: "warning",
  reference: "The file holds characters that are not UTF-8, and they are lost where it is read. Save it as UTF-8.",
  message: ({ count }) =>
    `${count === 1 ? "A character" : `${count} characters`} of this file could not be read, because it is not UTF-8. Open it in its own encoding and save it as UTF-8.`,
};

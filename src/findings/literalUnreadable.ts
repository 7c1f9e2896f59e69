import type { Wording } from "./finding";

/** `1e999`, `4k7X`. */
export const literalUnreadable: Wording<"literal.unreadable"> = {
  severity: "error",
  reference:
    "The number is beyond what can be computed with, or its letter code has a letter that IEC 60062 does not know.",
  message: ({ text }) => `\`${text}\` is no number that can be computed with.`,
};

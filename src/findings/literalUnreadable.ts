import type { Wording } from "./finding";

/** `1e999`, `1e-400`, `1/0`, `4k7X`. */
export const literalUnreadable: Wording<"literal.unreadable"> = {
  severity: "error",
  reference:
    "The number is beyond what can be computed with, or its letter code has a letter that IEC 60062 does not know, or it stands among readings with an uncertainty of its own.",
  message: ({ text, reason }) => {
    if (reason === "letter")
      return `\`${text}\` is no letter code: its last letter is no tolerance of IEC 60062, such as \`F\` for 1 %, \`J\` for 5 % or \`K\` for 10 %.`;
    if (reason === "uncertain")
      return `\`${text}\` states an uncertainty of its own, and readings are plain numbers: their spread tells it.`;
    if (/\/[0_]+(?!\d)/.test(text)) return `\`${text}\` divides by zero.`;
    return `\`${text}\` is beyond the numbers that can be computed with: in SI units they lie between 5e-324 and 1.8e308.`;
  },
};

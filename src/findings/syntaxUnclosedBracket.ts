import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `(a + b`. */
export const syntaxUnclosedBracket: Wording<"syntax.unclosedBracket"> = {
  severity: "error",
  reference:
    "An open bracket has no partner. A line at the statement's own indentation begins a new statement, closed or not.",
  message: ({ open, close }) =>
    `\`${open}\` has no \`${close}\`. A statement goes on in the next line only if that is set in deeper.`,
  fixes: ({ close, insertAt }, { row }) => [
    {
      title: `Insert ${close}`,
      edits: [replaceIn(row, { start: insertAt, end: insertAt }, close)],
      isPreferred: true,
    },
  ],
};

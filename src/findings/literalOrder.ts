import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `5 .. 3 V`. */
export const literalOrder: Wording<"literal.order"> = {
  severity: "error",
  reference: "The lower limit stands first: minimum .. typical .. maximum.",
  message: ({ low, high }) => `The lower limit stands first, and ${low} is above ${high}. Swap them.`,
  fixes: ({ rewritten, span }, { row }) => [
    { title: `Write ${rewritten}`, edits: [replaceIn(row, span, rewritten)], isPreferred: true },
  ],
};

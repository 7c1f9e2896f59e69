import type { Wording } from "./finding";
import { nextLineSetIn, replaceIn } from "./fixing";

/** `x = (a + b`. */
export const syntaxUnclosedBracket: Wording<"syntax.unclosedBracket"> = {
  severity: "error",
  reference:
    "An open bracket has no partner. A line at the statement's own indentation begins a new statement, closed or not.",
  message: ({ open, close }) =>
    `\`${open}\` has no \`${close}\`. A statement goes on in the next line only if that is set in deeper.`,
  fixes: ({ close, insertAt }, { row, context }) => {
    const goesOn = nextLineSetIn(row, context.snapshot);
    // Behind a sign or a comma something is missing besides.
    const isComplete = /[\p{L}\d_)\]"%°²³]$/u.test(row.statement.text.slice(0, insertAt));
    if (goesOn.length > 0 || !isComplete) return goesOn;
    const edits = [replaceIn(row, { start: insertAt, end: insertAt }, close)];
    return [{ title: `Insert ${close}`, edits, isPreferred: true }];
  },
};

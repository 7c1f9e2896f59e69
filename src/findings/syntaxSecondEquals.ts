import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `x = a = b`. */
export const syntaxSecondEquals: Wording<"syntax.secondEquals"> = {
  severity: "error",
  reference: "A definition has one `=`. A comparison as a value is written in brackets.",
  message: ({ rewritten }) =>
    `A definition has one \`=\`. Give each name a line of its own; if this is a comparison, write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row).map(({ title, edits }) => ({ title, edits })),
};

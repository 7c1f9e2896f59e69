import type { Wording } from "./finding";

/** `from "a" from "b"`. */
export const syntaxRepeatedClause: Wording<"syntax.repeatedClause"> = {
  severity: "error",
  reference: "A statement takes each of its clauses once.",
  message: ({ word }) => `This statement has two clauses that begin with \`${word}\`. Keep one.`,
};

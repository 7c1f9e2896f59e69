import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `another supply`, where the supply is one for all. */
export const pieceSame: Wording<"piece.same"> = {
  severity: "warning",
  reference:
    "`another x` and `total(n, x)` draw the `each` inputs of x anew, and x has none, so that it is the same quantity for every piece. Mark the inputs that differ from piece to piece by `each`.",
  message: ({ text, of, whole }) =>
    of === "another"
      ? `Nothing of \`${whole}\` differs from piece to piece, so that \`${text}\` is the same quantity. Mark the inputs that differ by \`each\`.`
      : `Nothing of the pieces differs, so that \`${text}\` is \`${whole}\`. Mark the inputs that differ from piece to piece by \`each\`.`,
  fixes: ({ whole, span }, { row }) => [{ title: `Write ${whole}`, edits: [replaceIn(row, span, whole)] }],
};

import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `^^` or a ditto mark: cells of a pipe table are never joined. */
export const tableMergedCell: Wording<"table.mergedCell"> = {
  severity: "error",
  reference: "Cells of a pipe table are never joined, and each has its own value: it is repeated where it is the same.",
  message: ({ found, rewritten }) =>
    `\`${found}\` does not take over the cell beside it: every cell has its own value.${rewritten.length > 0 ? ` Repeat \`${rewritten[0]}\`.` : ""}`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

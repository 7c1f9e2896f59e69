import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `a < 1 || b < 2`. */
export const syntaxParallelOfConditions: Wording<"syntax.parallelOfConditions"> = {
  severity: "error",
  reference: "`||` puts components in parallel. Between conditions write `or`.",
  message: () => "`||` puts components in parallel. Between conditions write `or`; around components write brackets.",
  fixes: (problem, { row }) => rewritings(problem, row),
};

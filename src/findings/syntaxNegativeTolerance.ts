import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `5 V ± -2 %`. */
export const syntaxNegativeTolerance: Wording<"syntax.negativeTolerance"> = {
  severity: "error",
  reference:
    "A tolerance has no sign, since `±` goes both ways. Limits that differ are written out: `4.5 .. 5 .. 5.2 V`.",
  message: () =>
    "A tolerance has no sign: `±` goes both ways. Limits that differ are written out: `lowest .. nominal .. highest`.",
  fixes: (problem, { row }) => rewritings(problem, row),
};

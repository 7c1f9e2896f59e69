import type { Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `W/m·K`, `W/m/K`. */
export const syntaxUnitNeedsBrackets: Wording<"syntax.unitNeedsBrackets"> = {
  severity: "error",
  reference:
    "A unit has one solidus, and what stands below it in brackets where it is several: `W/(m·K)` (ISO 80000-1).",
  message: ({ rewritten }) => `What stands below the solidus is not plain. Write ${alternatives(rewritten)}.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};

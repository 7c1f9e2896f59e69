import type { EngineProblem } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { named } from "../phrases/describeQuantity";
import type { FindingContext, Severity, Wording } from "./finding";

/** What is wrong with a computed column in some of its rows. `message` words the problem itself. */
export function tableRows(
  message: (problem: EngineProblem, row: Row, context: FindingContext) => string,
  severityOf: (problem: EngineProblem) => Severity,
): Wording<"table.rows"> {
  return {
    severity: "error",
    severityOf: ({ problem }) => severityOf(problem),
    reference:
      "In some of its rows a computed column comes to nothing. The message says in which, and why; the others are computed.",
    message: ({ rows, left, problem }, { row, context }) => {
      const shown = rows.map((name) => (name.startsWith("row ") ? name : `\`${name}\``));
      const names = left > 0 ? `${shown.join(", ")} and ${left} more rows` : named(shown);
      return `In ${names}: ${message(problem, row, context)}`;
    },
  };
}

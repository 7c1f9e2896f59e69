import type { Problem } from "../engine/outcome";
import type { Row } from "../engine/snapshot";
import type { FindingContext, Severity, Wording } from "./finding";

/** What is wrong in a table that is a file, told where it is used: nobody opens the file to see. */
export function tableFile(
  message: (problem: Problem, row: Row, context: FindingContext) => string,
  severityOf: (problem: Problem) => Severity,
): Wording<"table.file"> {
  return {
    severity: "error",
    severityOf: ({ problem }) => severityOf(problem),
    reference: "Something is wrong in a table that is a file. The message says what, on which line, and how much else.",
    message: ({ problem, inRow, line, column, left, path }, { context }) => {
      const home = context.other(path);
      const place = `Line ${line}${column === undefined ? "" : `, \`${column}\``}`;
      const inside = message(problem, inRow, home ? { ...context, snapshot: home } : context);
      const more =
        left === 0 ? "" : left === 1 ? " One other thing is wrong in it." : ` ${left} other things are wrong in it.`;
      return `${place}: ${inside}${more}`;
    },
  };
}

import type { Problem } from "../engine/outcome";
import type { Row } from "../engine/snapshot";
import type { FilePlace, FindingContext, Severity, Wording } from "./finding";

/** So much of what is wrong in a file is told in full. */
const MOST_TOLD = 3;
/** So many lines are named on which there is more. */
const MOST_LINES = 5;

/** What is wrong in a table that is a file, told where it is used: nobody opens the file to see. */
export function tableFile(
  message: (problem: Problem, row: Row, context: FindingContext) => string,
  severityOf: (problem: Problem) => Severity,
): Wording<"table.file"> {
  return {
    severity: "error",
    severityOf: ({ places }) => {
      const [{ problem }] = places;
      return places.some((each) => severityOf(each.problem) === "error") ? "error" : severityOf(problem);
    },
    reference:
      "Something is wrong in a table that is a file. The message says what, on which line, and on which lines more is.",
    message: ({ places, path }, { context }) => {
      const home = context.other(path);
      const inFile = home ? { ...context, snapshot: home } : context;
      const told = ({ line, column, problem, inRow }: FilePlace) =>
        `Line ${line}${column === undefined ? "" : `, \`${column}\``}: ${message(problem, inRow, inFile)}`;
      // Behind a mark that nothing closes all is read wrongly.
      const isLost = places[0].problem.code === "table.unclosedQuote";
      const most = isLost ? 1 : MOST_TOLD;
      const left = places.slice(most);
      return [...places.slice(0, most).map(told), ...(left.length > 0 ? [moreText(left, isLost)] : [])].join(" ");
    },
  };
}

function moreText(left: readonly FilePlace[], isLost: boolean): string {
  const plain = left.length === 1 ? "One other thing is wrong in it" : `${left.length} other things are wrong in it`;
  if (isLost) return `${plain}.`;
  const lines = [...new Set(left.map(({ line }) => line))];
  const more = lines.length > MOST_LINES;
  const named = more ? lines.slice(0, MOST_LINES) : lines.slice(0, -1);
  const last = more ? "others" : `${lines[lines.length - 1]}`;
  return `${plain}, on line${lines.length === 1 ? "" : "s"} ${named.length > 0 ? `${named.join(", ")} and ` : ""}${last}.`;
}

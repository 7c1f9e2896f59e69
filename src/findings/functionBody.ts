import type { EngineProblem } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { lineText, relatedPlace } from "../phrases/place";
import type { FindingContext, Wording } from "./finding";

/** A problem in a function that shows for the arguments of this call. `message` words the problem itself. */
export function functionBody(
  message: (problem: EngineProblem, row: Row, context: FindingContext) => string,
): Wording<"function.body"> {
  return {
    severity: "error",
    reference:
      "With the arguments of this call something is wrong inside the function. The message says what, and where.",
    message: ({ name, problem, within }, { row, context }) => {
      const home = within.path === context.snapshot.path ? context.snapshot : context.other(within.path);
      const place = home?.rowOf(within.statement);
      // The signature is that of a function which this note never calls.
      if (problem.code === "function.arguments")
        return `In ${name}(…), ${lineText(within, context)}: \`${problem.name}\` ${problem.reason}.`;
      const inside =
        place && home ? message(problem, place, { ...context, snapshot: home }) : message(problem, row, context);
      return `In ${name}(…), ${lineText(within, context)}: ${inside}`;
    },
    related: ({ within }, { context }) => relatedPlace(within, context, "It is wrong here."),
  };
}

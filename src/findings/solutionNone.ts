import type { SidesAt } from "../engine/problem";
import type { Wording } from "./finding";

/** `let x in 3 .. 4 satisfy x^2 = 2`. */
export const solutionNone: Wording<"solution.none"> = {
  severity: "error",
  reference:
    "In the whole bracket one side stays above the other, so there is no solution there. The values of both sides at its ends tell on which side to look.",
  message: ({ name, ends }) =>
    `No \`${name}\` in this bracket satisfies the equation. ${ends.map((end) => sidesText(end, name)).join(". ")}.`,
};

function sidesText({ at, left, right }: SidesAt, name: string): string {
  return `At \`${name}\` = ${at} the left side is ${left ?? "not defined"}, the right ${right ?? "not defined"}`;
}

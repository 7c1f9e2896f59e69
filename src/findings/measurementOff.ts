import type { Origin } from "../engine/problem";
import type { ProblemOf, Site, Wording } from "./finding";

type Off = "measurement.disjoint" | "measurement.outside";

/** What was measured and what was predicted have nothing in common. */
export const measurementDisjoint: Wording<Off> = {
  severity: "error",
  reference:
    "A measurement and its prediction have no value in common: the model, an input or the measurement is wrong.",
  message: (problem, site) => `${sidesText(problem)}. They have no value in common.${wayOut(problem, site)}`,
};

/** What was measured lies partly outside of what was predicted. */
export const measurementOutside: Wording<Off> = {
  severity: "warning",
  reference: "A measurement is not inside what was predicted: the limits of the prediction may be too narrow.",
  message: (problem) =>
    `${sidesText(problem)}. ${problem.origin === "measured" ? "The first is not inside the second" : "The measurement is not inside it"}.`,
};

/** An input has no model that could be wrong: the measurement is, or its limits are. */
function wayOut({ name, origin }: ProblemOf<Off>, { row: { statement } }: Site<Off>): string {
  if (origin === "measured") return " Correct one of the two.";
  if (origin === "given") return ` If the measurement is right, correct what is given for \`${name}\`.`;
  if (statement.kind === "measured" && statement.instead)
    return " The measurement takes the place of the guess; if it is right, correct what was assumed, or its limits.";
  return origin === "assumed"
    ? " If the measurement is right, write `instead` behind it, and it takes the place of the guess."
    : "";
}

function sidesText({ name, measured, predicted, under, origin }: ProblemOf<Off>): string {
  const conditions = under === "" ? "" : ` at ${under}`;
  const other =
    origin === "measured"
      ? `as ${predicted} by the measurement that stands for the guess`
      : `${predicted} ${ORIGINS[origin]}`;
  return `${name} was measured as ${measured}${conditions}, and ${other}`;
}

const ORIGINS: Readonly<Record<Exclude<Origin, "measured">, string>> = {
  given: "is given",
  assumed: "was assumed",
  over: "is the condition",
  derived: "was predicted",
  chosen: "was chosen",
  found: "was found",
  order: "is ordered",
};

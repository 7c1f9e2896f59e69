import type { Origin } from "../engine/problem";
import type { ProblemOf, Wording } from "./finding";

type Off = "measurement.disjoint" | "measurement.outside";

/** What was measured and what was predicted have nothing in common. */
export const measurementDisjoint: Wording<Off> = {
  severity: "error",
  reference:
    "A measurement and its prediction have no value in common: the model, an input or the measurement is wrong.",
  message: (problem) => `${sidesText(problem)}. They have no value in common.${wayOut(problem)}`,
};

/** What was measured lies partly outside of what was predicted. */
export const measurementOutside: Wording<Off> = {
  severity: "warning",
  reference: "A measurement is not inside what was predicted: the limits of the prediction may be too narrow.",
  message: (problem) => `${sidesText(problem)}. The measurement is not inside it.`,
};

/** An input has no model that could be wrong: the measurement is, or its limits are. */
function wayOut({ name, origin }: ProblemOf<Off>): string {
  if (origin === "given") return ` If the measurement is right, correct what is given for \`${name}\`.`;
  return origin === "assumed"
    ? " If the measurement is right, write `instead` behind it, and it takes the place of the guess."
    : "";
}

function sidesText({ name, measured, predicted, under, origin }: ProblemOf<Off>): string {
  const conditions = under === "" ? "" : ` at ${under}`;
  return `${name} was measured as ${measured}${conditions}, and ${predicted} ${ORIGINS[origin]}`;
}

const ORIGINS: Readonly<Record<Origin, string>> = {
  given: "is given",
  assumed: "was assumed",
  over: "is the condition",
  derived: "was predicted",
  chosen: "was chosen",
  measured: "was measured",
  found: "was found",
  order: "is ordered",
};

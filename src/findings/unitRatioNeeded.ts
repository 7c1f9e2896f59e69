import { sideText } from "../phrases/side";
import type { Wording } from "./finding";

/** `sin(3 V)`, `2 ^ (1 s)`, `floor(2.5 V)`. */
export const unitRatioNeeded: Wording<"unit.ratioNeeded"> = {
  severity: "error",
  reference:
    "A plain number is needed here. Divide by a quantity of the same kind, or give a rounding function its step: `ceil(x, 0.5 V)`.",
  message: ({ where, side }, { row, context }) => {
    const wayOut = where.includes("without a step")
      ? "Give a step as the second argument."
      : "Divide it by a quantity of the same kind.";
    return `${capital(where)} takes a plain number, not ${sideText(side, row, context)}. ${wayOut}`;
  },
};

function capital(where: string): string {
  return where.startsWith("an ") ? `A${where.slice(1)}` : where;
}

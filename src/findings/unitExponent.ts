import { sideText } from "../phrases/side";
import type { Wording } from "./finding";

/** `(3 m)^x`, `(3 m)^0.3`, `cbrt(3 V)` of a unit without such a root. */
export const unitExponent: Wording<"unit.exponent"> = {
  severity: "error",
  reference:
    "A quantity with a unit is raised to a fixed power only, a multiple of one sixth: otherwise the unit of the result is not known.",
  message: ({ base, reason }, { row, context }) =>
    reason === "not constant"
      ? `${capital(sideText(base, row, context))} can be raised to a fixed power only, for else the unit of the result is not known.`
      : `${capital(sideText(base, row, context))} cannot be raised to this power: exponents of units are multiples of one sixth.`,
};

function capital(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}

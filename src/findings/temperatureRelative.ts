import type { Wording } from "./finding";

/** `25 °C ± 5 %`. */
export const temperatureRelative: Wording<"temperature.relative"> = {
  severity: "error",
  reference:
    "A share of a temperature on a scale has no meaning, because 0 °C is no zero. State the tolerance in K or °C.",
  message: ({ tolerance }) =>
    `${tolerance} of a temperature on a scale has no meaning, because 0 °C is no zero. State the tolerance in K.`,
};

import { MOST_TERMS } from "../engine/counters";
import { RATIO } from "../quantity/dimension";
import { showNumber } from "../quantity/display";
import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `sum(k for k = 1 .. 2.5)`, `sum(k for k = 1 .. n)` where n is uncertain. */
export const counterLimits: Wording<"counter.limits"> = {
  severity: "error",
  reference:
    "A counter runs from one whole number to another that is not less. Both are certain: numbers, quantities without a range, and `size(…)`. It has no more than a thousand terms.",
  message: ({ text, reason, broken }) => {
    const value = broken ? `, where \`${shortened(broken.text)}\` is ${showNumber(broken.value, RATIO)}` : "";
    return `The counter cannot run over \`${shortened(text)}\`${value}: ${REASONS[reason]}`;
  },
};

const REASONS = {
  "not whole": "its limits are two whole numbers without a unit, such as `1 .. 10`.",
  "not certain": "its limits are certain, and this has a range. Take its `nominal(…)`, `lowest(…)` or `highest(…)`.",
  none: "the first limit is the lower one, and this leaves no term.",
  "too many": `it would have more than ${MOST_TERMS} terms. A sum of that length has a formula of its own.`,
};

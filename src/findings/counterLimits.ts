import { MOST_TERMS } from "../engine/counters";
import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `sum(k for k = 1 .. 2.5)`, `sum(k for k = 1 .. n)` where n is worked out. */
export const counterLimits: Wording<"counter.limits"> = {
  severity: "error",
  reference:
    "A counter runs from one whole number to another that is not less. Both are known before anything is computed: numbers, parameters that stand for numbers, and `size(…)`. It has no more than a thousand terms.",
  message: ({ text, reason }) => `The counter cannot run over \`${shortened(text)}\`: ${REASONS[reason]}`,
};

const REASONS = {
  "not whole": "its limits are two whole numbers without a unit, such as `1 .. 10`.",
  "not known": "its limits have to be known before anything is computed. Write the number, or `size(…)` of a list.",
  none: "the first limit is the lower one, and this leaves no term.",
  "too many": `it would have more than ${MOST_TERMS} terms. A sum of that length has a formula of its own.`,
};

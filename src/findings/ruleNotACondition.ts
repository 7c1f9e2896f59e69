import { sideText } from "../phrases/side";
import type { Wording } from "./finding";

/** `must P`. */
export const ruleNotACondition: Wording<"rule.notACondition"> = {
  severity: "error",
  reference: "A rule states a condition, such as `must P <= 60 mW`.",
  message: ({ side }, { row, context }) =>
    `A rule states a condition, such as \`a <= b\`, and this is ${sideText(side, row, context)}.`,
};

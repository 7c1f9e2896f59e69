import { isName } from "../syntax/name";
import { sideText } from "../phrases/side";
import type { Fix } from "../text/fix";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `2 * 25 °C`. */
export const temperaturePoint: Wording<"temperature.point"> = {
  severity: "error",
  reference:
    "A temperature on a scale is a point, and 0 °C is no zero: it cannot be multiplied, divided or negated. Use a difference (`40 K`, `T - 20 °C`) or `kelvin(T)`.",
  message: ({ operation, side }, { row, context }) => {
    const what = sideText(side, row, context);
    const plain = `${what[0].toUpperCase()}${what.slice(1)} cannot be ${operation}.`;
    return side.point
      ? `${plain} Take a difference, such as \`${side.text} - 20 °C\`, or \`kelvin(${side.text})\`.`
      : plain;
  },
  fixes: ({ side }, { row }) => {
    if (!side.point) return [];
    const fixes: Fix[] = [];
    const difference = side.text.replace(/°C$/, "K");
    if (difference !== side.text)
      fixes.push({ title: `Write ${difference}, a difference`, edits: [replaceIn(row, side.span, difference)] });
    if (isName(side.text) || difference !== side.text) {
      const kelvin = `kelvin(${side.text})`;
      fixes.push({ title: `Write ${kelvin}, above absolute zero`, edits: [replaceIn(row, side.span, kelvin)] });
    }
    return fixes;
  },
};

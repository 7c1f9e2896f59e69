import type { Side } from "../engine/problem";
import type { Row } from "../engine/snapshot";
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
    return side.point ? `${plain} ${wayOut(side.text)}` : plain;
  },
  fixes: ({ side }, { row }) => {
    if (!side.point) return [];
    const fixes: Fix[] = [];
    const byHand = withZeroAdded(side.text);
    if (byHand !== undefined) return [absolute(byHand, side, row)];
    const difference = side.text.replace(/°C$/, "K");
    if (difference !== side.text)
      fixes.push({ title: `Write ${difference}, a difference`, edits: [replaceIn(row, side.span, difference)] });
    if (isName(side.text) || difference !== side.text) fixes.push(absolute(side.text, side, row));
    return fixes;
  },
};

function wayOut(text: string): string {
  const byHand = withZeroAdded(text);
  return byHand === undefined
    ? `Take a difference, such as \`${text} - 20 °C\`, or \`kelvin(${text})\`.`
    : `Above absolute zero it is \`kelvin(${byHand})\`, which adds the 273.15 K itself.`;
}

/** `(T + 273.15 K)`: what the zero was added to by hand, which would be added twice. */
function withZeroAdded(text: string): string | undefined {
  const [, before, behind] =
    /^\(?\s*(?:([^()+-]+?)\s*\+\s*273(?:\.15)?\s*K|273(?:\.15)?\s*K\s*\+\s*([^()+-]+?))\s*\)?$/.exec(text) ?? [];
  return before ?? behind;
}

function absolute(text: string, side: Side, row: Row): Fix {
  const kelvin = `kelvin(${text})`;
  return { title: `Write ${kelvin}, above absolute zero`, edits: [replaceIn(row, side.span, kelvin)] };
}

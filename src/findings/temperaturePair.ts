import type { Side } from "../engine/problem";
import { TEMPERATURE } from "../quantity/dimension";
import { sideText } from "../phrases/side";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `25 °C + 40 °C`, `must T <= 40 K`. */
export const temperaturePair: Wording<"temperature.pair"> = {
  severity: "error",
  reference:
    "A temperature on a scale and a difference are two kinds. Point plus difference is a point, and point minus point a difference; a difference is written in K.",
  message: ({ operation, left, right }, { row, context }) => {
    const [a, b] = [sideText(left, row, context), sideText(right, row, context)];
    const plain =
      operation === "add"
        ? `Cannot add ${b} to ${a}.`
        : operation === "subtract"
          ? `Cannot subtract ${b} from ${a}.`
          : `Cannot set ${a} beside ${b}.`;
    const isTemperature = left.dimension === TEMPERATURE && right.dimension === TEMPERATURE;
    return isTemperature ? `${plain} A difference is written in K, a point on a scale in °C.` : plain;
  },
  fixes: ({ operation, left, right }, { row }) => {
    // Beside a point, or beside a difference, a literal in °C where a difference belongs was meant as one.
    const meant =
      operation === "add" && left.point && right.point ? right : !left.point ? right : !right.point ? left : undefined;
    if (operation === "compare" && left.point) return [];
    if (meant === undefined || left.dimension !== TEMPERATURE || right.dimension !== TEMPERATURE) return [];
    return inKelvin(meant).map((text) => ({
      title: `Write ${text}, a difference`,
      edits: [replaceIn(row, meant.span, text)],
    }));
  },
};

function inKelvin({ text, point, name }: Side): readonly string[] {
  return point && name === undefined && text.endsWith("°C") ? [text.replace(/°C$/, "K")] : [];
}

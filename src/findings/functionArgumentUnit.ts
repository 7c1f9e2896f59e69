import { kindText, sideText } from "../phrases/side";
import { solidAngleText } from "../phrases/solidAngle";
import { RATIO, TEMPERATURE } from "../quantity/dimension";
import type { ProblemOf, Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `light.illuminance(100 cd, 3 s)` where a distance is wanted. */
export const functionArgumentUnit: Wording<"function.argumentUnit"> = {
  severity: "error",
  reference:
    "An argument is of another kind than the function asks for: `distance [m]` takes a length. A parameter without brackets takes any kind, and what is counted may come on top.",
  message: (problem, { row, context }) => {
    const { name, parameter, unit, wanted, side } = problem;
    const plain = `\`${parameter} [${unit}]\` of \`${name}\` is ${kindText(wanted)}, and this is ${sideText(side, row, context)}.`;
    return plain + wayOut(problem);
  },
  fixes: (problem, { row }) => {
    const texts = [meant(problem), asPoint(problem)].filter((text) => text !== undefined);
    return texts.map((text) => ({ title: `Write ${text}`, edits: [replaceIn(row, problem.side.span, text)] }));
  },
};

function wayOut(problem: ProblemOf<"function.argumentUnit">): string {
  const { wanted, side } = problem;
  const text = meant(problem);
  if (wanted.dimension === TEMPERATURE && side.dimension === TEMPERATURE) {
    const rule = " A point on a scale is written in °C, a difference in K";
    const point = asPoint(problem);
    const counted = point === undefined ? "" : ` If it counts from absolute zero, write \`${point}\`.`;
    return `${rule}${text === undefined ? "" : `: \`${text}\``}.${counted}`;
  }
  if (text !== undefined) return ` If the unit was forgotten, write \`${text}\`.`;
  return solidAngleText(side.dimension, wanted.dimension);
}

/** A temperature that counts from absolute zero, where a point on a scale is asked for. */
function asPoint({ wanted, side }: ProblemOf<"function.argumentUnit">): string | undefined {
  return wanted.point && side.dimension === TEMPERATURE && !side.point ? `point(${side.text})` : undefined;
}

/** A number as written in the unit that is asked for, where it has none, or where it is a temperature of the other kind. */
function meant({ unit, wanted, side }: ProblemOf<"function.argumentUnit">): string | undefined {
  const [, number, own] = /^(-?[\d._]+)\s*(°C|C|K)?$/.exec(side.text) ?? [];
  if (number === undefined || unit.startsWith("1/") || wanted.dimension === RATIO) return undefined;
  const isTemperature = wanted.dimension === TEMPERATURE;
  return own === undefined || isTemperature ? `${number} ${unit}` : undefined;
}

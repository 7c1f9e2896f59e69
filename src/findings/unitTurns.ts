import { operandText } from "../phrases/side";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `omega [rad/s] = 1200 rpm`, `P = 2 mN·m * 1200 rpm`. */
export const unitTurns: Wording<"unit.turns"> = {
  severity: "error",
  reference:
    "Hz and rpm count turns, rad measures the angle, and a turn is 2 * π rad. The dimension is the same, so no unit converts one into the other: the factor is written. Only a torque times an angle is work.",
  message: ({ is, turns, angle, side, torque }, { row, context }) => {
    const counts = `\`${turns}\` counts turns and \`${angle}\` angle`;
    if (torque === undefined) return `${counts}: ${is === "turns" ? "multiply" : "divide"} by 2 * π.`;
    const [rate, other] = [side, torque].map(({ text, name }) => operandText(text, name, row, context));
    return `${counts}, and a torque (${other}) takes the angle: multiply ${rate} by 2 * π. If it is no torque but the work of a turn, state it in \`J\`.`;
  },
  fixes: ({ is, side }, { row }) => {
    const value = isSimple(side.text) ? side.text : `(${side.text})`;
    const text = is === "turns" ? `2 * π * ${value}` : `${value} / (2 * π)`;
    return [{ title: `Write ${text}`, edits: [replaceIn(row, side.span, text)], isPreferred: true }];
  },
};

/** What a factor beside it does not tear apart. */
function isSimple(text: string): boolean {
  return !/[+\-−±|]|\.\.|^\s*if\b|\bwithout\b/.test(text);
}

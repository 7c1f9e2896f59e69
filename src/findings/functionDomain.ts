import type { CheckedArgument } from "../engine/problem";
import { lineText, relatedPlace } from "../phrases/place";
import { extentText } from "../phrases/value";
import type { Wording } from "./finding";

/** `trace_width(3 A, rise = 150 K)` where the function is for a rise of 10 K to 100 K. */
export const functionDomain: Wording<"function.domain"> = {
  severity: "warning",
  reference:
    "The arguments of a call are not inside what the function holds for, as its `where` states it, over their whole range. The value is computed all the same; whether it means anything is for you to say.",
  message: ({ name, condition, arguments: given, caller }, { context }) => {
    const isOne = given.length === 1;
    const subject = given.length === 0 ? "The call" : listed(given.map(argumentText));
    const says = `${subject} ${isOne || given.length === 0 ? "is" : "are"} outside what \`${name}\` holds for: \`${condition}\`.`;
    return caller ? `In ${caller.name}(…), ${lineText(caller.within, context)}: ${says}` : says;
  },
  related: ({ stated }, { context }) => relatedPlace(stated, context, "It is stated here."),
};

/** `rise 150 K`, `rise 150 K in row 3`. */
function argumentText({ name, extent, row, text, ...of }: CheckedArgument): string {
  if (text !== undefined) return `${name} "${text}"`;
  return `${name} ${extentText(extent, of)}${row === undefined ? "" : ` in row ${row + 1}`}`;
}

function listed(parts: readonly string[]): string {
  return parts.length === 1 ? parts[0] : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
}

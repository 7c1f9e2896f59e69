import { lineText, relatedPlace } from "../phrases/place";
import type { Wording } from "./finding";

/** `R1` and `R₁`, or a Greek letter beside a Latin one. */
export const nameLookAlike: Wording<"name.lookAlike"> = {
  severity: "warning",
  reference:
    "Two names of a note differ only by letters that look alike, so that a reader takes one for the other. Rename one.",
  message: ({ name, other, first }, { context }) =>
    `\`${name}\` looks like \`${other}\` ${lineText(first, context)}, but ${differenceText(name, other)}. Rename one of them.`,
  related: ({ other, first }, { context }) => relatedPlace(first, context, `\`${other}\` is defined here.`),
};

/** The first letter in which two names differ, by its number in Unicode, since it cannot be seen. */
function differenceText(name: string, other: string): string {
  const [letters, others] = [[...name], [...other]];
  const at = letters.findIndex((letter, i) => letter !== others[i]);
  const code = (letter: string) => `U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
  return `its character ${at + 1} is ${code(letters[at])}, not ${code(others[at])}`;
}

import { lineText, relatedPlace } from "../phrases/place";
import type { Wording } from "./finding";

/** Two statements define one name. */
export const nameDoubled: Wording<"name.doubled"> = {
  severity: "error",
  reference: "A name is defined once in a note, and the first definition counts. Rename one of the two, or remove it.",
  message: ({ name, first }, { context }) =>
    `\`${name}\` is defined already ${lineText(first, context)}, and that definition counts. Give this one another name, or remove one.`,
  related: ({ name, first }, { context }) => relatedPlace(first, context, `\`${name}\` is defined here.`),
};

import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `lookup(3, 4, 5)`. */
export const listNeeded: Wording<"list.needed"> = {
  severity: "error",
  reference: "A list or a column is wanted here, such as `[10 mm, 20 mm, 50 mm]`.",
  message: ({ name, text }) =>
    `\`${name}(…)\` needs a list here, and \`${shortened(text)}\` is none. A list is written \`[a, b]\`; a column is one, too.`,
};

import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `[[1, 2], 3]`, `[]`. */
export const listUnexpected: Wording<"list.unexpected"> = {
  severity: "error",
  reference: "A list stands where a single value is wanted, or it is empty.",
  message: ({ where, text }) => {
    const plain = `\`${shortened(text)}\` is a list, and none can stand ${where}.`;
    // An empty list has nothing that could be taken.
    return where.includes("because") ? plain : `${plain} Take one value of it, such as its \`sum(…)\` or \`max(…)\`.`;
  },
};

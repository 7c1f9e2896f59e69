import { wayOutIn } from "../phrases/slips/wayOut";
import type { Wording } from "./finding";
import { mending } from "./fixing";

/** `over T = T_low`. */
export const syntaxLiteralExpected: Wording<"syntax.literalExpected"> = {
  severity: "error",
  reference: "A number as written is wanted here, with or without limits, not an expression.",
  message: ({ found, span }, { row }) => {
    const meant = wayOutIn(row, span.start);
    const plain =
      found === ""
        ? "A number as written is expected here."
        : `A number as written is expected here, such as \`3 V\` or \`3 .. 5 V\`, not \`${found.trim()}\`.`;
    return meant === undefined ? plain : `${plain} ${meant.text}`;
  },
  fixes: ({ span }, { row }) => mending(wayOutIn(row, span.start)?.edit, row),
};

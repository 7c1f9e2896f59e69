import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `R1 + R2` alone on a line. */
export const syntaxUnnamedValue: Wording<"syntax.unnamedValue"> = {
  severity: "error",
  reference: "A value without a name can be used by nothing. Define a name for it.",
  message: ({ span }, { row }) =>
    `Nothing can use this value, for it has no name. Write \`NAME = ${shortened(row.statement.text.slice(span.start, span.end))}\`.`,
};

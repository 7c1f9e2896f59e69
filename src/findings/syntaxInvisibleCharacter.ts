import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** A zero-width or direction-control character. */
export const syntaxInvisibleCharacter: Wording<"syntax.invisibleCharacter"> = {
  severity: "error",
  reference: "A character that cannot be seen can make a line read otherwise than it computes. Remove it.",
  message: ({ codePoint }) =>
    `A character that cannot be seen stands here (U+${codePoint.toString(16).toUpperCase().padStart(4, "0")}), so that the line may read otherwise than it computes. Remove it.`,
  fixes: ({ span, codePoint, rewritten }, { row }) =>
    rewritings({ span, rewritten }, row).map((fix) => ({
      ...fix,
      title: `Remove U+${codePoint.toString(16).toUpperCase().padStart(4, "0")}`,
    })),
};

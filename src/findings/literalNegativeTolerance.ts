import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `12 V ± -5 %`. */
export const literalNegativeTolerance: Wording<"literal.negativeTolerance"> = {
  severity: "error",
  reference: "What stands behind `±` is a half-width and has no sign.",
  message: ({ text }) => `\`${text}\` stands behind \`±\` and needs no minus.`,
  fixes: ({ text, span }, { row }) => {
    const plain = text.replace(/^[-−]\s*/, "");
    return [{ title: `Write ${plain}`, edits: [replaceIn(row, span, plain)], isPreferred: true }];
  },
};

import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `50 % ± 5 %`. */
export const literalPointsOrShare: Wording<"literal.pointsOrShare"> = {
  severity: "error",
  reference: "Per cent of a percentage can be points of it or a share of it. Write which.",
  message: ({ text, asPoints, asShare }) =>
    `\`${text}\` can mean percentage points or a share of the percentage. Write \`${asPoints}\` or \`${asShare}\`.`,
  fixes: ({ asPoints, asShare, span }, { row }) => [
    { title: `Write ${asPoints}, points`, edits: [replaceIn(row, span, asPoints)] },
    { title: `Write ${asShare}, a share`, edits: [replaceIn(row, span, asShare)] },
  ],
};

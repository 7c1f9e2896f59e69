import { shortened } from "../phrases/side";
import type { Wording } from "./finding";

/** `[1, 2] + [1, 2, 3]`. */
export const listLengths: Wording<"list.lengths"> = {
  severity: "error",
  reference: "Lists are calculated with member by member and must be equally long.",
  message: ({ left, leftLength, right, rightLength }) =>
    `\`${shortened(left)}\` has ${leftLength} members and \`${shortened(right)}\` has ${rightLength}; lists meet member by member.`,
};

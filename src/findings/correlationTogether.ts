import type { Wording } from "./finding";

/** a with b 0.9, b with c 0.9, a with c −0.9. */
export const correlationTogether: Wording<"correlation.together"> = {
  severity: "error",
  reference:
    "What goes along with a third quantity cannot go against another that does so too: the matrix of the correlations must have no negative eigenvalue. A pair that is not stated counts as independent.",
  message: ({ name, other, r }) =>
    `Beside the other correlations, \`${name}\` and \`${other}\` cannot have the correlation ${r}: what goes along with the same third quantity cannot go against each other, and a pair that is not stated counts as independent. Correct one, or state the pair that is missing.`,
};

import type { Wording } from "./finding";

/** `total(1000, floor(x))`, or a copy of half a note. */
export const pieceTooMany: Wording<"piece.tooMany"> = {
  severity: "error",
  reference:
    "A further piece computes all that its `each` inputs reach once more, up to a limit; and a sum over a value with jumps, such as `floor` or `if`, computes every piece by itself.",
  message: ({ text, reason, most }) =>
    reason === "jumps"
      ? `\`${text}\` sums a value with jumps (rounding, a comparison, an \`if\`), for which every piece is computed by itself: ${most} at the most.`
      : `So many definitions lie between \`${text}\` and the inputs that differ from piece to piece that a further piece is not computed. Give a part of them to the pieces together.`,
};

import type { Wording } from "./finding";

/** `lowest(x)` where no minimum is known. */
export const rangeNoEnd: Wording<"range.noEnd"> = {
  severity: "error",
  reference:
    "`nominal`, `lowest` and `highest` take a value of a quantity as an exact number, and there is none to take.",
  message: ({ end, text }) =>
    end === "nominal"
      ? `\`${text}\` has no nominal value that could be taken.`
      : `\`${text}\` has no ${end} value that could be taken: its range has no such end.`,
};

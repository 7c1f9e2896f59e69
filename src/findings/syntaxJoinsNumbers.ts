import type { Wording } from "./finding";

/** `a .. b`, `12 V ± tolerance`. */
export const syntaxJoinsNumbers: Wording<"syntax.joinsNumbers"> = {
  severity: "error",
  reference: "`±` and `..` join numbers as written. Quantities are multiplied by or added to an uncertain number.",
  message: ({ sign }) =>
    sign === "±"
      ? "`±` joins numbers as written, not quantities. Multiply by an uncertain number instead, such as `x * (1 ± 2 %)`."
      : "`..` joins numbers as written, not quantities. Write the limits as numbers, or state them in a rule: `must low <= x <= high`.",
};

import type { Wording } from "./finding";

/** `f(x) = f(x - 1)`. */
export const functionRecursive: Wording<"function.recursive"> = {
  severity: "error",
  reference: "A function may not call itself, neither straight nor through others.",
  message: ({ path }) => `A function may not call itself, and this call does: ${path.join(" → ")}.`,
};

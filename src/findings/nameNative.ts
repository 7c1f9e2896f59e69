import type { Wording } from "./finding";

/** `sqrt(x) = …`. */
export const nameNative: Wording<"name.native"> = {
  severity: "error",
  reference: "A built-in function cannot be defined anew. Choose another name.",
  message: ({ name }) => `\`${name}\` is a built-in function and keeps its meaning. Choose another name.`,
};

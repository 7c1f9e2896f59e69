import type { Wording } from "./finding";

/** `drop(3 A)` where drop wants two. */
export const functionArguments: Wording<"function.arguments"> = {
  severity: "error",
  reference: "The arguments of a call do not fit the parameters of the function.",
  message: ({ name, reason, signature }) => `\`${name}\` ${reason}. It is \`${signature}\`.`,
};

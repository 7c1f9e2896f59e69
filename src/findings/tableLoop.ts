import type { Wording } from "./finding";

/** In an assembly: a part is in itself. */
export const tableLoop: Wording<"table.loop"> = {
  severity: "error",
  reference: "In an assembly a part is, perhaps by way of others, part of itself, so that it has no end.",
  message: ({ part, of }) =>
    part === of
      ? `\`${part}\` cannot be part of itself.`
      : `\`${part}\` is part of \`${of}\`, which is itself part of \`${part}\`. One of the two is not.`,
};

import { named } from "../phrases/describeQuantity";
import type { Wording } from "./finding";

/** In an assembly that is rolled up: parts without a value. */
export const tablePartEmpty: Wording<"table.partEmpty"> = {
  severity: "error",
  reference:
    "What an assembly comes to is the sum over its parts, so that each has a value, or parts of its own that have. Where there is none, `0` is written.",
  message: ({ column, parts, left }) => {
    const shown = parts.map((part) => `\`${part}\``);
    const names = left > 0 ? `${shown.join(", ")} and ${left} more` : named(shown);
    const has = parts.length + left === 1 ? "has" : "have";
    return `In \`${column}\` ${names} ${has} no value, and no parts of which it could be the sum. Write \`0\` for nothing.`;
  },
};

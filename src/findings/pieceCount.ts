import { numberText } from "../phrases/value";
import { RATIO } from "../quantity/dimension";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `total(2.5, x)`. */
export const pieceCount: Wording<"piece.count"> = {
  severity: "error",
  reference:
    "A number of pieces is whole, not negative, and certain: `total(nominal(n), x)` takes the nominal value of n.",
  message: ({ text, is }) => {
    if (is === "no value") return `The number of pieces, \`${text}\`, has no value.`;
    if (is === "uncertain")
      return `The number of pieces, \`${text}\`, has limits, and a sum has a certain number of them. Take one, such as \`nominal(${text})\`.`;
    const value = numberText(is, { dimension: RATIO, point: false });
    return `A number of pieces is whole and not negative; \`${text}\` is ${value === text ? "not" : value}.`;
  },
  fixes: ({ text, is, span }, { row }) =>
    is === "uncertain"
      ? [{ title: `Write nominal(${text})`, edits: [replaceIn(row, span, `nominal(${text})`)], isPreferred: true }]
      : [],
};

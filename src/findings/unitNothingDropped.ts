import { kindText } from "../phrases/side";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `3 V without LED`. */
export const unitNothingDropped: Wording<"unit.nothingDropped"> = {
  severity: "warning",
  reference: "`without` names a counted unit that the value does not have.",
  message: ({ name, side }) =>
    `There is no ${name} to drop: the value is ${kindText(side)}. Leave it out of \`without\`.`,
  fixes: ({ name, span }, { row }) => {
    const { text } = row.statement;
    const before = /(\s*,|\s*\bwithout)\s*$/.exec(text.slice(0, span.start));
    const after = /^\s*,\s*/.exec(text.slice(span.end));
    if (!before) return [];
    const isFirst = !before[0].includes(",");
    const dropped =
      isFirst && after
        ? { start: span.start, end: span.end + after[0].length }
        : { start: before.index, end: span.end };
    return [
      {
        title: `Remove ${isFirst && !after ? `without ${name}` : name}`,
        edits: [replaceIn(row, dropped, "")],
        isPreferred: true,
      },
    ];
  },
};

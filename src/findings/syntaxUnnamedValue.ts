import { shortened } from "../phrases/side";
import { isName } from "../syntax/name";
import type { Row } from "../engine/snapshot";
import type { Span } from "../text/span";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `R1 + R2` or `V > 3 V` alone on a line. */
export const syntaxUnnamedValue: Wording<"syntax.unnamedValue"> = {
  severity: "error",
  reference: "A value without a name can be used by nothing. Define a name for it; a condition stands in a rule.",
  message: ({ span }, { row }) => {
    const { text } = row.statement;
    const colon = colonBehind(span, row);
    if (colon) return `A definition has \`=\`: \`${text.slice(span.start, span.end)} = …\`.`;
    return isCondition(span, row)
      ? `A condition is judged by a rule: \`must ${shortened(text.trim())}\`.`
      : `Nothing can use this value, for it has no name. Write \`NAME = ${shortened(text.slice(span.start, span.end))}\`.`;
  },
  fixes: ({ span }, { row }) => {
    const colon = colonBehind(span, row);
    if (colon) return [{ title: "Write =", edits: [replaceIn(row, colon, " = ")], isPreferred: true }];
    return isCondition(span, row)
      ? [{ title: "Write must", edits: [replaceIn(row, { start: 0, end: 0 }, "must ")] }]
      : [];
  },
};

/** `supply: 5 V`: the colon, with the spaces around it. */
function colonBehind({ start, end }: Span, { statement: { text } }: Row): Span | undefined {
  const [colon] = /^\s*:\s*(?=\S)/.exec(text.slice(end)) ?? [];
  return colon !== undefined && isName(text.slice(start, end)) ? { start: end, end: end + colon.length } : undefined;
}

/** Whether a comparison goes on behind the value. */
function isCondition({ end }: Span, { statement: { text } }: Row): boolean {
  return /^\s*(?:[<>≤≥≠]|!=|inside\b)/.test(text.slice(end));
}

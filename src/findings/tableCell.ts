import { wayOutOf } from "../phrases/slips/wayOut";
import { shortened } from "../phrases/side";
import { firstProblem } from "../syntax/parse";
import { isName } from "../syntax/name";
import { applyEdits } from "../text/edit";
import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** A word in a column of values, or a calculation without `=`. */
export const tableCell: Wording<"table.cell"> = {
  severity: "error",
  reference:
    "A cell holds a value (`40 mA`, `12 V ± 5 %`), or `=` and an expression; it is text where one cell of the column is in quotes, or where most are words.",
  message: ({ found, column, rewritten }) => {
    const written = shortened(found);
    const slip = slipIn(found);
    if (slip !== undefined) return `\`${written}\` is no value. ${slip.text}`;
    if (rewritten.length > 0) return `\`${written}\` is a calculation: in a cell it begins with \`=\`.`;
    const quantity = isName(found) ? `, \`= ${written}\` for the quantity of that name` : "";
    return `\`${written}\` is no value, and \`${column}\` is a column of values. Write a value${quantity}, or put it in quotes if the column is text.`;
  },
  fixes: ({ span, found, rewritten }, { row }) => {
    const slip = slipIn(found);
    if (slip === undefined) return rewritings({ span, rewritten }, row);
    return slip.mended === undefined ? [] : rewritings({ span, rewritten: [slip.mended] }, row);
  },
};

const HEAD = "x = ";

/** A value that is written as elsewhere, `3 to 5 V` or `€5`: how it is written here, and the cell as it would be. */
function slipIn(found: string): { readonly text: string; readonly mended?: string } | undefined {
  const text = HEAD + found;
  const problem = firstProblem(text);
  const meant = problem && wayOutOf(text, problem.span.start);
  // A cell has no remark, and states no assumption.
  if (!meant || /`#`|assume/.test(meant.text)) return undefined;
  const whole = meant.edit && applyEdits(text, [meant.edit]);
  return whole?.startsWith(HEAD) && firstProblem(whole) === undefined
    ? { text: meant.text, mended: whole.slice(HEAD.length) }
    : { text: meant.text };
}

import { named } from "../phrases/describeQuantity";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** A row or a column that the table does not have. */
export const tableUnknown: Wording<"table.unknown"> = {
  severity: "error",
  reference:
    'The table has no row or no column of this name. `table.column` is a column, `table.row.column` a cell; a row whose name is none is written `table["M3×8"].column`.',
  message: ({ table, name, is, suggestion, has }) => {
    const plain = `The table \`${table}\` has no ${is} \`${name}\`.`;
    if (suggestion !== undefined) return `${plain} Did you mean \`${suggestion}\`?`;
    return has.length > 0 ? `${plain} It has ${named(has.map((each) => `\`${each}\``))}.` : plain;
  },
  fixes: ({ suggestion, span }, { row }) =>
    suggestion === undefined || row.statement.text[span.start] === '"'
      ? []
      : [{ title: `Write ${suggestion}`, edits: [replaceIn(row, span, suggestion)], isPreferred: true }],
};

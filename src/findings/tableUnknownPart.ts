import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** In an assembly: `of` names what is in no row. */
export const tableUnknownPart: Wording<"table.unknownPart"> = {
  severity: "error",
  reference: "What a part is `of` is a part of the same table; at the top the cell is empty.",
  message: ({ part, suggestion }) =>
    `No row of this table is the part \`${part}\`.${suggestion === undefined ? " Add it, or leave the cell empty at the top." : ` Did you mean \`${suggestion}\`?`}`,
  fixes: ({ suggestion, span }, { row }) =>
    suggestion === undefined
      ? []
      : [{ title: `Write ${suggestion}`, edits: [replaceIn(row, span, suggestion)], isPreferred: true }],
};

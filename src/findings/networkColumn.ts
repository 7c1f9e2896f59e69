import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** In a network: a column called as what the network comes to, or one that says once more what another says. */
export const networkColumn: Wording<"network.column"> = {
  severity: "error",
  reference:
    "A table with the columns `from`, `to` and a source or a load is a DC network. What it comes to has the names `voltage`, `supply`, `current`, `drop`, `power` and `loss`, which no column of its own has; and each of resistance, source and load is in one column.",
  message: ({ column, is }) =>
    is === "second"
      ? `\`${column}\` says once more what another column says. Keep one of the two: \`resistance\` or \`R\`, \`source\` or \`V\`, \`load\` or \`I\`.`
      : `\`${column}\` is what this network comes to, so no column of its own can be called that. Call it \`load\` where it is drawn, \`source\` where it is applied, and anything else where it is a rating.`,
};

/** A table that would be a network if a column were called otherwise. */
export const networkHeader: Wording<"network.header"> = {
  severity: "information",
  reference:
    "A table is a DC network by the names of its columns, letter by letter: `from`, `to`, and `source` or `load`. With another name for one of them it is a table like any other.",
  message: ({ column, word }) =>
    `Without a column \`${word}\` this table is no DC network. If it is meant to be one, write \`${word}\` for \`${column}\`: its columns are \`from\`, \`to\`, \`resistance\` or \`R\`, \`source\` or \`V\`, \`load\` or \`I\`.`,
  fixes: ({ word, span }, { row }) => [
    { title: `Write ${word}`, edits: [replaceIn(row, span, word)], isPreferred: true },
  ],
};

import { columnName } from "../engine/entry";
import type { Snapshot } from "../engine/snapshot";
import { named } from "../phrases/describeQuantity";
import type { Wording } from "./finding";
import { alternatives, replaceIn } from "./fixing";

/** A row or a column that the table does not have. */
export const tableUnknown: Wording<"table.unknown"> = {
  severity: "error",
  reference:
    'The table has no row or no column of this name. `table.column` is a column, `table.row.column` a cell; a row whose name is none is written `table["M3×8"].column`.',
  message: ({ table, name, is, asked, suggestion, has }, { context }) => {
    const ofNetwork = partOfNetwork({ table, name, asked, has }, context.snapshot);
    if (ofNetwork !== undefined) return ofNetwork.message;
    const plain = `The table \`${table}\` has no ${is} \`${name}\`.`;
    const isColumn = context.snapshot.find(columnName(table, name)) !== undefined;
    if (is === "row" && asked !== undefined && isColumn)
      return `${plain} It is a column, and the row comes before it: \`${table}.${asked}.${name}\`.`;
    if (suggestion !== undefined) return `${plain} Did you mean \`${suggestion}\`?`;
    return has.length > 0 ? `${plain} It has ${named(has.map((each) => `\`${each}\``))}.` : plain;
  },
  fixes: ({ table, name, asked, has, suggestion, span }, { row, context }) => {
    const ofNetwork = partOfNetwork({ table, name, asked, has }, context.snapshot);
    const written = ofNetwork ? ofNetwork.written : suggestion;
    return written === undefined || row.statement.text[span.start] === '"'
      ? []
      : [{ title: `Write ${written}`, edits: [replaceIn(row, span, written)], isPreferred: true }];
  },
};

interface PartOfNetwork {
  readonly message: string;
  /** What is written for the name instead, where one thing can be meant. */
  readonly written?: string;
}

/** Nodes and branches are known by different names: the one has a voltage, the other a current, and a load a supply. */
function partOfNetwork(
  {
    table,
    name,
    asked,
    has,
  }: {
    readonly table: string;
    readonly name: string;
    readonly asked?: string | undefined;
    readonly has: readonly string[];
  },
  snapshot: Snapshot,
): PartOfNetwork | undefined {
  const namesIn = (quantity: string) => {
    const row = snapshot.find(columnName(table, quantity));
    const isSolved = row?.statement.kind === "column" && row.statement.solved !== undefined;
    return isSolved && row.outcome.kind === "column" ? (row.outcome.names ?? []) : [];
  };
  if (namesIn("voltage").includes(name)) {
    const message = `\`${name}\` is a node of the network \`${table}\`, and has a voltage: write \`${table}.${name}.voltage\`.`;
    return { message, ...(asked === undefined ? { written: `${name}.voltage` } : {}) };
  }
  if (!namesIn("current").includes(name)) return undefined;
  const plain = `\`${name}\` is a branch of the network \`${table}\``;
  if (asked === "supply")
    return { message: `${plain} and no load, and a \`supply\` is what a load gets. Between its ends is its \`drop\`.` };
  if (asked === "voltage")
    return {
      message: `${plain}, and a \`voltage\` is that of a node, such as ${alternatives(has.slice(0, 2))}. Between its ends is its \`drop\`.`,
    };
  return undefined;
}

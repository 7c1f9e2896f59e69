import type { CellLines } from "../note/cellLines";
import type { CsvTable } from "../note/csvTable";
import { readDataTable, type DataTable } from "../note/dataTable";
import type { ProseBlock } from "../note/block";
import type { Statement } from "../syntax/statement";
import { parseColumn, parseTableHead, type HeadTraits } from "../syntax/table";
import type { Arena } from "../syntax/tree";
import { foldName } from "../syntax/name";

/** What a statement is read from, where it stands in its block, and how it is read. */
export interface Source {
  /** The same source gives the same statement. */
  readonly source: string;
  /** Counted from the block. */
  readonly start: number;
  parse(arena: Arena): Statement;
  /** Of the parts of a data table: the cells, and where they stand. */
  readonly lines?: CellLines;
  /** Of a table's parts: whether it is the head, which the columns follow. */
  readonly part?: "head" | "column";
}

/** Begins the sources of tables' parts, so that no statement is taken for one. */
const TABLE = "\u0001";

/** The data tables of a block of prose, each as its head and its columns. */
export function tableSources(text: string, block: ProseBlock): readonly Source[] {
  return block.tables.flatMap((span) => {
    const table = readDataTable(text, span);
    return table ? partsOf(table, { odd: table.odd, columns: table.columns.length + 1 }) : [];
  });
}

/** The same for a file that is a table. The first field of a line names its row and is a column too. */
export function csvSources(table: CsvTable): readonly Source[] {
  const { odd, columns, unclosed } = table;
  return partsOf(table, {
    odd,
    columns: columns.length,
    isFile: true,
    ...(unclosed === undefined ? {} : { unclosed }),
  });
}

/** The head and the columns of a table, each a statement of its own. */
function partsOf({ head, columns, rowCount, span }: DataTable, traits: HeadTraits): readonly Source[] {
  const name = foldName(head.line(0).replace(/\s*:$/, ""));
  return [
    {
      source: `${TABLE}${JSON.stringify(traits)}\n${head.text}`,
      start: span.start,
      parse: (arena) => parseTableHead(arena, head, rowCount, traits),
      lines: head,
      part: "head",
    },
    ...columns.map((lines): Source => ({
      source: `${TABLE}${name}\n${lines.text}`,
      start: span.start,
      parse: (arena) => parseColumn(arena, name, lines, traits.isFile),
      lines,
      part: "column",
    })),
  ];
}

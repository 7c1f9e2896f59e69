import { CellLines } from "../note/cellLines";
import type { CsvTable } from "../note/csvTable";
import { readDataTable, type DataTable } from "../note/dataTable";
import type { ProseBlock } from "../note/block";
import {
  isWritten,
  networkHeaders,
  networkWords,
  nodeOf,
  isReference,
  parseSolved,
  type NetworkHeaders,
} from "../syntax/network";
import type { Statement } from "../syntax/statement";
import { headerName, parseColumn, parseTableHead, type HeadTraits } from "../syntax/table";
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

/** The head and the columns of a table, each a statement of its own; of a network also what it comes to. */
function partsOf({ head, columns, rowCount, span }: DataTable, traits: HeadTraits): readonly Source[] {
  const name = foldName(head.line(0).replace(/\s*:$/, ""));
  const headers = columns.map((lines) => lines.line(0));
  const network = networkHeaders(headers);
  const words = networkWords(headers);
  return [
    {
      source: `${TABLE}${JSON.stringify(traits)}\n${head.text}`,
      start: span.start,
      parse: (arena) => parseTableHead(arena, head, rowCount, traits),
      lines: head,
      part: "head",
    },
    ...columns.map((lines, i): Source => {
      const role = network?.roles[i];
      const networkWord = words[i];
      const more = { ...(role ? { role } : {}), ...(networkWord === undefined ? {} : { networkWord }) };
      return {
        source: `${TABLE}${name}${role === undefined ? "" : ` ${role}`}${networkWord === undefined ? "" : ` as ${networkWord}`}\n${lines.text}`,
        start: span.start,
        parse: (arena) => parseColumn(arena, name, lines, { isFile: traits.isFile === true, ...more }),
        lines,
        part: "column",
      };
    }),
    ...(network ? solvedSources(network, name, { head, columns, rowCount, span }) : []),
  ];
}

/**
 * The columns that a network comes to. The text of each gathers the cells that it is about, so that it changes with the
 * branches and not with the values that lie between.
 */
function solvedSources(
  { from, to, columns, quantities }: NetworkHeaders,
  table: string,
  { head, columns: cells, rowCount, span }: Pick<DataTable, "head" | "columns" | "rowCount" | "span">,
): readonly Source[] {
  const ends = [cells[from], cells[to]];
  const rows = Array.from({ length: rowCount }, (_, row) => row);
  const load = cells.find((lines) => headerName(lines.line(0)) === columns.load);
  const loads = rows.filter((row) => load && (/=/.test(load.line(0)) || isWritten(load.line(row + 1))));
  return quantities.map((quantity): Source => {
    const isOfNodes = quantity === "voltage";
    const lines = new CellLines(true);
    lines.addLine(head, 0);
    const about = quantity === "supply" ? loads : rows;
    const nodes = isOfNodes ? nodesOf(ends, rowCount) : [];
    for (const [end, row] of nodes) lines.addLine(end, row + 1);
    if (!isOfNodes) for (const row of about) lines.addLine(head, row + 1);
    if (isOfNodes) for (const row of rows) for (const column of [...ends, head]) lines.addLine(column, row + 1);
    const names = isOfNodes ? nodes.length : about.length;
    const shape = { quantity, columns, names, rows: isOfNodes ? [] : about, branches: isOfNodes ? rowCount : 0 };
    return {
      source: `${TABLE}${table} ${JSON.stringify(shape)}\n${lines.text}`,
      start: span.start,
      parse: (arena) => parseSolved(arena, table, lines, shape),
      lines,
      part: "column",
    };
  });
}

/** The nodes of a network but the reference, each at the cell where it is first named. */
function nodesOf(ends: readonly CellLines[], rowCount: number): readonly (readonly [CellLines, number])[] {
  const seen = new Set<string>();
  const nodes: (readonly [CellLines, number])[] = [];
  for (let row = 0; row < rowCount; row++) {
    for (const end of ends) {
      const node = nodeOf(end.line(row + 1));
      if (node === "" || isReference(node) || seen.has(node)) continue;
      seen.add(node);
      nodes.push([end, row]);
    }
  }
  return nodes;
}

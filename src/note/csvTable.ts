import Papa from "papaparse";
import { CellLines } from "./cellLines";
import type { DataTable } from "./dataTable";

/** A CSV file as a data table, and what is wrong with it as such. */
export interface CsvTable extends DataTable {
  /** The row, from 0, in which a quotation mark opens that nothing closes; −1 for the header. */
  readonly unclosed?: number;
}

/** A name of a column, and a unit in square or round brackets behind it. */
const HEADER = /^(.*?)\s*(?:[[(]\s*([^\])]*?)\s*[\])])?\s*$/u;
/** A number with a decimal comma, perhaps with dots or spaces between groups of three, at the beginning of a field. */
const COMMA_NUMBER = /(^|[^\p{L}\d.,])(\d{1,3}(?:[.\u00a0\u202f ]\d{3})+|\d+),(\d+)(?![\d,])/gu;
const NUMBER_FIRST = /^[-−+±]?\s*\d/;

/**
 * Reads a CSV file (RFC 4180, and what goes by that name: any of `,` `;` tab `|` between fields, a byte order mark before the
 * first). The first field of a line names its row and is the first column too. Where commas do not separate, they are the
 * decimal sign. Headers that are no names become such: `Unit price (EUR)` is `Unit_price [EUR]`.
 * @param name of the table
 */
export function readCsvTable(text: string, name: string): CsvTable {
  const starts: number[] = [];
  const records: string[][] = [];
  let from = 0;
  let unclosed: number | undefined;
  let separator = ",";
  Papa.parse<string[]>(text, {
    skipEmptyLines: "greedy",
    step: ({ data, errors, meta }) => {
      separator = meta.delimiter;
      if (errors.some(({ code }) => code === "MissingQuotes")) unclosed ??= records.length - 1;
      starts.push(from);
      records.push(data);
      from = meta.cursor;
    },
  });
  const [headers = [], ...rows] = records;
  const hasDecimalComma = separator !== "," && rows.some((row) => row.some((field) => /^\s*[-−+]?\d+,\d/.test(field)));
  const fieldOf = (field: string) => {
    const written = field.replace(/\s+/g, " ").trim();
    return hasDecimalComma && NUMBER_FIRST.test(written) ? withPoints(written) : written;
  };
  const head = new CellLines();
  head.addInstead(`${name}:`, 0);
  const columns = headers.map((header) => {
    const lines = new CellLines();
    lines.addInstead(headerOf(header), 0);
    return lines;
  });
  const odd: { row: number; cells: number }[] = [];
  rows.forEach((fields, row) => {
    const at = Math.min(starts[row + 1], text.length);
    head.addInstead(fieldOf(fields[0] ?? ""), at);
    columns.forEach((lines, i) => lines.addInstead(fieldOf(fields[i] ?? ""), at));
    if (fields.length !== headers.length) odd.push({ row, cells: fields.length });
  });
  const table = { span: { start: 0, end: text.length }, head, columns, rowCount: rows.length, odd };
  return unclosed === undefined ? table : { ...table, unclosed };
}

/** `Unit price (EUR)` as `Unit_price [EUR]`; a header with a formula stays as it is. */
function headerOf(written: string): string {
  if (written.includes("=")) return written.trim();
  const [, name, unit] = HEADER.exec(written.trim()) ?? ["", written, undefined];
  const joined = name.replace(/[^\p{L}\p{M}\p{N}_]+/gu, "_").replace(/^_+|_+$/g, "");
  const safe = /^\p{N}/u.test(joined) ? `_${joined}` : joined;
  return unit ? `${safe} [${unit}]` : safe;
}

function withPoints(field: string): string {
  return field.replace(COMMA_NUMBER, (_, before: string, whole: string, fraction: string) => {
    return `${before}${whole.replace(/\D/g, "")}.${fraction}`;
  });
}

/**
 * Comma-separated values after RFC 4180: lines end in CRLF, and a field with a comma, a quote or a line break stands in
 * quotes, with its quotes doubled.
 *
 * Spreadsheets take text that begins with `=`, `+`, `-`, `@`, a tab or a carriage return for a formula, and a formula
 * from a stranger's file can run programs. Such a field gets an apostrophe in front, unless it is a number, or a range
 * as the tool prints it (`-5 .. 15 .. 35 °C`), that merely begins with a minus.
 */
export function csv(rows: readonly (readonly (string | number | undefined)[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function field(value: string | number | undefined): string {
  if (value === undefined) return "";
  if (typeof value === "number") return String(value);
  const safe = FORMULA.test(value) && !MEASURE.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const FORMULA = /^[=+\-@\t\r]/;
/** Numbers as they are printed, `..` between them, and at most one word behind them: their unit. */
const MEASURE = /^-\d[\d.]*(?:e[+-]?\d+)?(?: \.\. -?\d[\d.]*(?:e[+-]?\d+)?)*(?: [^\s"'=@!|+*]+)?$/;

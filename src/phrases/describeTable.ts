import type { ColumnOutcome } from "../engine/outcome";
import type { Row, Snapshot } from "../engine/snapshot";
import { columnsOf, namesOf, placeInColumn, rowsOf, writtenColumns } from "../engine/tableReferent";
import { named } from "./describeQuantity";
import { code, escaped } from "./markdown";
import { isReference } from "../syntax/network";
import { solvedText } from "./networkText";
import { cellNameOf, cellText, columnTotals, isComputedCell, rowNamesOf, shortName } from "./tableCells";

/** A table: how many rows, and which columns with what they come to. */
export function describeTable(home: Snapshot, head: Row): readonly string[] {
  const { outcome } = head;
  if (outcome.kind !== "table") return [];
  const columns = columnsOf(home, head).map(({ outcome: each }) =>
    each.kind === "column" ? columnLine(each, namesOf(each, outcome.rows)) : "",
  );
  const count = outcome.rows.length === 1 ? "one row" : `${outcome.rows.length} rows`;
  return [`**${code(outcome.name)}** is a table of ${count}`, columns.map((line) => `- ${line}`).join("\n")];
}

/** Lines of a file that are shown as a table. */
const LINES_SHOWN = 8;

/** A table that is a file, as a table of Markdown: its first lines. */
export function describeFile(home: Snapshot, head: Row, path: string): readonly string[] {
  const columns = writtenColumns(home, head).flatMap(({ cells }) => (cells ? [cells.lines] : []));
  const count = rowsOf(head).length;
  const shown = Math.min(count, LINES_SHOWN);
  const line = (i: number) => `| ${columns.map((lines) => escaped(lines.line(i))).join(" | ")} |`;
  const rows = Array.from({ length: shown }, (_, i) => line(i + 1));
  const rest = count > shown ? `and ${count - shown} more` : "";
  const table = [line(0), `|${" --- |".repeat(columns.length)}`, ...rows].join("\n");
  return [`The table ${code(path)}, ${count} rows`, table, rest].filter((text) => text !== "");
}

/** A column: what it comes to, what it computes, and what is wrong with it. */
export function describeColumn(home: Snapshot, row: Row, outcome: ColumnOutcome): readonly string[] {
  const { statement } = row;
  const solved = statement.kind === "column" ? statement.solved : undefined;
  const formula = solved
    ? solvedText(solved.quantity)
    : statement.kind === "column" && statement.value !== undefined
      ? `Computed in every row: ${code(statement.text.slice(statement.tree.start(statement.value), statement.tree.end(statement.value)))}`
      : "";
  return [`**${columnLine(outcome, rowNamesOf(home, outcome), code(outcome.name))}`, formula].filter(
    (text) => text !== "",
  );
}

function columnLine(outcome: ColumnOutcome, names: readonly string[], name = code(shortName(outcome))): string {
  const bold = name === code(outcome.name) ? "**" : "";
  const what = outcome.blockedBy === undefined ? "no value" : `no value, because ${code(outcome.blockedBy)} has none`;
  const said = {
    quantity: outcome.mixed ? "values of several kinds" : escaped(columnTotals(outcome, names)),
    truth: "conditions",
    text: "text",
    none: what,
  }[outcome.of];
  return `${name}${bold} ${said}`.trim();
}

/** One cell, by its name. */
export function describeCell(home: Snapshot, row: Row, outcome: ColumnOutcome, index: number): readonly string[] {
  const text = cellText(outcome, index);
  const names = rowNamesOf(home, outcome);
  const name = code(cellNameOf(outcome, names, index));
  if (row.statement.kind === "column" && row.statement.role === "end" && text !== "")
    return describeNode(home, outcome.table, text);
  const how = isComputedCell(row, index) && row.statement.kind === "column" ? computedText(row, index) : "";
  return [`**${name}** ${text === "" ? "has no value" : escaped(text)}`, how].filter((each) => each !== "");
}

/** A node of a network, where it is named as the end of a branch: its voltage, and what flows there. */
function describeNode(home: Snapshot, table: string, node: string): readonly string[] {
  const column = (name: string) => {
    const outcome = home.find(`${table}.${name}`)?.outcome;
    return outcome?.kind === "column" ? outcome : undefined;
  };
  const [voltages, currents] = [column("voltage"), column("current")];
  const voltage = voltages ? cellText(voltages, voltages.names?.indexOf(node) ?? -1) : "";
  const said = isReference(node)
    ? "is the reference, to which all voltages are measured"
    : voltage === ""
      ? "is a node, and has no voltage"
      : `is a node at ${escaped(voltage)}`;
  const ends = (end: string, way: string) =>
    (column(end)?.texts ?? []).flatMap((each, row) => {
      const current = currents && each === node ? cellText(currents, row) : "";
      return current === "" ? [] : [`- ${code(currents?.names?.[row] ?? "")} ${way} ${escaped(current)}`];
    });
  const branches = [...ends("to", "brings"), ...ends("from", "takes")];
  return [`**${code(node)}** ${said}`, branches.join("\n")].filter((each) => each !== "");
}

function computedText({ statement }: Row, index: number): string {
  if (statement.kind !== "column") return "";
  if (statement.solved) return solvedText(statement.solved.quantity);
  const node = statement.value ?? statement.cells[index];
  return `Computed: ${code(statement.text.slice(statement.tree.start(node), statement.tree.end(node)))}`;
}

/** A row: its cells. */
export function describeRow(home: Snapshot, head: Row, index: number): readonly string[] {
  const name = rowsOf(head)[index];
  const cells = columnsOf(home, head).flatMap((column) => {
    const { outcome } = column;
    const place = placeInColumn(column, index);
    if (outcome.kind !== "column" || place < 0) return [];
    const text = cellText(outcome, place);
    return text === "" ? [] : [`${code(shortName(outcome))} ${escaped(text)}`];
  });
  return [`**${code(name)}** row ${index + 1} of ${rowsOf(head).length}`, named(cells)].filter((text) => text !== "");
}

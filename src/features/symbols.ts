import type { Row, Snapshot } from "../engine/snapshot";
import { declarationsOf } from "../engine/referent";
import { rowsOf, writtenColumns } from "../engine/tableReferent";
import { outcomeText } from "../phrases/outcomeText";
import { columnTotals, shortName } from "../phrases/tableCells";
import type { Statement } from "../syntax/statement";
import type { Span } from "../text/span";
import type { DocumentSymbol } from "./feature";

/** The outline of a note: its headings as a tree, and under each what is defined, measured and ruled there. */
export function symbols(snapshot: Snapshot): readonly DocumentSymbol[] {
  const root: Open = { level: 0, children: [] };
  const open: Open[] = [root];
  for (const part of partsOf(snapshot)) {
    if (part.level === undefined) {
      open[open.length - 1].children.push(part.symbol);
      continue;
    }
    while (open[open.length - 1].level >= part.level) open.pop();
    const children: DocumentSymbol[] = [];
    open[open.length - 1].children.push({ ...part.symbol, children });
    open.push({ level: part.level, children });
  }
  return root.children;
}

interface Open {
  readonly level: number;
  readonly children: DocumentSymbol[];
}

interface Part {
  /** Of a heading. */
  readonly level?: number;
  readonly symbol: DocumentSymbol;
}

/** Headings and statements in the order of the text. */
function partsOf(snapshot: Snapshot): readonly Part[] {
  const parts = headingsOf(snapshot);
  for (const row of snapshot.rows) {
    const symbol = symbolOf(snapshot, row);
    if (symbol) parts.push({ symbol });
  }
  return parts.sort((a, b) => a.symbol.span.start - b.symbol.span.start);
}

function headingsOf({ blocks, text }: Snapshot): Part[] {
  const headings = blocks.flatMap(({ block, start }) =>
    block.kind === "prose"
      ? block.headings.map(({ span, level, text: title }) => ({
          start: start + span.start,
          end: start + span.end,
          level,
          title,
        }))
      : [],
  );
  return headings.map(({ start, end, level, title }, i) => {
    const next = headings.slice(i + 1).find((other) => other.level <= level);
    return {
      level,
      symbol: {
        name: title === "" ? "(untitled)" : title,
        detail: "",
        kind: "heading",
        span: { start, end: next?.start ?? text.length },
        nameSpan: { start, end },
        children: [],
      },
    };
  });
}

function symbolOf(snapshot: Snapshot, row: Row): DocumentSymbol | undefined {
  const kind = KINDS[row.statement.kind];
  const words = kind && nameOf(snapshot, row);
  if (!words) return undefined;
  if (row.cells) return tableSymbol(snapshot, row, words);
  const span = { start: row.start, end: row.start + row.statement.text.length };
  // Field by field: a note has as many of them as lines, and a spread one costs several times as much.
  const { name, nameSpan } = words;
  return { name, nameSpan, detail: outcomeText(row.outcome), kind, span, children: [] };
}

const KINDS: Partial<Readonly<Record<Statement["kind"], DocumentSymbol["kind"]>>> = {
  given: "given",
  assume: "assumption",
  over: "given",
  derived: "quantity",
  let: "quantity",
  choice: "choice",
  function: "function",
  rule: "rule",
  items: "items",
  use: "note",
  measured: "measurement",
  order: "order",
  table: "table",
  broken: "quantity",
};

/** A table with its columns. */
function tableSymbol(snapshot: Snapshot, head: Row, words: { name: string; nameSpan: Span }): DocumentSymbol {
  const children = writtenColumns(snapshot, head).flatMap((column): DocumentSymbol[] => {
    const { outcome, statement } = column;
    if (outcome.kind !== "column") return [];
    const nameSpan = snapshot.spanOf(column, statement.tree.span(statement.name));
    const detail = columnTotals(outcome, rowsOf(head));
    return [{ name: shortName(outcome), detail, kind: "column", span: nameSpan, nameSpan, children: [] }];
  });
  const block = snapshot.blocks.findLast(({ start }) => start <= head.start);
  const end = block?.block.kind === "prose" ? block.start + (block.block.tables[0]?.end ?? 0) : words.nameSpan.end;
  const rows = rowsOf(head).length;
  const span = { start: head.start, end: Math.max(end, words.nameSpan.end) };
  return { ...words, detail: rows === 1 ? "one row" : `${rows} rows`, kind: "table", span, children };
}

function nameOf(snapshot: Snapshot, row: Row): { name: string; nameSpan: Span } | undefined {
  const { statement } = row;
  const { tree } = statement;
  if (statement.kind === "rule") {
    const span = tree.span(statement.condition);
    const written = statement.text.slice(span.start, span.end).replace(/\s+/g, " ");
    return { name: `${statement.word} ${written}`.trim(), nameSpan: snapshot.spanOf(row, span) };
  }
  if (statement.kind === "measured") {
    const nameSpan = snapshot.spanOf(row, tree.span(statement.name));
    return { name: `measured ${tree.text(statement.name)}`, nameSpan };
  }
  const declared = declarationsOf(snapshot, row);
  if (declared.length === 0) return undefined;
  return { name: declared.map(({ name }) => name).join(", "), nameSpan: declared[0].span };
}

import { placed, type Row, type Snapshot } from "../engine/snapshot";
import { shift, type Span } from "../text/span";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";

/** The edit that puts a text in the place of a span of a statement. In a cell of a table a pipe is escaped. */
export function replaceIn(row: Row, span: Span, text: string): Edit {
  if (row.cells) return { span: placed(row, span), text: text.replace(/\|/g, "\\|") };
  return { span: shift(span, row.start), text };
}

/** A fix for every text that a problem offers in the place of its span; where there is only one it needs no second look. */
export function rewritings(
  { span, rewritten }: { readonly span: Span; readonly rewritten: readonly string[] },
  row: Row,
): readonly Fix[] {
  const written = row.statement.text.slice(span.start, span.end);
  return rewritten.map((text) => ({
    title: text === "" ? `Remove ${written.trim() || "it"}` : `Write ${text}`,
    edits: [replaceIn(row, span, text)],
    ...(rewritten.length === 1 ? { isPreferred: true } : {}),
  }));
}

/** The fix that an edit of a statement is, where there is one. */
export function mending(edit: { readonly span: Span; readonly text: string } | undefined, row: Row): readonly Fix[] {
  if (edit === undefined) return [];
  const removed = row.statement.text.slice(edit.span.start, edit.span.end).trim();
  const title = edit.text !== "" ? `Write ${edit.text.trim()}` : `Remove ${removed === "" ? "the space" : removed}`;
  return [{ title, edits: [replaceIn(row, edit.span, edit.text)], isPreferred: true }];
}

/** `a`, or `a or b`, in code marks. */
export function alternatives(texts: readonly string[]): string {
  return texts.map((text) => `\`${text}\``).join(" or ");
}

/** The edit that puts a statement on a line of its own above another, with its indentation and line break. */
export function statementAbove(row: Row, { text, lines }: Snapshot, statement: string): Edit {
  const line = lines.lineAt(row.start);
  const start = lines.lineStart(line);
  const isLast = line + 1 >= lines.lineCount;
  const lineBreak = isLast
    ? /\r\n|$/.exec(text)![0] || "\n"
    : text.slice(lines.lineEnd(line), lines.lineStart(line + 1));
  return { span: { start, end: start }, text: `${text.slice(start, row.start)}${statement}${lineBreak}` };
}

/** Sets the line behind a statement in, so that the statement goes on there; only where that line is none by itself. */
export function nextLineSetIn(row: Row, snapshot: Snapshot): readonly Fix[] {
  const { text, lines } = snapshot;
  const line = lines.lineAt(row.start + row.statement.text.length) + 1;
  if (row.cells || line >= lines.lineCount) return [];
  const [start, end] = [lines.lineStart(line), lines.lineEnd(line)];
  const content = start + text.slice(start, end).search(/\S|$/);
  const next = snapshot.rowAt(content);
  if (next?.start !== content || next.statement.kind !== "broken") return [];
  const edits = [{ span: { start: content, end: content }, text: "    " }];
  return [{ title: "Set the next line in", edits, isPreferred: true }];
}

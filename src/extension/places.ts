/** Places and edits, between those of the notes and the editor's. */
import * as vscode from "vscode";
import type { Edit, LineIndex, Span } from "../heldNotes";

export function toPosition(lines: LineIndex, offset: number): vscode.Position {
  const { line, column } = lines.positionAt(offset);
  return new vscode.Position(line, column);
}

export function toRange(lines: LineIndex, span: Span): vscode.Range {
  return new vscode.Range(toPosition(lines, span.start), toPosition(lines, span.end));
}

export function toSpan(document: vscode.TextDocument, range: vscode.Range): Span {
  return { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
}

export function toEdit({ rangeOffset, rangeLength, text }: vscode.TextDocumentContentChangeEvent): Edit {
  return { span: { start: rangeOffset, end: rangeOffset + rangeLength }, text };
}

import type { Row, Snapshot } from "../engine/snapshot";
import { unitToShow } from "../quantity/display";
import type { Fix } from "../text/fix";
import { shift, type Span } from "../text/span";

/**
 * On the name of a guess: a line below it for the measurement that takes its place, to be filled in. Until it is, the line
 * does not read, so that nobody takes a guess for measured.
 */
export function measureGuessAt(snapshot: Snapshot, { start, end }: Span): readonly Fix[] {
  const row = snapshot.rowAt(start);
  if (row?.statement.kind !== "assume" || row.outcome.kind !== "quantity" || !row.outcome.isGuess) return [];
  const { tree, name, text } = row.statement;
  const named = shift(tree.span(name), row.start);
  if (end < named.start || named.end < start || row.outcome.values.length !== 1) return [];
  const line = `measured ${tree.text(name)} = ? .. ?${unitOf(row)} instead`;
  const last = snapshot.lines.lineAt(row.start + text.length);
  const at = snapshot.lines.lineEnd(last);
  const lineBreak = /\r\n|$/.exec(snapshot.text)![0] || "\n";
  const indent = snapshot.text.slice(snapshot.lines.lineStart(snapshot.lines.lineAt(row.start)), row.start);
  const edit = { span: { start: at, end: at }, text: `${lineBreak}${indent}${line}` };
  return [{ title: `Measure it: ${line}`, edits: [edit] }];
}

/** The unit in which the guess is stated, behind a space. */
function unitOf({ outcome }: Row): string {
  if (outcome.kind !== "quantity") return "";
  const { values, dimension, point, unit } = outcome;
  const { text } = unitToShow(values[0], dimension, { point, ...(unit ? { unit } : {}) });
  return text === "1" ? "" : ` ${text}`;
}

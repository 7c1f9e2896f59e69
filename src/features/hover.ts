import type { Snapshot } from "../engine/snapshot";
import { valueText } from "../phrases/value";
import type { Hover, Notes } from "./feature";

/** What is known of the place under the pointer. */
export function hover(snapshot: Snapshot, offset: number, _notes: Notes): Hover | undefined {
  const row = snapshot.rowAt(offset);
  if (row?.outcome.kind !== "quantity") return undefined;
  const span = { start: row.start, end: row.start + row.statement.text.length };
  return { span, markdown: valueText(row.outcome) };
}

import { declaredNames } from "../engine/entry";
import type { Snapshot } from "../engine/snapshot";
import { valueText } from "../phrases/value";
import type { Completion, Notes } from "./feature";

/** What can be written at a place. */
export function completions(snapshot: Snapshot, offset: number, _notes: Notes): readonly Completion[] {
  if (!snapshot.rowAt(offset)) return [];
  const start = offset - (/[\p{L}\p{M}\p{N}_]*$/u.exec(snapshot.text.slice(0, offset))?.[0].length ?? 0);
  return snapshot.rows.flatMap(({ statement, outcome }) =>
    declaredNames(statement).map(({ name }) => ({
      label: name,
      kind: "quantity" as const,
      detail: outcome.kind === "quantity" ? valueText(outcome) : "",
      insert: name,
      span: { start, end: offset },
      rank: name,
    })),
  );
}

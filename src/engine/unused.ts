import type { Entry } from "./entry";
import type { Note } from "./note";
import type { EngineProblem } from "./problem";

/**
 * The assumptions that no rule rests on, in any note: whatever they are, nothing depends on it. A note without rules
 * serves others, and its assumptions are left alone.
 */
export function unusedAssumptions(
  notes: Iterable<Note>,
  add: (entry: Entry, problems: readonly EngineProblem[]) => void,
): void {
  const needed = new Set<Entry>();
  const open: Entry[] = [];
  const candidates: Entry[] = [];
  for (const note of notes) {
    const assumptions: Entry[] = [];
    let hasRules = false;
    for (const entry of note.entries()) {
      if (entry.statement.kind === "assume") assumptions.push(entry);
      if (entry.statement.kind !== "rule") continue;
      hasRules = true;
      open.push(entry);
    }
    if (hasRules) candidates.push(...assumptions);
  }
  if (candidates.length === 0) return;
  for (let entry = open.pop(); entry !== undefined; entry = open.pop()) {
    for (const dependency of entry.dependencies) {
      if (needed.has(dependency)) continue;
      needed.add(dependency);
      open.push(dependency);
    }
  }
  for (const entry of candidates) {
    const { statement } = entry;
    if (needed.has(entry) || statement.kind !== "assume") continue;
    add(entry, [
      {
        span: statement.tree.span(statement.name),
        code: "assumption.unused",
        name: statement.tree.text(statement.name),
      },
    ]);
  }
}

import type { Input } from "../syntax/statement";
import type { Entry } from "./entry";
import type { Note } from "./note";
import type { EngineProblem } from "./problem";
import { sameData } from "./sameData";

/**
 * The assumptions that no rule rests on, in any note: whatever they are, nothing depends on it. A note without rules
 * serves others, and its assumptions are left alone.
 */
export function judgeAssumptions(notes: Iterable<Note>): void {
  const needed = new Set<Entry>();
  const open: Entry[] = [];
  const assumptions: Entry[] = [];
  /** The notes with rules. */
  const judged = new Set<Note>();
  for (const note of notes) {
    note.eachEntry((entry) => {
      if (entry.statement.kind === "assume") assumptions.push(entry);
      if (entry.statement.kind !== "rule") return;
      judged.add(note);
      open.push(entry);
    });
  }
  for (let entry = open.pop(); entry !== undefined; entry = open.pop()) {
    for (const dependency of entry.dependencies) {
      if (needed.has(dependency)) continue;
      needed.add(dependency);
      open.push(dependency);
    }
  }
  for (const entry of assumptions) {
    const { statement, unusedProblems } = entry;
    if (statement.kind !== "assume") continue;
    const isUnused = !needed.has(entry) && judged.has(entry.note);
    if (!isUnused && unusedProblems.length === 0) continue;
    const problems: readonly EngineProblem[] = isUnused ? [unused(statement)] : [];
    if (!sameData(problems, unusedProblems)) entry.unusedProblems = problems;
  }
}

function unused({ tree, name }: Input): EngineProblem {
  return { span: tree.span(name), code: "assumption.unused", name: tree.text(name) };
}

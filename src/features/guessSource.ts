import type { Snapshot } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import { shift, type Span } from "../text/span";

/** On the name of a guess: its source is asked for, which makes it an assumption that can be looked up. */
export function guessSourceAt(snapshot: Snapshot, { start, end }: Span): readonly Fix[] {
  const row = snapshot.rowAt(start);
  if (row?.statement.kind !== "assume" || row.statement.source !== undefined || row.statement.problems.length > 0)
    return [];
  const { tree, value, name, each } = row.statement;
  const named = shift(tree.span(name), row.start);
  if (end < named.start || named.end < start) return [];
  const last = each?.item ?? value;
  const behind =
    tree.end(last) + (each && each.item === undefined ? lengthOfEach(row.statement.text, tree.end(value)) : 0);
  const empty = /^\s*from\s*"\s*"/.exec(row.statement.text.slice(behind))?.[0].length ?? 0;
  const at = shift({ start: behind, end: behind + empty }, row.start);
  return [{ title: 'Give its source: from "…"', edits: [{ span: at, text: ' from "source"' }] }];
}

/** The clause `each` without an item leaves no node behind. */
function lengthOfEach(text: string, from: number): number {
  return /^\s*each/.exec(text.slice(from))?.[0].length ?? 0;
}

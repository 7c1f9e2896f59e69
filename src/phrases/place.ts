import { chapterAt } from "../engine/handbook";
import type { Place } from "../engine/problem";
import type { Snapshot } from "../engine/snapshot";
import type { Span } from "../text/span";
import type { Scope } from "./side";

/** Where a place is: `on line 12`, `on line 3 of supply.calcs.md`. */
export function lineText(place: Place, scope: Scope): string {
  const found = locate(place, scope);
  const file = fileName(place.path);
  if (!found) return `in ${file}`;
  const line = `on line ${found.snapshot.lines.lineAt(found.span.start) + 1}`;
  return place.path === scope.snapshot.path ? line : `${line} of ${file}`;
}

/** A place with a sentence about it, for those who show both together; nothing where the place is gone. */
export function relatedPlace(
  place: Place,
  scope: Scope,
  message: string,
): readonly { path: string; span: Span; message: string }[] {
  const found = locate(place, scope);
  return found ? [{ path: place.path, span: found.span, message }] : [];
}

/** The last part of a path; of a chapter, whose it is. */
export function fileName(path: string): string {
  const chapter = chapterAt(path);
  if (chapter !== undefined) return `the chapter ${chapter} of the handbook`;
  return path.slice(path.lastIndexOf("/") + 1);
}

function locate({ path, statement, span }: Place, scope: Scope): { snapshot: Snapshot; span: Span } | undefined {
  const snapshot = path === scope.snapshot.path ? scope.snapshot : scope.other(path);
  const row = snapshot?.rowOf(statement);
  return snapshot && row && { snapshot, span: snapshot.spanOf(row, span) };
}

import assert from "node:assert/strict";
import { chapterPath } from "../../src/engine/handbook";
import { OpenNotes } from "../notation";
import { readChapter } from "./chapters";

/** A chapter, computed as the note that it is. */
export function openChapter(chapter: string): OpenNotes {
  const path = chapterPath(chapter);
  const result = readChapter(path);
  assert.ok(result && "text" in result, `The chapter ${chapter} cannot be read.`);
  return new OpenNotes([{ path, text: result.text, marks: [] }]);
}

/** The functions that a chapter defines, in the order of its text. */
export function functionsOf(chapter: string): readonly string[] {
  const { rows } = openChapter(chapter).snapshot();
  return rows.flatMap(({ statement }) => (statement.kind === "function" ? [statement.tree.text(statement.name)] : []));
}

import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { chapterAt } from "../../src/engine/handbook";
import type { ReadResult } from "../../src/engine/library";

export const FOLDER = join(__dirname, "../../src/handbook");
const ENDING = ".calcs.md";

/** The names of the chapters that are written. */
export function writtenChapters(): readonly string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(ENDING))
    .map((file) => file.slice(0, -ENDING.length))
    .sort();
}

/** A chapter of the handbook as the program finds it; undefined for the path of a file. */
export function readChapter(path: string): ReadResult | undefined {
  const chapter = chapterAt(path);
  if (chapter === undefined) return undefined;
  const file = join(FOLDER, chapter + ENDING);
  return existsSync(file)
    ? { text: readFileSync(file, "utf8") }
    : { trouble: "missing", detail: "there is no such file" };
}

import { readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import type { ReadResult } from "../service";
import { reasonOf } from "./noteFiles";

/** The chapters lie beside the bundle; run from its sources, the program finds them in the room beside its own. */
const FOLDER = join(__dirname, basename(__dirname) === "cli" ? "../handbook" : "handbook");

/** The text of a chapter of the handbook. */
export async function readChapter(chapter: string): Promise<ReadResult> {
  try {
    return { text: await readFile(join(FOLDER, `${chapter}.calcs.md`), "utf8") };
  } catch (error) {
    return { trouble: "unreadable", detail: reasonOf(error) };
  }
}

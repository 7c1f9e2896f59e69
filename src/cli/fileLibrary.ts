import { readFile, realpath, stat } from "node:fs/promises";
import { join } from "node:path";
import { chapterAt, type Library, type ReadResult } from "../service";
import { readChapter } from "./handbookFiles";
import { isInside, reasonOf } from "./noteFiles";

/** A text beyond this is no note but a log or a dump under a note's name; reading it would fill the memory with spans. */
export const LARGEST_NOTE_BYTES = 16 * 1024 * 1024;

/**
 * The files below one folder, by paths relative to it. Nothing outside is read, neither by `..` nor through a symbolic
 * link, but for the chapters of the handbook, which lie beside the program. A file that is not UTF-8 is read all the same, with U+FFFD where its bytes make no sense, so that the note can
 * say so at the place.
 */
export class FileLibrary implements Library {
  /** @param root absolute, without symbolic links. */
  constructor(private readonly root: string) {}

  async read(path: string): Promise<ReadResult> {
    const chapter = chapterAt(path);
    if (chapter !== undefined) return readChapter(chapter);
    try {
      const file = await realpath(join(this.root, path));
      if (!isInside(this.root, file)) return { trouble: "outside", detail: `it lies outside ${this.root}` };
      const kind = await stat(file);
      if (!kind.isFile()) return { trouble: "unreadable", detail: "it is no file" };
      if (kind.size > LARGEST_NOTE_BYTES) return { trouble: "unreadable", detail: TOO_LARGE };
      return { text: new TextDecoder("utf-8").decode(await readFile(file)) };
    } catch (error) {
      const isMissing =
        error instanceof Error && "code" in error && (error.code === "ENOENT" || error.code === "ENOTDIR");
      return { trouble: isMissing ? "missing" : "unreadable", detail: reasonOf(error) };
    }
  }
}

const TOO_LARGE = `it is larger than ${LARGEST_NOTE_BYTES / (1024 * 1024)} MiB, which no note is`;

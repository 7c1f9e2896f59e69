import * as vscode from "vscode";
import { chapterAt, chapterPath, type ReadResult } from "../heldNotes";

/** The scheme of the handbook's pages in the editor. No file system serves it, so they are read and not written. */
export const HANDBOOK = "copperbook-handbook";
const ENDING = ".calcs.md";

/** Where a chapter's page is. Its name ends as a note's does, from which the editor knows its language. */
export function chapterUri(chapter: string): vscode.Uri {
  return vscode.Uri.from({ scheme: HANDBOOK, path: `/${chapter}${ENDING}` });
}

/** The path under which the service knows the chapter of a page; undefined for what is no page of a chapter. */
export function chapterPathOf({ scheme, path }: vscode.Uri): string | undefined {
  if (scheme !== HANDBOOK || !path.endsWith(ENDING)) return undefined;
  return chapterPath(path.slice(1, -ENDING.length));
}

/** The chapters as they were installed with the extension, on this machine, on another, or in a page. */
export class HandbookFiles {
  constructor(private readonly folder: vscode.Uri) {}

  /** A chapter's text by its path, `handbook:led`; undefined where the path is that of a file. */
  async read(path: string): Promise<ReadResult | undefined> {
    const chapter = chapterAt(path);
    if (chapter === undefined) return undefined;
    try {
      const bytes = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(this.folder, chapter + ENDING));
      return { text: new TextDecoder().decode(bytes) };
    } catch (error) {
      return { trouble: "unreadable", detail: error instanceof Error ? error.message : String(error) };
    }
  }
}

import * as vscode from "vscode";
import type { Library, ReadResult } from "../heldNotes";
import type { HandbookFiles } from "./handbookFiles";
import { toUri } from "./paths";

/** Files of the workspace, through the editor's file systems: they may be on this machine, on another, or in a page. */
export class WorkspaceLibrary implements Library {
  /** Gives the text of a note that is open, which wins over the one on disk. */
  constructor(
    private readonly openText: (path: string) => string | undefined,
    private readonly handbook: HandbookFiles,
  ) {}

  async read(path: string): Promise<ReadResult> {
    const chapter = await this.handbook.read(path);
    if (chapter) return chapter;
    const uri = toUri(path);
    if (uri === undefined || vscode.workspace.getWorkspaceFolder(uri) === undefined)
      return { trouble: "outside", detail: "it lies outside the workspace" };
    const result = await readText(uri);
    // The note may have been opened while its file was read.
    const open = this.openText(path);
    return open === undefined ? result : { text: open };
  }
}

async function readText(uri: vscode.Uri): Promise<ReadResult> {
  let bytes: Uint8Array;
  try {
    bytes = await vscode.workspace.fs.readFile(uri);
  } catch (error) {
    if (error instanceof vscode.FileSystemError && error.code === "FileNotFound")
      return { trouble: "missing", detail: "there is no such file" };
    return { trouble: "unreadable", detail: error instanceof Error ? error.message : String(error) };
  }
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    return { trouble: "unreadable", detail: "it is not UTF-8" };
  }
}

import * as vscode from "vscode";
import { chapterAt } from "../heldNotes";
import { chapterPathOf, chapterUri } from "./handbookFiles";

/** Scheme, authority and path of an address. */
const PARTS = /^([a-z][a-z0-9+.-]*):\/\/([^/]*)(\/.*)$/i;

/**
 * The path under which the service knows a file: its address without percent signs, `file:///home/bench/bar.calcs.md`.
 * It keeps files of the same path apart that lie in different file systems, and relative paths resolve in it.
 */
export function toPath(uri: vscode.Uri): string {
  const chapter = chapterPathOf(uri);
  if (chapter !== undefined) return chapter;
  return `${uri.scheme}://${uri.authority}${uri.path.startsWith("/") ? "" : "/"}${uri.path}`;
}

/** The file of a path of the service; undefined for what a `use` made of it by climbing out of its file system. */
export function toUri(path: string): vscode.Uri | undefined {
  const chapter = chapterAt(path);
  if (chapter !== undefined) return chapterUri(chapter);
  const parts = PARTS.exec(path);
  if (parts === null) return undefined;
  const [, scheme, authority, rest] = parts;
  if (scheme === UNTITLED) return vscode.Uri.from({ scheme, path: rest.slice(1) });
  return vscode.Uri.from({ scheme, authority, path: rest });
}

/** The scheme of a document that was never saved; its path has no leading slash. */
export const UNTITLED = "untitled";

import type { Dirent } from "node:fs";
import { readdir, realpath, stat } from "node:fs/promises";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";

import { nearestName } from "../service";

/** The ending by which a file is a note. */
export const NOTE_ENDING = ".calcs.md";

/** Folders that hold other people's files. Hidden ones are left out as well. */
const FOLDERS_LEFT_OUT: ReadonlySet<string> = new Set(["node_modules"]);

/** Something that was named, or lies in a folder that was, cannot be read; the message says which and why. */
export class ReadingError extends Error {}

export interface NoteFile {
  /** Relative to the root, with `/`. */
  readonly path: string;
  /** As a person in the current folder would name it: relative to that, with `/`. */
  readonly shownPath: string;
}

/** The notes to work on. */
export interface NoteFiles {
  /** The folder inside which all reading stays; absolute, without symbolic links. */
  readonly root: string;
  /** Sorted by path, each once. */
  readonly notes: readonly NoteFile[];
  /** Of each folder that could not be searched or holds no note, a sentence that says so. */
  readonly troubles: readonly string[];
  /** A path relative to the root as {@link NoteFile.shownPath} has it. */
  shown(path: string): string;
}

/**
 * Finds the notes among files and folders. A folder is searched to its depth, `node_modules` and hidden folders left out.
 * A symbolic link that is named is followed. One that is met on the way is not: what it leads to inside the folder is
 * found in its own place, what lies outside is not to be read, and so there are no loops.
 *
 * The root is the current folder where everything named lies in it, else the innermost folder that holds all of it.
 * A folder named that holds no note is told, and the others are searched all the same.
 * @throws ReadingError for what does not exist, cannot be read or is no note, and where there is no note at all.
 */
export async function findNotes(named: readonly string[], currentFolder: string): Promise<NoteFiles> {
  const here = await realpath(currentFolder);
  const places = await Promise.all((named.length > 0 ? named : ["."]).map((path) => placeOf(path, here)));
  const root = rootOf(places, here);
  const files = new Set<string>();
  const troubles: string[] = [];
  for (const place of places) {
    const before = troubles.length;
    const found = place.isFolder ? await notesBelow(place.path, troubles) : [place.path];
    if (found.length === 0 && troubles.length === before) troubles.push(emptyText(place));
    for (const file of found) files.add(file);
  }
  if (files.size === 0) throw new ReadingError(troubles.join(" "));
  const noteAt = (file: string): NoteFile => ({ path: wayTo(file, root), shownPath: wayTo(file, here) });
  const shown = (path: string) => wayTo(join(root, path), here);
  return { root, notes: [...files].sort().map(noteAt), troubles, shown };
}

/**
 * The same for one note.
 * @throws ReadingError as {@link findNotes} does, and for a folder.
 */
export async function findNote(named: string, currentFolder: string): Promise<NoteFiles> {
  const { path, isFolder } = await placeOf(named, await realpath(currentFolder));
  if (isFolder) throw new ReadingError(`${named} is a folder: name one of the notes in it.`);
  return findNotes([path], currentFolder);
}

/** Whether a path lies in a folder, or is the folder; both absolute and without symbolic links. */
export function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

interface Place {
  /** As it was typed. */
  readonly named: string;
  /** Absolute, without symbolic links. */
  readonly path: string;
  readonly isFolder: boolean;
}

function emptyText({ named }: Place): string {
  return `There is no note in ${named === "." ? "this folder" : named}: a note is a Markdown file with a name that ends in ${NOTE_ENDING}.`;
}

async function placeOf(named: string, currentFolder: string): Promise<Place> {
  try {
    const path = await realpath(resolve(currentFolder, named));
    const kind = await stat(path);
    if (kind.isDirectory()) return { named, path, isFolder: true };
    if (!path.endsWith(NOTE_ENDING))
      throw new ReadingError(
        `${named} is no note: the name of a note ends in ${NOTE_ENDING}. Rename the file${noteNameFor(named)}, or name the folder of its notes.`,
      );
    if (!kind.isFile()) throw new ReadingError(`${named} is neither a file nor a folder.`);
    return { named, path, isFolder: false };
  } catch (error) {
    if (error instanceof ReadingError) throw error;
    const meant = isMissing(error) ? await meantText(named, currentFolder) : "";
    throw new ReadingError(`${named} cannot be read: ${reasonOf(error)}.${meant}`);
  }
}

/** `, such as to lamp.calcs.md`, for a Markdown file by another name. */
function noteNameFor(named: string): string {
  const bare = /^(.+)\.(?:md|markdown)$/i.exec(named)?.[1];
  return bare === undefined ? "" : ` to ${bare}${NOTE_ENDING}`;
}

/** What is there by nearly the name that was typed: `lamp.calcs.md` for `lamp`, `Lamp.calcs.md` and `lamp.calcs.md:3`. */
async function meantText(named: string, currentFolder: string): Promise<string> {
  if (named.includes("*")) return " Name the folder: all notes in it are found.";
  const path = resolve(currentFolder, named);
  const entries = await entriesOf(dirname(path), []);
  const notes = entries.filter((entry) => entry.isDirectory() || entry.name.endsWith(NOTE_ENDING));
  const typed = withoutEnding(basename(path));
  // The endings are alike anyhow, and would make short names look as if they were.
  const byName = new Map(notes.map(({ name }) => [withoutEnding(name), name]));
  const meant = byName.get(typed) ?? byName.get(nearestName(byName.keys(), typed) ?? "");
  if (meant === basename(path)) return " It is a link, and what it leads to is gone.";
  return meant === undefined ? "" : ` Did you mean ${named.slice(0, named.length - basename(path).length)}${meant}?`;
}

/** A name without the ending of a note, right or nearly, and without a line behind it. */
function withoutEnding(name: string): string {
  return name.replace(/(?:\.calcs?)?(?:\.mdd?)?(?::\d+)*$/i, "");
}

/** Why the file system refused, in words; its own words where there are no better ones. */
export function reasonOf(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return REASONS[code] ?? (error instanceof Error ? error.message : String(error));
}

function isMissing(error: unknown): boolean {
  return error instanceof Error && "code" in error && error.code === "ENOENT";
}

const REASONS: Readonly<Partial<Record<string, string>>> = {
  ENOENT: "there is no such file or folder",
  ENOTDIR: "a part of its path is no folder",
  EACCES: "permission is denied",
  EPERM: "permission is denied",
  ELOOP: "its symbolic links go in circles",
  ENAMETOOLONG: "its name is too long",
  ENOSPC: "there is no space left",
  EDQUOT: "there is no space left",
  EIO: "the device reports an error",
  ERR_INVALID_ARG_VALUE: "its name has a character that no name can have",
};

function rootOf(places: readonly Place[], currentFolder: string): string {
  if (places.every(({ path }) => isInside(currentFolder, path))) return currentFolder;
  const folders = places.map(({ path, isFolder }) => (isFolder ? path : dirname(path)));
  let root = folders[0];
  while (!folders.every((folder) => isInside(root, folder))) {
    if (dirname(root) === root)
      throw new ReadingError("The paths named have no folder in common: check them one by one.");
    root = dirname(root);
  }
  return root;
}

async function notesBelow(folder: string, troubles: string[]): Promise<string[]> {
  const found: string[] = [];
  const waiting = [folder];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (const entry of await entriesOf(next, troubles)) {
      const path = join(next, entry.name);
      if (entry.isDirectory() && !entry.name.startsWith(".") && !FOLDERS_LEFT_OUT.has(entry.name)) waiting.push(path);
      else if (entry.isFile() && entry.name.endsWith(NOTE_ENDING)) found.push(path);
    }
  }
  return found;
}

async function entriesOf(folder: string, troubles: string[]): Promise<readonly Dirent[]> {
  try {
    return await readdir(folder, { withFileTypes: true });
  } catch (error) {
    troubles.push(`The folder ${folder} cannot be read: ${reasonOf(error)}.`);
    return [];
  }
}

function wayTo(file: string, folder: string): string {
  return relative(folder, file).replaceAll(sep, "/");
}

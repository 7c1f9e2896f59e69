/**
 * Where other notes come from. The core does no input or output: the editor implements this on its own file API, the
 * command line on the file system, tests in memory. Paths use `/` and are absolute or relative to one root, as the
 * implementation likes; only {@link resolvePath} takes them apart. A path such as `handbook:led` asks for a chapter of
 * the handbook, which lies beside the program.
 */
export interface Library {
  /** The text of a file; or why there is none. Never throws. */
  read(path: string): Promise<ReadResult>;
}

export type ReadResult =
  { readonly text: string } | { readonly trouble: "missing" | "outside" | "unreadable"; readonly detail: string };

/** The path that `use "../supply.calcs.md"` means in the note at `from`; undefined where it climbs above the root. */
export function resolvePath(from: string, written: string): string | undefined {
  if (/^[a-z][a-z0-9+.-]*:/i.test(written) || written.startsWith("/") || written.startsWith("\\")) return undefined;
  const slash = from.lastIndexOf("/");
  const parts = slash < 0 ? [] : from.slice(0, slash).split("/");
  const floor = parts[0] === "" ? 1 : 0;
  for (const part of written.replace(/\\/g, "/").split("/")) {
    if (part === "" || part === ".") continue;
    if (part !== "..") parts.push(part);
    else if (parts.length > floor) parts.pop();
    else return undefined;
  }
  return parts.join("/");
}

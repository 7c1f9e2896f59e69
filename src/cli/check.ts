import { checkText } from "./checkText";
import type { Command } from "./commandLine";
import type { ExitCode } from "./exitCode";
import { printable } from "./layout";
import { findNotes } from "./noteFiles";
import { exitCodeOf, openNotes, toJson } from "./openNotes";
import { faceFor, type Terminal } from "./terminal";

/**
 * `copperbook check`: judges the rules of the notes among files and folders, and says what is wrong in each.
 * @throws ReadingError where something named cannot be read or is no note.
 */
export async function check(
  { paths, format, trials, allRules }: Extract<Command, { kind: "check" }>,
  terminal: Terminal,
): Promise<ExitCode> {
  const open = await openNotes(await findNotes(paths, terminal.currentFolder), trials);
  if (format === "json") terminal.output.write(toJson(open));
  else if (open.notes.length > 0) terminal.output.write(checkText(open, faceFor(terminal), allRules));
  for (const trouble of open.troubles) terminal.errors.write(`copperbook: ${printable(trouble)}\n`);
  return exitCodeOf(open);
}

import type { Command } from "./commandLine";
import { ExitCode } from "./exitCode";
import { printable } from "./layout";
import { findNote } from "./noteFiles";
import { exitCodeOf, openNotes, toJson } from "./openNotes";
import type { Terminal } from "./terminal";
import { valuesCsv, valuesText } from "./valuesText";

/**
 * `copperbook values`: prints the values of one note, in the order of its text; where trials are asked for, with what
 * they say of each.
 * @throws ReadingError where the file cannot be read, is a folder or no note.
 */
export async function values(
  { path, format, trials }: Extract<Command, { kind: "values" }>,
  terminal: Terminal,
): Promise<ExitCode> {
  const open = await openNotes(await findNote(path, terminal.currentFolder), trials);
  if (open.notes.length > 0) terminal.output.write(WRITERS[format](open, trials));
  for (const trouble of open.troubles) terminal.errors.write(`copperbook: ${printable(trouble)}\n`);
  const code = exitCodeOf(open);
  if (code === ExitCode.Bad && format !== "json") terminal.errors.write(`${NOT_ALL_WELL}\n`);
  return code;
}

const WRITERS = { text: valuesText, csv: valuesCsv, json: toJson } as const;

/** Values alone would not explain the exit code. */
const NOT_ALL_WELL = "copperbook: a must does not hold, or the note has an error; copperbook check says which.";

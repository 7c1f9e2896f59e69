import { version } from "../../package.json";
import { check } from "./check";
import { HELP, parseCommandLine, UsageError, type Command } from "./commandLine";
import { ExitCode } from "./exitCode";
import { handbook } from "./handbook";
import { printable } from "./layout";
import { ReadingError, reasonOf } from "./noteFiles";
import type { Output, Terminal } from "./terminal";
import { values } from "./values";

/** Runs the command line to its end. Whatever happens is said on the terminal and in the exit code; nothing is thrown. */
export async function main(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  try {
    return await run(parseCommandLine(args), terminal);
  } catch (error) {
    terminal.errors.write(complaint(error));
    return ExitCode.Trouble;
  }
}

async function run(command: Command, terminal: Terminal): Promise<ExitCode> {
  switch (command.kind) {
    case "help":
      terminal.output.write(HELP);
      return ExitCode.Good;
    case "version":
      terminal.output.write(`copperbook ${version}\n`);
      return ExitCode.Good;
    case "check":
      return check(command, terminal);
    case "values":
      return values(command, terminal);
    case "handbook":
      return handbook(command.word, terminal);
  }
}

function complaint(error: unknown): string {
  if (error instanceof UsageError) return `copperbook: ${printable(error.message)}\nSee copperbook --help.\n`;
  if (error instanceof ReadingError) return `copperbook: ${printable(error.message)}\n`;
  return `copperbook: this is a fault in Copperbook, not in your notes.\n${error instanceof Error ? error.stack : String(error)}\n`;
}

/**
 * The process as a terminal. A reader that went away, such as `head`, is no error: the rest is written to nobody. What
 * cannot be written otherwise, as on a full disk, is said once, where that is possible.
 */
function processTerminal(lost: () => void): Terminal {
  let isSaid = false;
  const failed = (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") return;
    lost();
    if (!isSaid) process.stderr.write(`copperbook: the output cannot be written: ${reasonOf(error)}.\n`);
    isSaid = true;
  };
  return {
    currentFolder: currentFolder(),
    environment: process.env,
    output: outputTo(process.stdout, failed),
    errors: outputTo(process.stderr, failed),
  };
}

/** @throws ReadingError where the folder that the program was started in is gone. */
function currentFolder(): string {
  try {
    return process.cwd();
  } catch (error) {
    throw new ReadingError(`The current folder cannot be read: ${reasonOf(error)}.`);
  }
}

function outputTo(stream: NodeJS.WriteStream, failed: (error: NodeJS.ErrnoException) => void): Output {
  stream.on("error", failed);
  return {
    write: (text) => void stream.write(text),
    isScreen: stream.isTTY === true,
    ...(stream.columns ? { columns: stream.columns } : {}),
  };
}

if (require.main === module) {
  // The exit code is set, not the process ended, so that a slow pipe gets all of the output.
  try {
    const terminal = processTerminal(() => (process.exitCode = ExitCode.Trouble));
    void main(process.argv.slice(2), terminal).then((code) => (process.exitCode ??= code));
  } catch (error) {
    process.stderr.write(complaint(error));
    process.exitCode = ExitCode.Trouble;
  }
}

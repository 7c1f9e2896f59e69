import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { ExitCode } from "../../src/cli/exitCode";
import { main } from "../../src/cli/main";
import type { Terminal } from "../../src/cli/terminal";

/** What came out of a run of the command line. */
export interface Run {
  readonly code: ExitCode;
  readonly output: string;
  readonly errors: string;
}

/** A folder of its own in which the command line is run; files are named relative to it. */
export class Workspace {
  readonly folder = realpathSync(mkdtempSync(join(tmpdir(), "copperbook-cli-")));

  write(path: string, content: string | Uint8Array): this {
    const file = join(this.folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, content);
    return this;
  }

  remove(): void {
    rmSync(this.folder, { recursive: true });
  }

  run(args: readonly string[], terminal: Partial<Terminal> = {}, from = "."): Promise<Run> {
    return runIn(join(this.folder, from), args, terminal);
  }
}

/** Runs the command line in this process, its output caught. */
export async function runIn(folder: string, args: readonly string[], terminal: Partial<Terminal> = {}): Promise<Run> {
  let output = "";
  let errors = "";
  const code = await main(args, {
    currentFolder: folder,
    environment: {},
    ...terminal,
    output: { isScreen: false, ...terminal.output, write: (text) => void (output += text) },
    errors: { isScreen: false, write: (text) => void (errors += text) },
  });
  return { code, output, errors };
}

/** The shape that is printed with `--format json`. */
export interface Printed {
  readonly notes: readonly {
    readonly path: string;
    readonly values: readonly Readonly<Record<string, string | number>>[];
    readonly rules: readonly {
      line: number;
      lastLine?: number;
      word: string;
      condition: string;
      state: string;
      spare?: number;
    }[];
    readonly findings: readonly { code: string; severity: string; line: number; column: number; message: string }[];
    readonly openItems: readonly { line: number; word?: string; text: string }[];
  }[];
}

export function parsed({ output }: Run): Printed {
  return JSON.parse(output) as Printed;
}

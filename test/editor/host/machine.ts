/** What the host scripts ask of the machine: where a program is, and to run it to its end. */
import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import { delimiter, join, resolve } from "node:path";

export const projectFolder = resolve(__dirname, "../../..");

/** Where the editor host lives; several checkouts can share one by naming it. */
export const hostFolder = resolve(process.env.COPPERBOOK_HOST ?? join(projectFolder, ".host"));

/** Screenshots and logs of a run; ignored by git. */
export const artifactsFolder = join(projectFolder, ".artifacts");

/** The path of an executable that the shell would find under this name. */
export function onPath(name: string): string | undefined {
  const folders = (process.env.PATH ?? "").split(delimiter).filter((folder) => folder !== "");
  return folders.map((folder) => join(folder, name)).find(isExecutable);
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** A desktop build of the editor, if this machine has one: named by `COPPERBOOK_EDITOR`, or `code` on the path. */
export function desktopEditor(): string | undefined {
  return process.env.COPPERBOOK_EDITOR ?? onPath("code");
}

interface RunOptions {
  cwd?: string;
  env?: NodeJS.ProcessEnv;
  /** Show the output only when the program fails. */
  quiet?: boolean;
}

/** Runs a program to its end; throws with its output when it does not end with 0. */
export function run(program: string, args: string[], options: RunOptions = {}): void {
  const { quiet, ...spawnOptions } = options;
  const result = spawnSync(program, args, {
    cwd: projectFolder,
    ...spawnOptions,
    stdio: quiet ? ["ignore", "pipe", "pipe"] : ["ignore", "inherit", "inherit"],
    encoding: "utf8",
    maxBuffer: 64 << 20,
  });
  if (result.error) throw result.error;
  if (result.status !== 0) {
    const output = quiet ? `\n${result.stdout}${result.stderr}` : "";
    throw new Error(`${program} ${args.join(" ")} ended with ${result.status ?? result.signal}.${output}`);
  }
}

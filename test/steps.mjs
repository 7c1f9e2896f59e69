/** What the scripts that start from a fresh clone share; they need nothing but Node and npm. */
import { spawnSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";

export const projectFolder = fileURLToPath(new URL("..", import.meta.url));

/** Runs one step with its output shown, and gives its exit code; a step that could not run at all gives 1. */
export function step(title, command, args, env = {}) {
  console.log(`\n— ${title}: ${command} ${args.join(" ")}`);
  const { status, error } = spawnSync(command, args, {
    cwd: projectFolder,
    stdio: "inherit",
    env: { ...process.env, ...env },
    shell: process.platform === "win32", // npm and npx are scripts there.
  });
  if (error) console.error(error.message);
  return status ?? 1;
}

/** Whether `node_modules` holds what the lock file asks for, as far as their dates tell. */
export function dependenciesAreInstalled() {
  const installed = `${projectFolder}node_modules/.package-lock.json`;
  const wanted = `${projectFolder}package-lock.json`;
  return existsSync(installed) && statSync(installed).mtimeMs >= statSync(wanted).mtimeMs;
}

/** Runs both kinds of editor test: the suite inside the extension host, on the editor's API, and the tests that look at the workbench. */
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runTests } from "@vscode/test-electron";
import { onPath, projectFolder, run } from "./host/machine";
import { prepareHost } from "./host/prepareHost";

async function main(): Promise<void> {
  const inHost = await attempt("The suite in the extension host", runSuite);
  const inWorkbench = await attempt("The tests in the workbench", runWorkbenchTests);
  process.exitCode = inHost && inWorkbench ? 0 : 1;
}

async function runSuite(): Promise<void> {
  const workspace = mkdtempSync(join(tmpdir(), "copperbook-suite-"));
  cpSync(join(projectFolder, "samples"), workspace, { recursive: true });
  try {
    await runTests({
      vscodeExecutablePath: editorForTheSuite(),
      extensionDevelopmentPath: projectFolder,
      extensionTestsPath: join(__dirname, "suite/index.cjs"),
      launchArgs: [workspace, "--disable-extensions"],
    });
  } finally {
    rmSync(workspace, { recursive: true, force: true });
  }
}

/** The named editor; where a desktop build is at home, undefined, which downloads one; elsewhere the stand-in. */
function editorForTheSuite(): string | undefined {
  if (process.env.COPPERBOOK_EDITOR !== undefined) return process.env.COPPERBOOK_EDITOR;
  if (onPath("code") !== undefined) return undefined;
  prepareHost();
  return join(__dirname, "host/launchEditor.cjs");
}

function runWorkbenchTests(): void {
  // A browser on a busy machine can be late for a key; a real fault fails three times.
  const options = [
    "--no-config",
    "--require",
    "tsx/cjs",
    "--timeout",
    "120000",
    "--retries",
    "2",
    "--reporter",
    "test/tally.cjs",
  ];
  run("npx", ["mocha", ...options, "test/editor/*.test.ts"]);
}

async function attempt(title: string, action: () => Promise<void> | void): Promise<boolean> {
  console.log(`\n${title}`);
  try {
    await action();
    return true;
  } catch (error) {
    console.error((error as Error).message);
    return false;
  }
}

void main();

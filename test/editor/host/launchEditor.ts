/**
 * Stands in for the desktop editor's executable: takes the command line that `runTests` of @vscode/test-electron writes, runs the suite in the
 * extension host of the editor's server, and ends with the suite's exit code.
 */
import { createReadStream, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { startBrowser, VIEWPORT } from "./browser";
import { prepareHost } from "./prepareHost";
import { EditorServer } from "./server";

/** Twice what the longest suite takes on a slow machine. */
const RUN_LIMIT_MS = 300_000;
const INTERRUPTED = 130;

export async function launchEditor(commandLine: string[]): Promise<never> {
  const { values, positionals } = parseArgs({ args: commandLine, strict: false, allowPositionals: true });
  const home = mkdtempSync(join(tmpdir(), "copperbook-suite-"));
  const output = join(home, "output");
  writeFileSync(output, "");
  let code = 1;
  try {
    code = await runSuite({
      suite: String(values.extensionTestsPath),
      extension: String(values.extensionDevelopmentPath),
      folder: positionals[0],
      output,
    });
  } catch (error) {
    console.error(error);
  }
  await printAll(output);
  rmSync(home, { recursive: true, force: true });
  process.exit(code);
}

interface SuiteRun {
  readonly suite: string;
  readonly extension: string;
  readonly folder: string | undefined;
  /** The file that collects what the suite writes: the workbench's own channel drops and mixes lines. */
  readonly output: string;
}

async function runSuite({ suite, extension, folder, output }: SuiteRun): Promise<number> {
  const host = prepareHost();
  const server = await EditorServer.start(host, { env: { COPPERBOOK_SUITE_OUTPUT: output } });
  const browser = await startBrowser(host);
  try {
    const page = await browser.newPage({ viewport: VIEWPORT });
    const ended = new Promise<number>((end, fail) => {
      // The workbench calls these two when it is opened with a test suite.
      void page.exposeFunction("codeAutomationLog", () => undefined);
      void page.exposeFunction("codeAutomationExit", end);
      page.on("crash", () => fail(new Error("The workbench page crashed.")));
      browser.on("disconnected", () => fail(new Error("The browser went away.")));
      server.onExit(() => fail(new Error(`The editor's server left early.\n${server.log}`)));
      setTimeout(() => fail(new Error(`The suite did not end within ${RUN_LIMIT_MS} ms.`)), RUN_LIMIT_MS).unref();
      for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => end(INTERRUPTED));
    });
    ended.catch(() => undefined); // The page may still be loading when it fails; the failure is awaited below.
    await page.goto(server.address({ folder, extension, suite }));
    return await ended;
  } finally {
    await browser.close();
    await server.stop();
  }
}

function printAll(path: string): Promise<void> {
  return new Promise((done) => createReadStream(path).on("end", done).pipe(process.stdout, { end: false }));
}

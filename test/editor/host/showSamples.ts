/**
 * Shows the samples with the extension at work: in the desktop editor if there is one; else in the editor host, either for a person with a
 * browser until Ctrl-C, or, where nobody sits at the terminal, in a headless browser that keeps a picture and ends.
 */
import { readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { Rig } from "../rig";
import { desktopEditor, projectFolder, run } from "./machine";
import { prepareHost } from "./prepareHost";
import { EditorServer } from "./server";

const SAMPLES = join(projectFolder, "samples");

async function main(): Promise<void> {
  const desktop = desktopEditor();
  if (desktop !== undefined) run(desktop, ["--new-window", `--extensionDevelopmentPath=${projectFolder}`, SAMPLES]);
  else if (process.stdin.isTTY) await serveUntilInterrupted();
  else await takePicture();
}

async function serveUntilInterrupted(): Promise<void> {
  const server = await EditorServer.start(prepareHost());
  console.log(`\nOpen this address in a browser on this machine; Ctrl-C ends the editor.\n`);
  console.log(server.address({ folder: SAMPLES, extension: projectFolder }));
  await new Promise((interrupted) => {
    process.once("SIGINT", interrupted);
    process.once("SIGTERM", interrupted);
    server.onExit(() => interrupted(undefined));
  });
  await server.stop();
}

async function takePicture(): Promise<void> {
  const rig = await Rig.start({ folder: SAMPLES });
  try {
    const note = readdirSync(SAMPLES, { recursive: true, encoding: "utf8" }).find((path) => path.endsWith(".calcs.md"));
    if (note === undefined) throw new Error(`There is no note in ${SAMPLES}.`);
    await rig.openFile(note);
    const valued = async (): Promise<number> => (await rig.lines()).filter(({ beside }) => beside.length > 0).length;
    await rig.waitUntil(
      async () => (await valued()) > 0,
      () => `no value is shown beside the lines of ${note}`,
    );
    const picture = relative(projectFolder, await rig.screenshot("samples"));
    console.log(`\n${note}: values are shown beside ${await valued()} lines; a picture is in ${picture}.`);
    console.log("In a terminal, the same command keeps the editor open and prints its address.");
  } finally {
    await rig.close();
  }
}

main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});

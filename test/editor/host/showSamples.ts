/**
 * Shows the samples with the extension at work: in the desktop editor if there is one; else in the editor host, either for a person with a
 * browser until Ctrl-C, or, where nobody sits at the terminal, in a headless browser that keeps a picture and ends.
 */
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { Rig } from "../rig";
import { desktopEditor, projectFolder, run } from "./machine";
import { prepareHost } from "./prepareHost";
import { EditorServer } from "./server";

const SAMPLES = join(projectFolder, "samples");
/** What is shown first: the rule of a sample that does not hold. */
const NOTE = "display-case-bar/bar.calcs.md";
const RULE = /^ +must +T_bar\b/;

async function main(): Promise<void> {
  const desktop = desktopEditor();
  if (desktop !== undefined)
    run(desktop, ["--new-window", `--extensionDevelopmentPath=${projectFolder}`, SAMPLES, "--goto", place()]);
  else if (process.stdin.isTTY) await serveUntilInterrupted();
  else await takePicture();
}

async function serveUntilInterrupted(): Promise<void> {
  const server = await EditorServer.start(prepareHost());
  console.log(`\nOpen this address in a browser on this machine; Ctrl-C ends the editor.\n`);
  console.log(server.address({ folder: SAMPLES, extension: projectFolder, place: place() }));
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
    const line = lineOfRule();
    await rig.openFile(NOTE);
    await rig.press("Control+B"); // The side bar leaves; lines with their values need the width.
    await rig.goTo(line);
    await rig.waitForSquiggles(line, 1);
    const valued = async (): Promise<number> => (await rig.lines()).filter(({ beside }) => beside.length > 0).length;
    await rig.waitUntil(
      async () => (await valued()) > 0,
      () => `no value is shown beside the lines of ${NOTE}`,
    );
    const picture = relative(projectFolder, await rig.screenshot("samples"));
    console.log(`\n${NOTE}: values are shown beside ${await valued()} lines; a picture is in ${picture}.`);
    console.log("In a terminal, the same command keeps the editor open and prints its address.");
  } finally {
    await rig.close();
  }
}

/** `path:line` of the rule, as editors take it. */
function place(): string {
  return `${join(SAMPLES, NOTE)}:${lineOfRule()}`;
}

/** Counted from 1. */
function lineOfRule(): number {
  const lines = readFileSync(join(SAMPLES, NOTE), "utf8").split("\n");
  const line = lines.findIndex((text) => RULE.test(text)) + 1;
  if (line === 0) throw new Error(`There is no rule about T_bar in ${NOTE}.`);
  return line;
}

main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});

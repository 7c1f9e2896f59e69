/** Takes the picture of the README in the real editor: `npx tsx test/editor/host/takePicture.ts`. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { Rig } from "../rig";
import { projectFolder } from "./machine";

/** High enough for whole rows. */
const SIZE = { width: 1280, height: 760 };
/** Two dots a pixel, for dense screens. */
const DENSITY = 2;

const SETTINGS = {
  "editor.minimap.enabled": false,
  "editor.stickyScroll.enabled": false,
  "editor.scrollbar.vertical": "hidden",
  "editor.scrollbar.horizontal": "hidden",
  "editor.overviewRulerBorder": false,
  "editor.hideCursorInOverviewRuler": true,
  "editor.guides.indentation": false,
  "breadcrumbs.enabled": false,
  "workbench.activityBar.location": "hidden",
  "workbench.layoutControl.enabled": false,
  "window.commandCenter": false,
};

async function takePicture(): Promise<void> {
  const rig = await Rig.start({ folder: join(projectFolder, "samples"), settings: SETTINGS });
  try {
    await rig.page.setViewportSize(SIZE);
    await rig.press("Control+B");
    await rig.openFile("display-case-bar/bar.calcs.md");
    await rig.waitForBeside(65, "fails at the limits");
    await rig.goTo(54);
    await rig.waitForSquiggles(65, 1);
    await rig.hover("T_bar", "Lowest at", 63);
    const session = await rig.page.context().newCDPSession(rig.page);
    const clip = { x: 0, y: 0, ...SIZE, scale: DENSITY };
    const { data } = await session.send("Page.captureScreenshot", { format: "png", clip });
    writeFileSync(join(projectFolder, "media/screenshot.png"), Buffer.from(data, "base64"));
  } finally {
    await rig.close();
  }
}

void takePicture();

import assert from "node:assert/strict";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Rig } from "./rig";

const LINES = 3_000;
/** Enough for the command that checks them all to be at work for a second or more. */
const NOTES = 600;

describe("a large workspace", () => {
  let rig: Rig;
  const home = mkdtempSync(join(tmpdir(), "copperbook-large-"));
  before(async () => {
    const chain = Array.from({ length: LINES - 1 }, (_, i) => `    a${i + 1} = a${i} + 1 V\n`).join("");
    writeFileSync(join(home, "chain.calcs.md"), `    a0 = 0 V ± 1 V\n${chain}`);
    writeFileSync(join(home, "latin.calcs.md"), Buffer.from("    R = 5 k\xa6 ± 1 %\n    b = 2 * 3 V\n", "latin1"));
    const part = chain.split("\n").slice(0, 200).join("\n");
    for (let i = 0; i < NOTES; i++) writeFileSync(join(home, `part${i}.calcs.md`), `    a0 = ${i} V\n${part}\n`);
    rig = await Rig.start({ folder: home });
    await rig.press("Control+B");
  });
  after(async () => {
    await rig?.close();
    rmSync(home, { recursive: true, force: true });
  });

  it("shows the values of a long note where it is looked at", async () => {
    await rig.openFile("chain.calcs.md");
    assert.equal(await rig.waitForBeside(3, "1 .. 2 .. 3 V"), "1 .. 2 .. 3 V");
    await rig.goTo(LINES - 1);
    assert.match(await rig.waitForBeside(LINES - 1, "2.998"), /2\.997 \.\. 2\.998 \.\. 2\.999 kV/);
  });

  it("renews a value far below an edit", async () => {
    await rig.goTo(1, 10);
    await rig.press("Shift+ArrowRight");
    await rig.type("7");
    await rig.goTo(LINES - 1);
    assert.match(await rig.waitForBeside(LINES - 1, "3.005"), /3\.005/);
    await rig.press("Control+Z");
    await rig.waitForBeside(LINES - 1, "2.998");
  });

  it("says of a note that is not UTF-8 what is lost, and computes the rest", async () => {
    await rig.openFile("latin.calcs.md");
    await rig.problems(/could not be read, because it is not UTF-8/);
    await rig.press("Control+J");
    assert.equal(await rig.waitForBeside(2, "6 V"), "6 V");
  });

  it("stops checking all notes when it is told to", async () => {
    await rig.runCommand("Copperbook: Check all notes");
    const cancel = rig.page.locator(".notification-toast .monaco-button", { hasText: "Cancel" });
    await cancel.click();
    await rig.page.locator(".notification-toast").first().waitFor({ state: "hidden" });
    assert.equal(await rig.page.locator(".tab", { hasText: "All notes.md" }).count(), 0);
    await rig.openFile("latin.calcs.md");
  });

  it("brings up no error", () => assert.deepEqual(rig.errors, []));
});

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { Rig } from "./rig";

describe("the rig", () => {
  let rig: Rig;
  const fixture = join(__dirname, "host/fixture");

  before(async () => {
    rig = await Rig.start({ extension: fixture, folder: join(fixture, "notes") });
    await rig.openFile("first.fixture");
  });
  after(() => rig?.close());

  it("reads what stands beside a line", async () => {
    assert.equal(await rig.waitForBeside(1, "long"), "14 “long”");
    assert.equal(await rig.text(1), "alpha teh beta");
  });

  it("scrolls to a line that is out of view", async () => {
    assert.equal(await rig.text(63), "the last line");
    assert.equal(await rig.waitForBeside(63, "13"), "13 “long”");
    await rig.goTo(1);
  });

  it("reads a hover", async () => {
    assert.equal((await rig.hover("quick", "The word")).trim(), "The word is quick.");
    await rig.leaveHover();
  });

  it("lists the problem, applies its quick fix and saves", async () => {
    await rig.waitForSquiggles(1, 1);
    assert.equal((await rig.squiggles())[0]?.severity, "warning");
    assert.ok((await rig.problems("Misspelt")).some((row) => row.includes("[Ln 1, Col 7]")));
    assert.deepEqual(await rig.quickFixes("teh", "Replace", 1), ["Replace with “the”"]);
    await rig.applyQuickFix("teh", "Replace", 1);
    await rig.waitForSquiggles(1, 0);
    await rig.save();
    assert.match(rig.readFile("first.fixture"), /^alpha the beta\n/);
  });

  it("types, and reads completions", async () => {
    await rig.goToEnd(2);
    await rig.type(" comp");
    assert.ok((await rig.completions("completed")).includes("completed"));
    await rig.press("Enter");
    await rig.waitForText(2, "the quick brown fox jumps completed");
    await rig.waitForBeside(2, "35");
    await rig.save();
  });

  it("reads a wrapped line whole", async () => {
    rig.setSettings({ "editor.wordWrap": "on" });
    await rig.goToEnd(63);
    await rig.insert(" word".repeat(60));
    assert.equal(await rig.waitForBeside(63, "313"), "313 “long”");
    assert.equal(await rig.text(63), `the last line${" word".repeat(60)}`);
    await rig.save();
    await rig.goTo(1);
  });

  it("runs a command and reads its answer", async () => {
    await rig.runCommand("Fixture: Greet");
    assert.equal(await rig.notification("Greetings"), "Greetings from a process.");
  });

  it("changes the theme and keeps a picture of each", async () => {
    for (const theme of ["dark", "highContrast", "highContrastLight", "light"] as const) {
      await rig.setTheme(theme);
      assert.ok(existsSync(await rig.screenshot(`rig ${theme}`)));
    }
  });

  it("sees a change on disk, and no error", async () => {
    rig.writeFile("first.fixture", "changed outside\n");
    await rig.waitForBeside(1, "15");
    assert.equal(await rig.text(1), "changed outside");
    assert.deepEqual(rig.errors, []);
  });
});

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { contrastWithGround } from "./contrast";
import type { Rig, Theme } from "./rig";
import { samplesRig } from "./samplesRig";

const BAR = "display-case-bar/bar.calcs.md";
const SLIDER = "camera-slider/slider.calcs.md";
const THEMES: readonly Theme[] = ["dark", "highContrast", "highContrastLight", "light"];

describe("what can be done in a note", () => {
  let rig: Rig;
  before(async () => {
    rig = await samplesRig();
  });

  it("takes the standard value that is nearer, by the quick-fix key", async () => {
    await rig.openFile(SLIDER);
    await rig.waitForBeside(44, "160 .. 161.6 mΩ");
    await rig.waitForSquiggles(44, 1);
    await rig.quickFixes("160 mΩ", "150 mΩ", 44);
    await rig.screenshot("quick fix of a choice");
    await rig.press("Escape");
    await rig.applyQuickFix("160 mΩ", "150 mΩ", 44);
    await rig.waitForText(44, "R_sense  = threshold / I_wanted   choose 150 mΩ ± 1 % from E24");
    await rig.waitForBeside(44, "150 .. 151.5 mΩ");
    await rig.waitForSquiggles(44, 0);
    await rig.press("Control+Z");
    await rig.waitForSquiggles(44, 1);
  });

  it("offers standard values where nothing is wrong", async () => {
    await rig.openFile(BAR);
    await rig.waitForBeside(37, "110");
    await rig.goTo(37);
    const titles = await rig.quickFixes("110 Ω", "Use 120 Ω of E24", 37);
    assert.ok(
      titles.some((title) => title.includes("all rules hold")),
      titles.join(" | "),
    );
    await rig.press("Escape");
  });

  it("renames a quantity across notes", async () => {
    await rig.openFile("seedling-shelf/adapter.calcs.md");
    await rig.waitForBeside(12, "A");
    await rig.goTo(12, 7);
    await rig.press("F2");
    await rig.page.locator(".rename-box .rename-input").fill("I_allowed");
    await rig.press("Enter");
    await rig.waitUntil(
      async () => (await rig.text(12)).includes("I_allowed = 80 % * I_rated"),
      () => "the name is not new",
    );
    await rig.openFile("seedling-shelf/shelf.calcs.md");
    await rig.waitForBeside(16, "fails, 22 % short");
    assert.match(await rig.text(16), /should I_total <= adapter\.I_allowed/);
  });

  it("refuses a name that is taken", async () => {
    await rig.openFile("seedling-shelf/adapter.calcs.md");
    await rig.goTo(12, 7);
    await rig.press("F2");
    await rig.page.locator(".rename-box .rename-input").fill("supply");
    await rig.press("Enter");
    await rig.page
      .locator(".monaco-editor-overlaymessage, .notification-list-item", { hasText: "supply" })
      .first()
      .waitFor();
    await rig.press("Escape");
    assert.match(await rig.text(12), /I_allowed =/);
  });

  it("goes to the definition in another note", async () => {
    await rig.openFile("seedling-shelf/shelf.calcs.md");
    await rig.waitForBeside(15, "holds");
    await rig.goTo(15, 36);
    await rig.press("F12");
    await rig.page.locator(".tab.active", { hasText: "adapter.calcs.md" }).waitFor();
    await rig.waitForStatus(/^Ln 7, /);
  });

  it("completes units and names, and leaves prose alone", async () => {
    await rig.openFile("completion.calcs.md");
    await rig.setText("# Completion\n\nSome prose.\n\n    supply_voltage = 5 V\n    b = \n");
    await rig.goToEnd(6);
    await rig.type("sup");
    assert.ok((await rig.completions("supply_voltage")).includes("supply_voltage"));
    await rig.press("Enter");
    await rig.waitForText(6, "b = supply_voltage");
    assert.equal(await rig.waitForBeside(6, "V"), "5 V");
    await rig.goToEnd(3);
    await rig.type(" sup");
    await rig.page.waitForTimeout(1_000);
    assert.equal(await rig.page.locator(".suggest-widget.visible").count(), 0);
  });

  describe("by the command that checks all notes", () => {
    it("lists the problems of notes that are closed, and sums up", async () => {
      await rig.runCommand("View: Close All Editors");
      const save = rig.page.locator(".dialog-buttons-row .monaco-button", { hasText: "Don't Save" });
      if (await save.isVisible({ timeout: 500 })) await save.click();
      await rig.runCommand("Copperbook: Check all notes");
      await rig.page.locator(".tab.active", { hasText: "All notes.md" }).waitFor();
      let lines: string[] = [];
      await rig.waitUntil(
        async () => {
          lines = (await rig.lines()).map(({ text }) => text);
          return lines.some((text) => text.includes("bar.calcs.md:65 `must T_bar <= 55 °C` fails at the limits"));
        },
        () => `the summary says ${lines.join("\n")}`,
      );
      // Those of the bar and of the rail, and the one over the table that the tests work in.
      assert.match(lines[0], /^# 3 must do not hold, \d+ errors?$/);
      const rows = await rig.problems("measured as");
      assert.ok(
        rows.some((row) => row.includes("fails at the limits, 1.52 K short") && row.includes("[Ln 65, Col 12]")),
      );
      await rig.screenshot("summary light");
      await rig.press("Control+J");
    });

    it("leads from the summary to the line", async () => {
      const link = (await rig.lines()).find(({ text }) => text.includes("bar.calcs.md:65"))!;
      await rig.goTo(link.line, link.text.indexOf("bar.calcs.md:65") + 1);
      await rig.runCommand("Open Link");
      await rig.page.locator(".tab.active", { hasText: "bar.calcs.md" }).waitFor();
      await rig.waitForStatus(/^Ln 65, /);
    });

    it("while a note is edited", async () => {
      await rig.openFile(BAR);
      await rig.waitForBeside(36, "V");
      await rig.goTo(10, 21);
      await rig.press("Shift+ArrowRight");
      await rig.press("Shift+ArrowRight");
      await rig.runCommand("Copperbook: Check all notes");
      await rig.insert("28");
      assert.match(await rig.notification("All notes are checked"), /: \d+ must do(es)? not hold/);
      await rig.page.locator(".tab.active", { hasText: "bar.calcs.md" }).waitFor();
      await rig.waitForBeside(36, "8.54 .. 9.7 .. 10.9 V");
      await rig.press("Control+Z");
      await rig.waitForBeside(36, "4.62 .. 5.7 .. 6.78 V");
    });
  });

  it("is readable in every theme", async () => {
    for (const theme of THEMES) {
      await rig.setTheme(theme);
      await rig.openFile(BAR);
      await rig.waitForBeside(65, "fails at the limits");
      await rig.hover("T_bar", "Lowest at", 63);
      await rig.page.waitForTimeout(FADE_MS);
      assert.ok(existsSync(await rig.screenshot(`note ${theme}`)));
      await rig.leaveHover();
      await rig.quickFixes("110 Ω", "120 Ω", 37);
      await rig.screenshot(`quick fix ${theme}`);
      await rig.press("Escape");
      for (const line of [36, 65]) {
        const [{ colour }] = (await rig.line(line)).beside;
        const contrast = await contrastWithGround(rig.page, colour);
        assert.ok(contrast >= READABLE, `Beside line ${line} in ${theme} the contrast is ${contrast.toFixed(1)}.`);
      }
    }
  });

  it("brings up no error", () => assert.deepEqual(rig.errors, []));
});

/** Contrast of small text after WCAG 2.1, success criterion 1.4.3. */
const READABLE = 4.5;
/** A hover is there before it has faded in. */
const FADE_MS = 400;

import assert from "node:assert/strict";
import type { Rig, Theme } from "./rig";
import { samplesRig } from "./samplesRig";

const NOTE = "ranges.calcs.md";
const THEMES: readonly Theme[] = ["dark", "highContrast", "highContrastLight", "light"];

describe("what ranges and rules say", () => {
  let rig: Rig;
  before(async () => {
    rig = await samplesRig();
    await rig.openFile(NOTE);
    await rig.waitForBeside(10, "2.64 .. 20 .. 37.7 mA");
  });

  /** Hovers and notifications come in slowly; a picture is of what stays. */
  const drawn = () => rig.page.waitForTimeout(500);

  describe("in hover", () => {
    afterEach(() => rig.leaveHover());

    it("has the dimension line, contributions, and how the value is distributed", async () => {
      const shown = await rig.hover("I_string", "of builds", 10);
      assert.match(shown, /Contributions to the range: V_f \d+ %, supply \d+ %/);
      assert.match(
        shown,
        /95 % of builds \d+\.\d+ \.\. 20\.?\d* \.\. \d+\.\d+ mA about the mean, standard deviation \d/,
      );
      assert.match(shown, /Highest at R_series 148\.5 Ω, V_f 2\.8 V, supply 25\.2 V/);
      for (const theme of THEMES) {
        await rig.setTheme(theme);
        await rig.hover("I_string", "of builds", 10);
        await drawn();
        await rig.screenshot(`hover of a value ${theme}`);
        await rig.leaveHover();
      }
    });

    it("names of a rule that fails the worst point, the builds that fail, and the nearest choice with which it holds", async () => {
      const shown = await rig.hover("should", "all rules on it hold", 11);
      assert.match(shown, /fails at the limits, \d+ builds in 100, 26 % short/);
      assert.match(shown, /Worst at R_series 148\.5 Ω, V_f 2\.8 V, supply 25\.2 V/);
      assert.match(shown, /With R_series 200 Ω all rules on it hold/);
      for (const theme of THEMES) {
        await rig.setTheme(theme);
        await rig.hover("should", "all rules on it hold", 11);
        await drawn();
        await rig.screenshot(`hover of a rule ${theme}`);
        await rig.leaveHover();
      }
    });
  });

  it("is offered as fixes: the nearest choice, and the tolerance that it needs", async () => {
    const titles = await rig.quickFixes("I_string", "Use 200 Ω for R_series", 11);
    assert.ok(
      titles.some((title) => /^± [\d.]+ % or better for supply: .*all rules hold$/.test(title)),
      titles.join(" | "),
    );
    await drawn();
    await rig.screenshot("quick fixes of a rule");
    await rig.press("Escape");
    await rig.applyQuickFix("I_string", "Use 200 Ω for R_series", 11);
    await rig.waitForBeside(11, "holds, 5.7 % to spare");
    await rig.press("Control+Z");
    await rig.waitForBeside(11, "fails at the limits");
  });

  describe("with a number of trials that is set", () => {
    afterEach(async () => {
      rig.setSettings({ "copperbook.trials": "adaptive" });
      await rig.waitForBeside(7, /^holds, 9\d(\.\d)? % of builds keep it, 90 % asked for$/);
    });
    before(async () => {
      await rig.openFile("trials.calcs.md");
      await rig.waitForBeside(7, "90 % asked for");
    });

    it("refuses what is none, says what would be, and goes on as before", async () => {
      rig.setSettings({ "copperbook.trials": "12" });
      const said = await rig.notification("copperbook.trials");
      assert.match(said, /is “12”\. It takes “adaptive” or a whole number from 100 to 10000000/);
      await drawn();
      await rig.screenshot("setting refused");
      await rig.runCommand("Notifications: Clear All Notifications");
    });

    it("says how far it is where it takes long, and stops at a click", async () => {
      rig.setSettings({ "copperbook.trials": "10000000" });
      await rig.waitForStatus(/^Drawing builds \d+ %$/);
      await rig.screenshot("progress of trials");
      await rig.page.locator(".statusbar-item", { hasText: "Drawing builds" }).click();
      await rig.waitForBeside(7, "undecided, the trials of its builds were stopped");
      await rig.waitUntil(
        async () => (await rig.statusBar()).every((text) => !text.startsWith("Drawing builds")),
        () => "it still says that builds are drawn",
      );
    });
  });
});

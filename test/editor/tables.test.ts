import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { contrastWithGround } from "./contrast";
import type { Rig, Theme } from "./rig";
import { samplesRig } from "./samplesRig";

const TABLE = "table.calcs.md";
const THEMES: readonly Theme[] = ["dark", "highContrast", "highContrastLight", "light"];

describe("a data table in the editor", () => {
  let rig: Rig;
  before(async () => {
    rig = await samplesRig();
    await rig.openFile(TABLE);
    await rig.waitForBeside(4, "27.2 EUR");
  });

  it("has what is computed beside its rows", async () => {
    assert.equal(await rig.waitForBeside(9, "total"), "qty 8 · total 16.8 EUR");
    assert.equal(await rig.waitForBeside(10, "total"), "total 6 EUR");
    assert.equal(await rig.waitForBeside(12, "total"), "total 1.6 EUR");
    assert.deepEqual(await rig.beside(7), []);
  });

  it("follows a cell while it is typed", async () => {
    await rig.goTo(11, 11);
    await rig.press("Shift+ArrowRight");
    await rig.insert("3");
    await rig.waitForText(11, "| relay | 3 | 75 | 1.40 EUR | |");
    await rig.waitForBeside(11, "total 4.2 EUR");
    await rig.waitForBeside(4, "28.6 EUR");
    await rig.press("Control+Z");
    await rig.waitForBeside(4, "27.2 EUR");
  });

  it("names the rows in which a rule fails", async () => {
    const phrase = await rig.waitForBeside(5, "fails");
    assert.equal(phrase, "fails, fan and relay, 230 % short");
    await rig.waitForSquiggles(5, 1);
    const rows = await rig.problems("fails in fan and relay", TABLE);
    assert.ok(
      rows.some((row) => row.includes("at worst where parts.fan.current 198 mA") && row.includes("[Ln 5, Col 10]")),
      rows.join("\n"),
    );
    await rig.press("Control+J");
  });

  it("tells the total over a header", async () => {
    const hover = await rig.hover("total", "total 27.2 EUR", 7);
    assert.match(hover, /from 1\.6 EUR in M3×8 to 16\.8 EUR in bar/);
    assert.match(hover, /Computed in every row: qty \* price/);
    await rig.leaveHover();
  });

  it("renames a column wherever it stands", async () => {
    await rig.goTo(7, 36);
    await rig.press("F2");
    await rig.page.locator(".rename-box .rename-input").fill("unit_price");
    await rig.press("Enter");
    await rig.waitForText(7, "| parts: | qty | current [mA] | unit_price | total = qty * unit_price |");
    await rig.waitForBeside(4, "27.2 EUR");
    await rig.press("Control+Z");
    await rig.waitForText(7, "| parts: | qty | current [mA] | price | total = qty * price |");
  });

  it("is aligned by a quick fix, and its values stay beside it", async () => {
    await rig.goTo(9, 3);
    await rig.applyQuickFix("bar", "Align the table", 9);
    await rig.waitForText(9, "| bar    | = boards |           40 | 2.10 EUR |                     |");
    assert.equal(await rig.waitForBeside(9, "total"), "qty 8 · total 16.8 EUR");
    assert.equal((await rig.text(9)).length, (await rig.text(12)).length);
  });

  it("may be a file, and follows it on disk and while it is edited", async () => {
    rig.writeFile("price.csv", "part,each\nbar,2 EUR\n");
    await rig.openFile("price.calcs.md");
    await rig.waitForBeside(4, "2 EUR");
    rig.writeFile("price.csv", "part,each\nbar,3 EUR\n");
    await rig.waitForBeside(4, "3 EUR");
    await rig.openFile("price.csv");
    await rig.goToEnd(2);
    await rig.insert("\nfan,5 EUR");
    await rig.openFile("price.calcs.md");
    await rig.waitForBeside(4, "8 EUR");
    rmSync(join(rig.folder, "price.csv"));
    // The file is gone, and can be found no more; its editor is still there.
    await rig.page.locator(".tab", { hasText: "price.csv" }).click();
    await rig.press("Control+Z");
    await rig.runCommand("View: Revert and Close Editor");
    await rig.openFile("price.calcs.md");
    await rig.waitForSquiggles(3, 1);
    await rig.openFile(TABLE);
  });

  it("is readable in every theme", async () => {
    for (const theme of THEMES) {
      await rig.setTheme(theme);
      await rig.waitForBeside(9, "total");
      await rig.hover("total", "total 27.2 EUR", 7);
      await rig.page.waitForTimeout(FADE_MS);
      await rig.screenshot(`table ${theme}`);
      await rig.leaveHover();
      for (const line of [5, 9]) {
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

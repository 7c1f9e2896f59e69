import assert from "node:assert/strict";
import type { Rig } from "./rig";
import { samplesRig } from "./samplesRig";

const NOTE = "handbook.calcs.md";

describe("the handbook in the editor", () => {
  let rig: Rig;
  before(async () => {
    rig = await samplesRig();
  });
  beforeEach(async () => {
    await rig.openFile(NOTE);
    await rig.waitForBeside(3, "150 Ω");
  });

  it("says at a call the formula, the result, the source and the page", async () => {
    const hover = await rig.hover("series_resistor", "Source:", 3);
    const parts = [
      "led.series_resistor(supply [V], n, V_f [V], I [A]) [Ω]",
      "20 mA",
      "gives 150 Ω",
      "Kirchhoff",
      "The chapter led",
    ];
    const places = parts.map((part) => hover.indexOf(part));
    assert.ok(!places.includes(-1), `The hover says:\n${hover}`);
    await rig.screenshot("handbook hover");
    await rig.leaveHover();
  });

  it("opens the page of a function, read-only and with its values", async () => {
    await rig.goTo(3, 14);
    await rig.press("F12");
    await rig.page.locator(".tab.active", { hasText: "led.calcs.md" }).waitFor();
    const { line } = (await rig.lines()).find(({ text }) => text.includes("must series_resistor("))!;
    await rig.waitForBeside(line, "holds");
    const before = await rig.text(line);
    await rig.goTo(line);
    await rig.type("x");
    assert.equal(await rig.text(line), before);
    await rig.press("Escape");
  });

  it("completes the functions of a chapter that was not read before", async () => {
    await rig.goTo(4, 10);
    await rig.type(" * battery.");
    const offered = await rig.completions("c_rate");
    assert.ok(offered.length > 3, offered.join(" | "));
    await rig.press("Escape");
    await rig.press("Control+Z");
  });

  it("opens from the palette, with links to the chapters", async () => {
    await rig.runCommand("Copperbook: Open the handbook");
    await rig.page.locator(".tab.active", { hasText: "Handbook.md" }).waitFor();
    const link = (await rig.lines()).find(
      ({ text }) => text.startsWith("## series") || text.startsWith("## resistor"),
    )!;
    await rig.goTo(link.line, 5);
    await rig.runCommand("Open Link");
    await rig.page.locator(".tab.active", { hasText: /(series|resistor)\.calcs\.md/ }).waitFor();
  });

  it("brings up no error", () => assert.deepEqual(rig.errors, []));
});

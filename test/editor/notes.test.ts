import assert from "node:assert/strict";
import { cursor, scrolledBy, watchLine } from "./caret";
import type { Rig } from "./rig";
import { samplesRig } from "./samplesRig";

const BAR = "display-case-bar/bar.calcs.md";

describe("a note in the editor", () => {
  let rig: Rig;
  before(async () => {
    rig = await samplesRig();
  });

  describe("shows values and rule phrases beside their lines", () => {
    const samples: readonly [path: string, line: number, text: RegExp, beside: string][] = [
      [BAR, 36, /burden {3}= supply/, "4.62 .. 5.7 .. 6.78 V"],
      [
        BAR,
        65,
        /must {3}T_bar <= 55/,
        "fails at the limits, 2 builds in 1000, 1.52 K short at R_string 108.9 Ω, V_f 2.95 V",
      ],
      ["camera-slider/slider.calcs.md", 46, /reserve {2}= k_T/, "1.67 .. 2.3 .. 3.12"],
      ["soil-probe/probe.calcs.md", 39, /measured burst/, "41 .. 44 .. 47 µC, inside what was predicted"],
      ["seedling-shelf/adapter.calcs.md", 6, /given {2}supply/, "23.3 .. 24 .. 24.7 V"],
      ["seedling-shelf/light.calcs.md", 6, /use "adapter/, "read"],
      ["seedling-shelf/shelf.calcs.md", 16, /should I_total/, "fails, 22 % short"],
    ];
    for (const [path, line, text, beside] of samples) {
      it(`${path}:${line}`, async () => {
        await rig.openFile(path);
        assert.equal(await rig.waitForBeside(line, beside), beside);
        assert.match(await rig.text(line), text);
      });
    }

    it("bold where a rule fails, and only there", async () => {
      await rig.openFile(BAR);
      await rig.waitForBeside(65, "fails");
      assert.equal((await rig.line(65)).beside[0].weight, "700");
      assert.equal((await rig.line(62)).beside[0].weight, "400");
    });

    it("not in a text that is no note", async () => {
      await rig.openFile("README.md");
      assert.deepEqual(
        (await rig.lines()).filter(({ beside }) => beside.length > 0),
        [],
      );
    });
  });

  it("tells its state in the status bar", async () => {
    await rig.openFile(BAR);
    assert.equal(await rig.waitForStatus("hold"), "1 fail · 5 hold · 1 guess");
  });

  it("explains a quantity in a hover, in order", async () => {
    await rig.openFile(BAR);
    await rig.waitForBeside(63, "°C");
    const hover = await rig.hover("T_bar", "Lowest at", 63);
    const parts = [
      "26.1 .. 39.7 .. 56.5 °C",
      "├",
      "ambient + θ_bar",
      "22.5 °C + 2.3 K/W",
      "Contributions to the range:",
      "Highest at",
      "must T_bar <= 55 °C",
    ];
    const places = parts.map((part) => hover.indexOf(part));
    assert.ok(!places.includes(-1), `The hover says:\n${hover}`);
    assert.deepEqual(
      [...places].sort((a, b) => a - b),
      places,
    );
    await rig.leaveHover();
  });

  describe("while it is edited", () => {
    beforeEach(async () => {
      await rig.openFile("typing.calcs.md");
      await rig.setText("# Typing\n\n    a = 2 V\n    b = 3 * a\n    c = 5 * b\n");
      assert.equal(await rig.waitForBeside(5, "30 V"), "30 V");
    });

    it("moves neither the caret nor the view", async () => {
      await rig.goToEnd(4);
      await rig.waitUntil(
        async () => (await cursor(rig.page)).column === "    b = 3 * a".length,
        () => "The caret did not reach the end of the line.",
      );
      const before = { caret: await cursor(rig.page), scrolled: await scrolledBy(rig.page) };
      await rig.type("00");
      await rig.waitForSquiggles(4, 1);
      assert.deepEqual(await rig.beside(4), []);
      await rig.press("Backspace");
      await rig.press("Backspace");
      assert.equal(await rig.waitForBeside(4, "6 V"), "6 V");
      assert.deepEqual({ caret: await cursor(rig.page), scrolled: await scrolledBy(rig.page) }, before);
      // The caret stands behind the last letter, not behind the value.
      assert.equal(before.caret.column, "    b = 3 * a".length);
    });

    it("renews the line and those that rest on it", async () => {
      await rig.goTo(3, 9);
      await rig.press("Shift+ArrowRight");
      await rig.type("7");
      assert.equal(await rig.waitForBeside(4, "21 V"), "21 V");
      assert.equal(await rig.waitForBeside(5, "105 V"), "105 V");
    });

    it("never leaves an old value beside a line that was edited", async () => {
      await rig.goToEnd(5);
      const watched = await watchLine(rig.page, "c = 5");
      await rig.type(" + 1 V * 2");
      await rig.waitForBeside(5, "32 V");
      await rig.type(" +");
      await rig.waitUntil(
        async () => (await rig.beside(5)).length === 0,
        () => "a value stands beside a line that has none",
      );
      const longest = await watched.longestStale({ "c = 5 * b": "30 V", "c = 5 * b + 1 V * 2": "32 V" });
      assert.ok(longest < STALE_LIMIT_MS, `An old value stood for ${longest} ms.`);
    });

    it("keeps the indent on Enter, and toggles comments", async () => {
      await rig.openFile("enter.calcs.md");
      await rig.setText("# Enter\n\n    a = 2 V\n");
      await rig.goToEnd(3);
      await rig.press("Enter");
      await rig.type("b = 2 * a");
      await rig.waitForText(4, "b = 2 * a");
      assert.equal(await rig.text(4), "    b = 2 * a");
      assert.equal(await rig.waitForBeside(4, "4 V"), "4 V");
      await rig.press("Escape");
      await rig.press("Control+/");
      await rig.waitForText(4, "# b = 2 * a");
      await rig.waitUntil(
        async () => (await rig.beside(4)).length === 0,
        () => "a comment has a value",
      );
    });
  });

  it("reads a note with CRLF, and edits it", async () => {
    await rig.openFile("crlf.calcs.md");
    assert.equal(await rig.waitForBeside(4, "6 V"), "6 V");
    await rig.goToEnd(3);
    await rig.insert(" + 1 V\nd = 4 * a");
    assert.equal(await rig.waitForBeside(5, "9 V"), "9 V");
    assert.equal(await rig.waitForBeside(4, "12 V"), "12 V");
    await rig.save();
    assert.equal(
      rig.readFile("crlf.calcs.md"),
      "# CRLF\r\n\r\n    a = 2 V + 1 V\r\n    d = 4 * a\r\n    b = 3 * a\r\n",
    );
  });

  it("follows a note that it uses, on disk", async () => {
    rig.writeFile("used.calcs.md", "    a = 2 V\n");
    await rig.openFile("user.calcs.md");
    assert.equal(await rig.waitForBeside(2, "6 V"), "6 V");
    rig.writeFile("used.calcs.md", "    a = 5 V\n");
    assert.equal(await rig.waitForBeside(2, "15 V"), "15 V");
  });

  it("hides values on request", async () => {
    await rig.openFile("user.calcs.md");
    rig.setSettings({ "copperbook.values.show": false });
    await rig.waitUntil(
      async () => (await rig.beside(2)).length === 0,
      () => "values are still shown",
    );
    rig.setSettings({ "copperbook.values.show": true });
    await rig.waitForBeside(2, "15 V");
  });

  it("brings up no error", () => assert.deepEqual(rig.errors, []));
});

/** A frame or two of a busy machine; a person reads nothing in that time. */
const STALE_LIMIT_MS = 250;

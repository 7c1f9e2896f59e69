import assert from "node:assert/strict";
import { indexText } from "../../src/extension/handbookIndex";
import { Service } from "../../src/service";
import { readChapter } from "../handbook/chapters";

const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

describe("the index of the handbook", () => {
  it("lists each chapter with its purpose and functions, each a link to its line", async () => {
    const service = new Service({ read: (path) => Promise.resolve(readChapter(path)!) }, SETTINGS);
    await service.loadChapters(["db", "led"]);
    const { text, links } = indexText(service.handbook());
    const lines = text.split("\n");
    assert.equal(lines[0], "# The handbook");
    assert.deepEqual(
      lines.filter((line) => line.startsWith("## ")),
      ["## led · Light-emitting diodes", "## db · Decibels"],
    );
    const burden = links.find(({ at }) => lines[at.line].startsWith("- led.burden("))!;
    assert.equal(lines[burden.at.line].slice(burden.at.start, burden.at.end), "led.burden(supply [V], n, V_f [V]) [V]");
    const page = service.snapshot("handbook:led")!.text.split("\n");
    assert.match(page[burden.line - 1], /^ {4}burden\(supply \[V\], n, V_f \[V\]\) \[V\] =/);
    assert.equal(links.filter(({ chapter, line }) => chapter === "db" && line === 1).length, 1);
  });
});

import assert from "node:assert/strict";
import { Service } from "../../src/service";
import { libraryOf } from "../features/notes";

const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

describe("a note that is edited", () => {
  const kept: readonly [text: string, from: string, to: string][] = [
    ["    x = 3,3 V # foo\n", "foo", "food"],
    ["    x == 3 V # foo\n", "foo", "food"],
    ['    given x = 3 V ± from "abc"\n', "abc", "abd"],
    ["| s: | b c | a |\n| --- | --- | --- |\n| x | 1 | 2 |\n", "| x | 1 | 2 |", "| x | 1 | 3 |"],
  ];
  for (const [text, from, to] of kept)
    it(`keeps what is wrong with it: ${JSON.stringify(text)}`, () => {
      const service = new Service(libraryOf({}), SETTINGS);
      service.open("n", text);
      const start = text.indexOf(from);
      service.edit("n", [{ span: { start, end: start + from.length }, text: to }]);
      const fresh = new Service(libraryOf({}), SETTINGS);
      fresh.open("n", text.replace(from, to));
      const codes = (of: Service) => of.findings("n").map(({ code }) => code);
      assert.ok(codes(fresh).length > 0);
      assert.deepEqual(codes(service), codes(fresh));
    });

  it("shows what a search found while fixes were asked for", () => {
    const text = "    given a = 1 .. 2 V\n    h = if a > 1.5 V then a else a * a / (1 V)\n    y = q\n";
    const service = new Service(libraryOf({}), SETTINGS, "in slices");
    service.open("n", text);
    service.fixes("n", { start: 0, end: text.length });
    service.search(() => false);
    const fresh = new Service(libraryOf({}), SETTINGS);
    fresh.open("n", text);
    assert.deepEqual(
      service.results("n").map((result) => result.text),
      fresh.results("n").map((result) => result.text),
    );
  });

  it("names every input, whatever it is called", () => {
    const service = new Service(libraryOf({}), SETTINGS);
    service.open("n", "    given __proto__ = 3 .. 4 V\n    given b = 3 .. 4 V\n    t = __proto__ + b\n");
    const t = service.record("n").values.find(({ name }) => name === "t");
    assert.deepEqual(Object.keys(t?.inputsAt?.max ?? {}).sort(), ["__proto__", "b"]);
  });
});

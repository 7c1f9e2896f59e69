import assert from "node:assert/strict";
import { Service } from "../../src/service";
import { applyEdits } from "../../src/text/edit";
import { holding, libraryOf, loaded, note } from "../features/notes";

const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

describe("the service", () => {
  it("answers of a note that is edited as of one opened so", () => {
    const service = holding({ n: note("a = 2 * 1 V\nb = 2 * a\nmust b < 5 V") });
    service.edit("n", [
      { span: { start: 8, end: 9 }, text: "3" },
      { span: { start: 24, end: 25 }, text: "4" },
    ]);
    const { text } = service.snapshot("n")!;
    assert.equal(text, note("a = 3 * 1 V\nb = 4 * a\nmust b < 5 V"));
    assert.deepEqual(service.record("n"), holding({ n: text }).record("n"));
  });

  it("reads the notes that notes use, and says whether it read any", async () => {
    const service = new Service(
      libraryOf({ "b.calcs.md": note('use "c.calcs.md" as c\ny = 2 * c.z'), "c.calcs.md": note("z = 3 V") }),
      SETTINGS,
    );
    service.open("a.calcs.md", note('use "b.calcs.md" as b\nx = 2 * b.y\nuse "d.calcs.md" as d'));
    assert.equal(await service.load(), true);
    assert.deepEqual([...service.paths()].sort(), ["a.calcs.md", "b.calcs.md", "c.calcs.md"]);
    assert.equal(service.results("a.calcs.md")[1].text, "12 V");
    assert.equal(await service.load(), false);
  });

  it("does not let what the library read late replace what was opened since", async () => {
    let answer: (text: string) => void = () => {};
    const service = new Service(
      { read: () => new Promise((resolve) => (answer = (text) => resolve({ text }))) },
      SETTINGS,
    );
    service.open("a.calcs.md", note('use "b.calcs.md" as b\nx = 2 * b.y'));
    const loading = service.load();
    service.open("b.calcs.md", note("y = 5 V"));
    answer(note("y = 1 V"));
    await loading;
    assert.equal(service.results("a.calcs.md")[1].text, "10 V");
  });

  it("reads a used note afresh once it is closed", async () => {
    const files: Record<string, string> = { "b.calcs.md": note("y = 1 V") };
    const service = new Service(libraryOf(files), SETTINGS);
    service.open("a.calcs.md", note('use "b.calcs.md" as b\nx = 2 * b.y'));
    await service.load();
    files["b.calcs.md"] = note("y = 7 V");
    service.close("b.calcs.md");
    assert.deepEqual(
      service.results("a.calcs.md").map(({ text }) => text),
      ["not read"],
    );
    await service.load();
    assert.equal(service.results("a.calcs.md")[1].text, "14 V");
  });

  it("is told of an edit elsewhere in all that it answers", async () => {
    const service = await loaded("a.calcs.md", note('use "b.calcs.md" as b\nx = 2 * b.y\nmust x < 5 V'), {
      "b.calcs.md": note("y = 1 V"),
    });
    assert.equal(service.summary("a.calcs.md").isGood, true);
    service.open("b.calcs.md", note("y = 3 V"));
    assert.equal(service.summary("a.calcs.md").isGood, false);
    assert.match(service.hover("a.calcs.md", note('use "b.calcs.md" as b\n').length + 4)!.markdown, /6 V/);
  });

  it("tries fixes without a trace", () => {
    const text = note("given V = 3 V\nR = V / 20.5 mA\nI = V / R\nmust I <= 25 mA");
    const service = holding({ n: text });
    const snapshot = service.snapshot("n");
    const before = JSON.stringify(service.record("n"));
    const offered = service.fixes("n", { start: text.indexOf("R ="), end: text.indexOf("R =") });
    assert.equal(offered[0].fix.title.startsWith("Use 150 Ω"), true);
    assert.equal(service.snapshot("n"), snapshot);
    assert.equal(JSON.stringify(service.record("n")), before);
    const after = applyEdits(text, offered[0].fix.edits);
    assert.match(after, /R = V \/ 20\.5 mA choose 150 Ω from E24\n/);
    service.open("n", after);
    assert.deepEqual(service.record("n"), holding({ n: after }).record("n"));
  });

  it("knows places in a note by its statements after fixes were tried there", () => {
    const texts = {
      "a.calcs.md": note("given V = 3 V\nR = V / 20.5 mA\nf(x) = x + R + 1 s"),
      "c.calcs.md": note('use "a.calcs.md" as a\ny = a.f(3 Ω)'),
    };
    const service = holding(texts);
    assert.ok(service.fixes("a.calcs.md", { start: 22, end: 22 }).length > 0);
    const found = service.findings("c.calcs.md");
    assert.ok(found.some(({ related }) => related?.some(({ path }) => path === "a.calcs.md")));
    assert.deepEqual(found, holding(texts).findings("c.calcs.md"));
  });

  it("takes the series of the settings, and new ones at once", () => {
    const text = note("R = 3.07 V / 20.5 mA");
    const service = holding({ n: text });
    const titles = () => service.fixes("n", { start: 4, end: 4 }).map(({ fix }) => fix.title);
    assert.ok(titles()[0].includes("of E24"));
    service.configure({ series: { ...SETTINGS.series, resistor: "E96" } });
    assert.ok(titles()[0].includes("of E96"));
  });

  it("offers the fixes of the findings at a place, with the finding, and each edit once", () => {
    const text = note("given voltage = 3 V\nx = 2 * voltaeg");
    const service = holding({ n: text });
    const offered = service.fixes("n", { start: text.length - 2, end: text.length - 2 });
    assert.equal(offered[0].finding?.code, "name.unknown");
    assert.equal(applyEdits(text, offered[0].fix.edits), note("given voltage = 3 V\nx = 2 * voltage"));
    assert.deepEqual(service.fixes("n", { start: 6, end: 6 }), []);
    const overtaken = note("R = 3 V / 20 mA choose 100 Ω from E24");
    const edits = holding({ n: overtaken })
      .fixes("n", { start: 0, end: overtaken.length })
      .map(({ fix }) => JSON.stringify(fix.edits));
    assert.equal(new Set(edits).size, edits.length);
    assert.ok(edits.length > 0);
  });

  it("knows of nothing in a note that it does not hold", () => {
    const service = holding({});
    assert.deepEqual(service.findings("n"), []);
    assert.deepEqual(service.fixes("n", { start: 0, end: 0 }), []);
    assert.deepEqual(service.results("n"), []);
    assert.equal(service.hover("n", 0), undefined);
    assert.deepEqual(service.completions("n", 0), []);
    assert.deepEqual(service.symbols("n"), []);
    assert.deepEqual(service.references("n", 0), []);
    assert.deepEqual(service.foldings("n"), []);
    assert.deepEqual(service.rename("n", 0, "x"), { refusal: "This note is not open." });
  });
});

import assert from "node:assert/strict";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { holding, loaded, marked, note } from "../features/notes";
import { type OpenNotes, openNotes } from "../notation";
import { readChapter } from "./chapters";

const PATH = "note.calcs.md";

function texts(notes: OpenNotes): readonly string[] {
  return notes.findings().map(({ code, message }) => `${code}: ${message}`);
}

function valueOf(notes: OpenNotes, name: string): number | undefined {
  const outcome = notes.snapshot().find(name)?.outcome;
  return outcome?.kind === "quantity" ? outcome.values[0]?.nominal : undefined;
}

describe("the scope of chapters", () => {
  it("has functions and constants of a chapter everywhere under its name", () => {
    const notes = openNotes("    R = led.series_resistor(24 V, 7, 3 V, 20 mA)\n    k = resistor.k_B\n");
    assert.deepEqual(texts(notes), []);
    assert.equal(valueOf(notes, "R"), 150);
    assert.equal(valueOf(notes, "k"), 1.380649e-23);
  });

  it("has a space of its own: a quantity, a function or a parameter of the same name hides no chapter", () => {
    const notes = openNotes(
      "    led = led.burden(24 V, 7, 3 V)\n    resistor(db) = db.power_ratio(db)\n    x = resistor.power_of_current(led / 1 Ω, 1 Ω) / 1 W + resistor(10)\n",
    );
    assert.deepEqual(texts(notes), []);
    assert.equal(valueOf(notes, "x"), 19);
  });

  it("leaves an assumption unused that has the name of a chapter which is called", () => {
    const notes = openNotes("    assume led = 3 V\n    must led.burden(24 V, 7, 3 V) <= 4 V\n");
    assert.deepEqual(
      notes.findings().map(({ code }) => code),
      ["assumption.unused"],
    );
  });

  it("reaches one chapter from another", () => {
    const notes = openNotes("    y = wire.far(10)\n=== handbook:wire\n    far(x) = 2 * db.power_ratio(x)\n");
    assert.equal(valueOf(notes, "y"), 20);
  });

  it("gives a note in use by the name of a chapter the chapter's place", () => {
    const notes = openNotes(
      '    use "ours.calcs.md" as led\n    x = led.burden(24 V)\n=== ours.calcs.md\n    burden(U) = U / 2\n',
    );
    assert.equal(valueOf(notes, "x"), 12);
    const undone = notes.snapshot().text.replace("as led", "as ours");
    notes.replace(PATH, undone);
    assert.match(texts(notes)[0], /needs a value for `n`/);
  });

  it("reads a chapter only when a note mentions a member of it", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText(PATH, "    led = 3 V\n    x = led + 1 V\n    resistor(y) = y\n");
    program.settle();
    assert.deepEqual(program.wanted(), []);
    program.setText(PATH, "    x = led.burden(24 V, 7, 3 V)\n");
    program.settle();
    assert.deepEqual(program.wanted(), ["handbook:led"]);
    program.setText(PATH, "    x = 3 V\n");
    program.settle();
    assert.deepEqual(program.wanted(), []);
  });

  it("has no value while a chapter is being read, and says nothing of that", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText(PATH, "    x = led.burden(24 V, 7, 3 V)\n");
    program.settle();
    const before = program.snapshot(PATH)!.find("x")!.outcome;
    assert.ok(before.kind === "quantity" && before.values.length === 0 && before.problems.length === 0);
    program.provide("handbook:led", readChapter("handbook:led")!);
    program.settle();
    const after = program.snapshot(PATH)!.find("x")!.outcome;
    assert.ok(after.kind === "quantity" && after.values[0].nominal === 3);
  });

  it("carries ranges through a chapter's formulas as through those of the note", () => {
    const notes = openNotes("    I = led.current(24 V ± 5 %, 7, 2.8 .. 3.2 V, 150 Ω ± 1 %)\n");
    const outcome = notes.snapshot().find("I")!.outcome;
    assert.ok(outcome.kind === "quantity");
    assert.ok(Math.abs(outcome.values[0].high - 5.6 / 148.5) < 1e-12);
    assert.ok(Math.abs(outcome.values[0].low - 0.4 / 151.5) < 1e-12);
  });
});

describe("what is offered of the handbook", () => {
  it("is not among the notes", async () => {
    const service = await loaded(PATH, note("x = led.burden(24 V, 7, 3 V)\n"), {});
    assert.deepEqual(service.paths(), [PATH]);
  });

  it("says at a call the formula with its numbers, the result, the source and the page", async () => {
    const { text, offset } = marked(note("given supply = 24 V\nx = 2 * led.bur¦den(supply, 7, 3 V)\n"));
    const service = await loaded(PATH, text, {});
    const answer = service.hover(PATH, offset);
    assert.deepEqual(answer?.markdown.split("\n\n"), [
      "**`led.burden(supply [V], n, V_f [V]) [V]`**",
      "```text\nsupply - n * V_f\n24 V   - 7 * 3 V\n```",
      "gives **3 V**",
      "voltage that the resistor bears, n LEDs of V\\_f in series",
      "Source: Kirchhoff's voltage law; not below a fifth of the supply, common practice.",
    ]);
    assert.deepEqual(answer?.page, { chapter: "led", name: "burden" });
    assert.equal(service.snapshot(PATH)?.text, text);
  });

  it("says at a call for which arguments the formula holds", async () => {
    const { text, offset } = marked(note("x = led.curr¦ent(24 V, 7, 3 V, 150 Ω)\n"));
    const service = await loaded(PATH, text, {});
    assert.match(
      service.hover(PATH, offset)!.markdown,
      /\n\ngives \*\*20 mA\*\*\n[^]*\n\nHolds where `supply >= n \* V_f`\n/,
    );
  });

  it("offers no fix in a page, which cannot be edited", async () => {
    const text = note("x = led.burden(24 V, 7, 3 V)\n");
    const service = await loaded(PATH, text, {});
    const at = { start: 6, end: 6 };
    assert.notDeepEqual(holding({ [PATH]: note("R = 3 V / 7 mA\n") }).fixes(PATH, at), []);
    service.open("handbook:led", note("R = 3 V / 7 mA\n"));
    assert.deepEqual(service.fixes("handbook:led", at), []);
  });

  it("says of a chapter's name what it is about", async () => {
    const { text, offset } = marked(note("x = l¦ed.burden(24 V, 7, 3 V)\n"));
    const service = await loaded(PATH, text, {});
    assert.match(service.hover(PATH, offset)!.markdown, /^The chapter \*\*`led`\*\* of the handbook: series resistor/);
  });

  it("leads from a call to its place in the chapter", async () => {
    const { text, offset } = marked(note("x = led.bur¦den(24 V, 7, 3 V)\n"));
    const service = await loaded(PATH, text, {});
    const { path, span } = service.definition(PATH, offset)!;
    assert.equal(path, "handbook:led");
    assert.equal(service.snapshot(path)!.text.slice(span.start, span.end), "burden");
    assert.deepEqual(service.references(PATH, offset).filter((place) => place.path === PATH).length, 1);
  });

  it("completes chapters, and their members once the chapter is read", async () => {
    const { text, offset } = marked(note("x = 2 * led.s¦\n"));
    const service = holding({ [PATH]: text });
    assert.deepEqual(service.completions(PATH, offset), []);
    await service.loadFor(PATH, offset);
    const found = service.completions(PATH, offset).find(({ label }) => label === "series_resistor");
    assert.equal(found?.detail, "series_resistor(supply [V], n, V_f [V], I [A]) [Ω]");
    assert.equal(found?.documentation, "series resistor for a current");
    const start = marked(note("x = le¦\n"));
    const chapters = holding({ [PATH]: start.text }).completions(PATH, start.offset);
    const led = chapters.find(({ label }) => label === "led");
    assert.equal(led?.insert, "led.");
    assert.equal(led?.kind, "chapter");
  });

  it("shows which argument of a call is being written", async () => {
    const signature = async (line: string) => {
      const { text, offset } = marked(note(line));
      const service = await loaded(PATH, text, {});
      await service.loadFor(PATH, offset);
      return service.signatureAt(PATH, offset);
    };
    const written = await signature(
      "f(a, b = 2) = a # half\ny = led.burden(1 V, 2, 3 V)\nx = led.burden(24 V, f(1)¦)\n",
    );
    assert.deepEqual([written?.label, written?.active], ["led.burden(supply [V], n, V_f [V])", 1]);
    const own = await signature("f(a, b = 2) = a # half\nx = 2 * f(3, b = ¦)\n");
    assert.deepEqual(own, { label: "f(a, b = 2)", parameters: ["a", "b = 2"], active: 1, documentation: "half" });
    assert.equal((await signature("x = atan2(1, ¦)\n"))?.active, 1);
    assert.equal(await signature("x = (1 + ¦)\n"), undefined);
  });

  it("cannot be renamed", async () => {
    const { text, offset } = marked(note("led = 3 V\nx = led.bur¦den(24 V, 7, led)\n"));
    const service = await loaded(PATH, text, {});
    const answer = service.rename(PATH, offset, "load");
    assert.deepEqual(answer, { refusal: "`burden` is of the handbook, which is read and not written." });
    assert.equal(service.renameSpan(PATH, offset), undefined);
    const own = service.rename(PATH, text.indexOf("led"), "V_f");
    assert.ok("edits" in own);
    assert.deepEqual(
      own.edits.flatMap(({ edits }) => edits.map(({ span }) => span.start)),
      [text.indexOf("led"), text.lastIndexOf("led")],
    );
  });
});

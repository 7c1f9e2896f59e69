import assert from "node:assert/strict";
import { applyEdits } from "../../src/text/edit";
import { holding, marked, note } from "./notes";

/** What is offered at the mark: title, and the note after it. */
function offered(markedText: string): readonly { readonly title: string; readonly after: string }[] {
  const { text, offset } = marked(note(markedText));
  return holding({ n: text })
    .fixes("n", { start: offset, end: offset })
    .map(({ fix }) => ({ title: fix.title, after: applyEdits(text, fix.edits) }));
}

const titles = (markedText: string) => offered(markedText).map(({ title }) => title);

describe("a guess", () => {
  it("is replaced by a measurement, on a line to be filled in that does not read until it is", () => {
    const [, measure] = offered("assume ¦V_f = 2.8 .. 3.0 .. 3.2 V   # red\nmust V_f <= 4 V");
    assert.equal(measure.title, "Measure it: measured V_f = ? .. ? V instead");
    assert.equal(
      measure.after,
      note("assume V_f = 2.8 .. 3.0 .. 3.2 V   # red\nmeasured V_f = ? .. ? V instead\nmust V_f <= 4 V"),
    );
    const open = holding({ n: measure.after });
    assert.deepEqual(
      open.findings("n").map(({ code }) => code),
      ["syntax.unexpected"],
    );
    assert.equal(open.summary("n").guesses, 1);
    const filled = holding({ n: measure.after.replace("? .. ?", "2.9 .. 3.0") });
    assert.deepEqual([filled.findings("n").length, filled.summary("n").guesses], [0, 0]);
  });

  it("is offered so with its unit, with the line ends of the note, and nowhere else", () => {
    assert.equal(offered("assume ¦T = 25 °C")[1].title, "Measure it: measured T = ? .. ? °C instead");
    assert.equal(offered("assume ¦n = 5")[1].title, "Measure it: measured n = ? .. ? instead");
    assert.equal(
      offered("assume ¦a = 1 mA\r\nb = a\r\n")[1].after,
      "    assume a = 1 mA\r\n    measured a = ? .. ? mA instead\r\n    b = a\r\n",
    );
    assert.deepEqual(titles('assume ¦a = 1 V from "sheet"'), []);
    assert.deepEqual(titles("assume a = ¦1 V"), []);
    assert.equal(offered('assume ¦a = 1 V from ""\nb = a')[0].after, '    assume a = 1 V from "source"\n    b = a');
    assert.deepEqual(titles("assume ¦a = 1 V\nmeasured a = 1 V ± 0.1 V instead"), ['Give its source: from "…"']);
  });
});

describe("a rule that fails", () => {
  it("is offered the nearest value with which all rules on it hold, rather than a nearer one", () => {
    // 13 Ω is enough for the first rule, and only 20 Ω for both.
    const text = "R = 12 Ω choose 12 Ω from E24\nI = 5 V / R\nmust ¦I <= 400 mA\nmust I <= 250 mA";
    assert.deepEqual(titles(text), ["Use 20 Ω for R: I 250 mA, all rules hold"]);
    assert.deepEqual(titles(`${text}\nmust I >= 300 mA`), ["Use 13 Ω for R: I 384.615 mA, 1 rule fails: I <= 250 mA"]);
  });

  it("is offered the members of the list that its choice is from", () =>
    assert.deepEqual(titles("R = 10 Ω choose 10 Ω from [22 Ω, 10 Ω, 12 Ω]\nI = 5 V / R\nmust ¦I <= 300 mA"), [
      "Use 22 Ω for R: I 227.273 mA, all rules hold",
    ]));

  it("is judged by titles at the worst case", () =>
    assert.deepEqual(titles("R = 12 Ω choose 12 Ω ± 5 % from E24\nI = 5 V / R\nmust ¦I <= 250 mA"), [
      "Use 22 Ω for R: I 216 .. 227 .. 239 mA, all rules hold",
    ]));

  it("is offered what tolerance it needs, of parts and of what is given, not of guesses", () =>
    assert.deepEqual(
      titles("given a = 5 V ± 10 %\nassume b = 1 V ± 50 %\nc = 3 V ± 0.1 V\nmust ¦a + b + c <= 10.05 V"),
      [
        "± 5 % or better for a: a + b + c 8.15 .. 9 .. 9.85 V, all rules hold",
        "± 50 mV or better for c: a + b + c 7.95 .. 9 .. 10.1 V, all rules hold",
      ],
    ));

  it("is offered limits that are narrower about the nominal value, in their own unit", () => {
    assert.deepEqual(titles("given a = 4.5 .. 5.5 V\ngiven b = 1 V\nmust ¦a + b <= 6.35 V"), [
      "4.65 .. 5.35 V or narrower for a: a + b 5.65 .. 6 .. 6.35 V, all rules hold",
    ]);
    // 5.5 V may be 5.2 V: two fifths of the way from typical, or so little more that it rounds down to it; 4 V as much nearer.
    assert.deepEqual(titles("given a = 4 .. 5 .. 5.5 V\ngiven b = 1 V\nmust ¦a + b <= 6.2 V"), [
      "4.59 .. 5 .. 5.2 V or narrower for a: a + b 5.59 .. 6 .. 6.2 V, all rules hold",
    ]);
    assert.deepEqual(titles('given I = 800 nA .. 1.2 µA\nassume T = 10 .. 25 .. 60 °C from "x"\nmust ¦T <= 50 °C'), [
      "14 .. 25 .. 50 °C or narrower for T: all rules hold",
    ]);
  });

  it("is offered the letter code of a narrower tolerance", () => {
    assert.deepEqual(titles("R = 4.7 kΩ choose 4k7J\nI = 5 V / R\nmust ¦I <= 1.09 mA"), [
      "Use 5.1 kΩ for R: I 934 .. 980 .. 1032 µA, all rules hold",
      "4k7G (± 2 %) or better for R: I 1.043 .. 1.064 .. 1.086 mA, all rules hold",
    ]);
    assert.deepEqual(titles("given C = 4p7D\nmust ¦C <= 5 pF"), ["4p7C (± 0.25 pF) or better for C: all rules hold"]);
  });

  it("is offered a smaller expanded uncertainty at the same coverage factor", () =>
    // The worst case counts 3/2 of it: 0.9 mg of 0.6 mg, and 0.45 mg is what the rule leaves.
    assert.deepEqual(titles("given m = 100 mg ± 0.6 mg (k = 2)\nmust ¦m <= 100.45 mg"), [
      "± 0.3 mg (k = 2) or better for m: all rules hold",
    ]));

  it("is offered its ways out anywhere on its line", () => {
    const text = "R = 12 Ω choose 12 Ω ± 5 % from E24\nI = 5 V / R\n";
    for (const rule of ["¦must I <= 250 mA # fuse", "must I <= 250 mA # fu¦se", "must I¦ <= 250 mA # fuse"])
      assert.equal(titles(text + rule).length, 1, rule);
  });

  it("is offered no tolerance where none is narrow enough, nor where it is false at nominal", () => {
    assert.deepEqual(titles("given a = 5 V ± 10 %\ngiven b = 1 .. 3 V\nmust ¦a + b <= 7.5 V"), []);
    assert.deepEqual(titles("given a = 5 V ± 10 %\nmust ¦a <= 4 V"), []);
  });
});

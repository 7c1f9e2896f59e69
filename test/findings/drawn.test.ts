import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { finish } from "../../src/engine/slices";
import { findingsOf, fixesAt, REFERENCE } from "../../src/findings/catalogue";
import { checkFindings, openNotes, readDrawings } from "../notation";

/**
 * Every finding, drawn under its line in `drawn/*.txt`. Cases are set apart by `----`. Behind a case stand the fixes that are
 * offered, in order: `>> title`, then the note as it is after the fix.
 */
interface Case {
  readonly drawn: string;
  readonly fixes: readonly { readonly title: string; readonly after: string }[];
}

const FOLDER = join(__dirname, "drawn");

/** Codes that show inside the finding of a call only, `function.body`, or in place of one that is found first. */
const NESTED: readonly string[] = ["function.recursive", "function.tooLarge"];

describe("findings", () => {
  const shown = new Set<string>();
  for (const file of readdirSync(FOLDER)) {
    describe(file.replace(".txt", ""), () => {
      for (const each of casesOf(readFileSync(join(FOLDER, file), "utf8"))) {
        for (const { marks } of readDrawings(each.drawn)) for (const { code } of marks) shown.add(code);
        it(titleOf(each.drawn), () => checkFindings(each.drawn));
        if (each.fixes.length > 0) it(`${titleOf(each.drawn)}, mended`, () => checkFixes(each));
      }
    });
  }

  it("are at once too deep to be read", () => {
    const { snapshot } = openNotes(`    x = ${"(".repeat(400)}3${")".repeat(400)}`).context();
    const findings = openNotes(snapshot.text).findings();
    assert.deepEqual(
      findings.map(({ code }) => code),
      ["syntax.tooDeep"],
    );
    assert.match(findings[0].message, /^Brackets and operators are nested more than \d+ deep\./);
    shown.add("syntax.tooDeep");
  });

  it("tell of a chapter of the handbook that cannot be read", () => {
    const program = new Program(WHOLE_PARTS);
    program.setText("note.calcs.md", "    x = led.burden(24 V, 7, 3 V)\n");
    program.settle();
    for (const path of program.wanted()) program.provide(path, { trouble: "missing", detail: "there is no such file" });
    program.settle();
    const findings = findingsOf({
      snapshot: program.snapshot("note.calcs.md")!,
      other: () => undefined,
      whatIf: () => assert.fail(),
      seriesFor: () => "E24",
    });
    assert.deepEqual(
      findings.map(({ message }) => message),
      [
        "The chapter `led` of the handbook cannot be read: there is no such file. It is part of the installation; install Copperbook anew.",
      ],
    );
    shown.add("handbook.unreadable");
  });

  it("tell of a function that grows without bound, once, at the call", () => {
    const doubled = Array.from({ length: 17 }, (_, i) => `    f${i + 1}(x) = f${i}(x) + f${i}(x)\n`).join("");
    const findings = openNotes(`    f0(x) = x + x\n${doubled}    y = f17(3)\n`).findings();
    assert.deepEqual(
      findings.map(({ code }) => code),
      ["function.body"],
    );
    assert.match(findings[0].message, /`f17` grows to more operations than are computed\. Give intermediate results/);
  });

  it("tell of a network that is too meshed, at its table", () => {
    const nodes = 120;
    const pairs = Array.from({ length: nodes * (nodes - 1) }, (_, i) => [Math.floor(i / (nodes - 1)), i % (nodes - 1)]);
    const rows = pairs.flatMap(([a, b], i) => (b < a ? [`| r${i} | N${a} | N${b} | 1 Ω | |`] : []));
    const head = ["| net: | from | to | R | V |", "| - | - | - | - | - |", "| s | 0V | N0 | | 5 V |"];
    const note = openNotes(`    v = net.N1.voltage\n\n${[...head, ...rows].join("\n")}\n`);
    assert.deepEqual(
      note.findings().map(({ code }) => code),
      ["network.tooMeshed"],
    );
    assert.match(note.findings()[0].message, /^These 7141 branches are too meshed/);
    shown.add("network.tooMeshed");
  });

  it("are mended by lines with the indentation and the line break of their own", () => {
    const notes = openNotes("\tU = 5 V\r\n\tx = U + R * 2 A\r\n");
    const [{ fix }] = finish(fixesAt(notes.context(), { start: 0, end: 99 }));
    assert.equal(notes.edited(fix.edits), "\tU = 5 V\r\n\tassume R = 1 Ω\r\n\tx = U + R * 2 A\r\n");
  });

  it("have each code drawn at least once", () => {
    const missing = REFERENCE.filter(({ code }) => !shown.has(code) && !NESTED.includes(code));
    assert.deepEqual(
      missing.map(({ code }) => code),
      [],
    );
  });

  it("have a sentence for each code in the reference", () => {
    for (const { code, reference } of REFERENCE) assert.match(reference, /^[A-Z`].{20,}\.$/, code);
  });
});

function casesOf(text: string): readonly Case[] {
  return text.split(/^----\n/m).map((part) => {
    const [drawn, ...fixes] = part.split(/^>> /m);
    return {
      drawn,
      fixes: fixes.map((fix) => ({
        title: fix.slice(0, fix.indexOf("\n")),
        after: fix.slice(fix.indexOf("\n") + 1),
      })),
    };
  });
}

/** The code that is drawn first, and its line. */
function titleOf(drawn: string): string {
  const [mark, line] = readDrawings(drawn).flatMap(({ marks, text }) =>
    marks.length > 0 ? [`${marks[0].code}: `, text.split("\n")[marks[0].line].trim()] : [],
  );
  return mark === undefined ? `nothing: ${drawn.trim().replace(/\s+/g, " ")}` : mark + line;
}

/** The fixes are the drawn ones, each gives the drawn text, and what it answers is gone from there. */
function checkFixes({ drawn, fixes }: Case): void {
  const notes = openNotes(drawn);
  const context = notes.context();
  const offered = finish(fixesAt(context, { start: 0, end: context.snapshot.text.length }));
  assert.deepEqual(
    offered.map(({ fix }) => fix.title),
    fixes.map(({ title }) => title),
  );
  offered.forEach(({ fix, finding }, i) => {
    assert.equal(notes.edited(fix.edits).trimEnd(), fixes[i].after.trimEnd());
    const left = finish(context.whatIf(fix.edits, (snapshot) => findingsOf({ ...context, snapshot })));
    const before = notes.findings().filter(({ code }) => code === finding.code);
    assert.equal(left.filter(({ code }) => code === finding.code).length, before.length - 1, `${finding.code} is left`);
  });
}

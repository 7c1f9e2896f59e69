import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { howMany } from "../howMany";
import type { Service } from "../../src/service";
import type { Span } from "../../src/text/span";
import { holding } from "../features/notes";

const SAMPLES = join(__dirname, "../../samples");
const TEXTS: Readonly<Record<string, string>> = Object.fromEntries(
  readdirSync(SAMPLES, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".calcs.md"))
    .map((path) => [path.replaceAll("\\", "/"), readFileSync(join(SAMPLES, path), "utf8")]),
);
const PATHS = Object.keys(TEXTS);

/** A network of which one link after the other is opened takes seconds to settle, the others a moment: it is tried less often. */
const isSlow = (path: string): boolean => path.startsWith("handrail/");
const RUNS: readonly (readonly [paths: readonly string[], runs: number])[] = [
  [PATHS.filter((path) => !isSlow(path)), howMany(1000)],
  [PATHS.filter(isSlow), howMany(10)],
];

/** The sample that a note is part of: the notes of its folder. */
function sampleOf(path: string): Readonly<Record<string, string>> {
  const folder = path.slice(0, path.lastIndexOf("/") + 1);
  return Object.fromEntries(Object.entries(TEXTS).filter(([other]) => other.startsWith(folder)));
}

/** A share of a text, anywhere in it alike. */
const SHARE = fc.noBias(fc.nat(10_000)).map((n) => n / 10_000);

/** Asks all that can be asked at a place, and holds every span against its text. How many answers there were. */
function askAt(service: Service, path: string, offset: number): number {
  const lengthOf = (of: string) => service.snapshot(of)!.text.length;
  const isInside = ({ start, end }: Span, of = path) => {
    assert.ok(0 <= start && start <= end && end <= lengthOf(of), `${start}..${end} lies outside ${of}`);
  };
  const hover = service.hover(path, offset);
  if (hover) isInside(hover.span);
  const completions = service.completions(path, offset);
  for (const { span } of completions.slice(0, 5)) isInside(span);
  const definition = service.definition(path, offset);
  if (definition) isInside(definition.span, definition.path);
  const references = service.references(path, offset);
  for (const reference of references) isInside(reference.span, reference.path);
  const span = service.renameSpan(path, offset);
  const renaming = service.rename(path, offset, "renamed_by_test");
  if (span) isInside(span);
  else assert.ok("refusal" in renaming);
  return [hover, definition, span].filter((answer) => answer !== undefined).length + completions.length;
}

/** Asks all that can be asked of a whole note. */
function askOf(service: Service, path: string): void {
  const { length } = service.snapshot(path)!.text;
  for (const { at } of service.results(path)) assert.ok(at <= length);
  for (const { firstLine, lastLine } of service.foldings(path)) assert.ok(firstLine < lastLine);
  for (const { span } of service.symbols(path)) assert.ok(span.start <= span.end && span.end <= length);
  service.summary(path);
  const record = service.record(path);
  assert.deepEqual(JSON.parse(JSON.stringify(record)), record);
}

describe("anywhere in a note", () => {
  it("there is an answer or none, and no harm, in every sample", () => {
    assert.ok(PATHS.length >= 5);
    const service = holding(TEXTS);
    const step = process.env.CI === "true" ? 1 : 7;
    for (const path of PATHS) {
      askOf(service, path);
      let answers = 0;
      for (let offset = 0; offset <= TEXTS[path].length; offset += step) answers += askAt(service, path, offset);
      assert.ok(answers > 100);
    }
  });

  it("so it is in samples that are garbled", () => {
    const shreds = fc.constantFrom(
      "",
      "(",
      ")",
      '"',
      "#",
      "`",
      "\n",
      "\n    ",
      "\r\n",
      " = ",
      "..",
      "±",
      "[",
      ".",
      "9",
      "x",
      "𝑥",
      "\u0301",
      "must ",
      "use ",
      "µ",
    );
    const garbling = (paths: readonly string[]) =>
      fc.record({
        path: fc.constantFrom(...paths),
        cuts: fc.array(fc.record({ at: SHARE, length: fc.nat(12), shred: shreds }), {
          minLength: 1,
          maxLength: 8,
        }),
        places: fc.array(SHARE, { minLength: 5, maxLength: 5 }),
      });
    for (const [paths, numRuns] of RUNS)
      fc.assert(
        fc.property(garbling(paths), ({ path, cuts, places }) => {
          const service = holding(sampleOf(path));
          for (const { at, length, shred } of cuts) {
            const { text } = service.snapshot(path)!;
            const start = Math.floor(at * text.length);
            service.edit(path, [{ span: { start, end: Math.min(text.length, start + length) }, text: shred }]);
            askAt(service, path, Math.min(start + shred.length, service.snapshot(path)!.text.length));
          }
          const { text } = service.snapshot(path)!;
          for (const place of places) askAt(service, path, Math.floor(place * text.length));
          askOf(service, path);
        }),
        { numRuns },
      );
  }).timeout(600_000);

  it("renaming leaves every value, rule and finding as it is", () => {
    const places = (paths: readonly string[]) => fc.record({ path: fc.constantFrom(...paths), at: SHARE });
    let renamed = 0;
    for (const [paths, numRuns] of RUNS)
      fc.assert(
        fc.property(places(paths), ({ path, at }) => {
          const sample = sampleOf(path);
          const service = holding(sample);
          const result = service.rename(path, Math.floor(at * TEXTS[path].length), "renamed_by_test");
          if ("refusal" in result) return;
          renamed++;
          const before = Object.keys(sample).map((each) => numbersOf(service, each));
          for (const { path: where, edits } of result.edits) service.edit(where, edits);
          assert.deepEqual(
            Object.keys(sample).map((each) => numbersOf(service, each)),
            before,
          );
        }),
        { numRuns },
      );
    assert.ok(renamed > 0);
  }).timeout(600_000);
});

/** What a note says, but for names and columns. */
function numbersOf(service: Service, path: string): readonly unknown[] {
  const { values, rules, findings } = service.record(path);
  return [
    values.map(({ line, kind, value, min, max }) => ({ line, kind, value, min, max })),
    rules.map(({ line, state, spare }) => ({ line, state, spare })),
    findings.map(({ code, line }) => ({ code, line })),
  ];
}

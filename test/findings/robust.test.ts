import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { finish } from "../../src/engine/slices";
import { fixesAt } from "../../src/findings/catalogue";
import { standardValuesAt } from "../../src/features/standardValues";
import { applyEdits } from "../../src/text/edit";
import { howMany } from "../howMany";
import { OpenNotes } from "../notation";

const DRAWN = join(__dirname, "drawn");

/** Statements of all kinds, right and wrong, without the marks and the fixes. */
const LINES = readdirSync(DRAWN).flatMap((file) =>
  readFileSync(join(DRAWN, file), "utf8")
    .split("\n")
    .filter((line) => /^ {4}[^~|]/.test(line) && !line.includes("~~")),
);

const line = fc.oneof(
  fc.constantFrom(...LINES),
  fc
    .tuple(fc.constantFrom(...LINES), fc.nat(), fc.constantFrom("", "(", "%", " ", "V", "#", '"', "=", "\r\n"))
    .map(([text, at, sign]) => {
      const place = 4 + (at % (text.length - 3));
      return text.slice(0, place) + sign + text.slice(place + 1);
    }),
);

describe("findings of garbled notes", () => {
  it("are sentences at places of the text, and their fixes can be applied", () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), (lines) => {
        const text = lines.join("\n");
        const notes = new OpenNotes([{ path: "note.calcs.md", text, marks: [] }]);
        const context = notes.context();
        for (const { span, message, code } of notes.findings()) {
          assert.ok(0 <= span.start && span.start <= span.end && span.end <= text.length, code);
          assert.match(message, /[.?]$/, code);
          assert.doesNotMatch(message, /`undefined`|undefined,|NaN|\[object/, code);
        }
        const all = { start: 0, end: text.length };
        const fixes = [
          ...finish(fixesAt(context, all)).map(({ fix }) => fix),
          ...finish(standardValuesAt(context, { start: 5, end: 5 })),
        ];
        for (const { title, edits } of fixes) {
          assert.notEqual(applyEdits(text, edits), text, title);
          assert.doesNotMatch(title, /undefined|NaN/);
        }
        // Trying what follows puts everything back.
        assert.equal(notes.snapshot().text, text);
      }),
      { numRuns: howMany(2_000) },
    );
  });
});

import assert from "node:assert/strict";
import { CHAPTERS } from "../../src/engine/handbook";
import type { OpenNotes } from "../notation";
import { writtenChapters } from "./chapters";
import { openChapter } from "./openChapter";

describe("the handbook", () => {
  it("lists the chapters that are written, and no others", () => {
    assert.deepEqual([...CHAPTERS.keys()].sort(), writtenChapters());
  });

  for (const chapter of writtenChapters()) {
    describe(`the chapter ${chapter}`, () => {
      let notes: OpenNotes;
      before(() => void (notes = openChapter(chapter)));

      it("has no finding, and every example holds", () => {
        const { rows, lines } = notes.snapshot();
        const found = notes.findings().map(({ span, code, message }) => {
          return `line ${lines.lineAt(span.start) + 1}: ${code} ${message}`;
        });
        assert.deepEqual(found, []);
        const rules = rows.flatMap(({ outcome }) => (outcome.kind === "rule" ? [outcome.state] : []));
        assert.ok(rules.length > 0, "It has no worked example.");
        assert.deepEqual([...new Set(rules)], ["holds"]);
      });

      it("says of every function what it is, in words with units", () => {
        const silent = notes.snapshot().rows.flatMap(({ statement }) => {
          return statement.kind === "function" && statement.comment === "" ? [statement.text] : [];
        });
        assert.deepEqual(silent, []);
      });

      it("has a title, a purpose, and a source for every section that calculates", () => {
        const { text } = notes.snapshot();
        assert.match(text, /^# \S.*\n\n\S/);
        const sections = text.split(/^## /m).slice(1);
        const unsourced = sections.filter(
          (section) => /^ {4}\w+\(.*\) *=/m.test(section) && !/^Source: \S/m.test(section),
        );
        assert.deepEqual(
          unsourced.map((section) => section.split("\n")[0]),
          [],
        );
      });
    });
  }
});

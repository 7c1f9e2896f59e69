import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { usesOf } from "../../src/engine/referent";
import { Snapshot } from "../../src/engine/snapshot";

/** The same notes read word by word, by an index of all words, and after edits that leave or change what is defined. */
describe("what a snapshot is asked for", () => {
  const root = join(__dirname, "../../samples");
  const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".calcs.md"));
  const snapshotOf = (text: string) => {
    const program = new Program(WHOLE_PARTS);
    program.setText("a.calcs.md", text);
    program.update();
    return { program, snapshot: program.snapshot("a.calcs.md")! };
  };
  const copyOf = ({ path, text, blocks, columns }: Snapshot) => new Snapshot(path, text, blocks, columns);
  const tables = "\n| part: | qty | price |\n| --- | --- | --- |\n| a | 2 | 3 EUR |\n| b | 4 | 5 EUR |\n";
  const texts = [
    ...files.map((file) => readFileSync(join(root, file), "utf8")),
    `\n    R_Ω = 2\n    x = R_\u2126${tables}`,
  ];

  it("finds the same places of a word however it looks for them", () => {
    assert.ok(texts.length > 3);
    for (const text of texts) {
      const { snapshot } = snapshotOf(text);
      const words = [...new Set(text.normalize("NFC").match(/[\p{L}_][\p{L}\p{M}\p{N}_]*/gu))];
      const indexed = copyOf(snapshot);
      for (const word of words) usesOf(indexed, word);
      for (const word of words) {
        const places = (of: Snapshot) => usesOf(of, word).map(({ row, use }) => [row.start, use.span, use.role]);
        assert.deepEqual(places(copyOf(snapshot)), places(indexed), word);
      }
    }
  });

  it("knows where names are defined after edits", () => {
    const { program } = snapshotOf("\n    a = 1\n    b = 2\n    a = 3\n");
    const startOf = (name: string) => program.snapshot("a.calcs.md")!.find(name)?.start;
    const edit = (before: string, after: string) => {
      const start = program.notes.get("a.calcs.md")!.text.indexOf(before);
      program.edit("a.calcs.md", { span: { start, end: start + before.length }, text: after });
      program.update();
    };
    assert.deepEqual(["a", "b"].map(startOf), [5, 15]);
    edit("2", "22");
    assert.deepEqual(["a", "b", "c"].map(startOf), [5, 15, undefined]);
    edit("b = 22", "c = 22");
    assert.deepEqual(["a", "b", "c"].map(startOf), [5, undefined, 15]);
    edit("a = 1\n    ", "");
    assert.deepEqual(["a", "c"].map(startOf), [16, 5]);
  });
});

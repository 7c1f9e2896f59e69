import assert from "node:assert/strict";
import fc from "fast-check";
import { scan } from "../../src/note/scan";
import { applyEdits } from "../../src/text/edit";
import { LineIndex } from "../../src/text/lineIndex";
import { howMany } from "../howMany";
import { documents } from "./documents";
import { consult } from "./oracle";

describe("the fix of any trap", () => {
  it("makes the line compute, and leaves what stands above as it was", () => {
    fc.assert(
      fc.property(
        documents.filter((text) => !/^---[ \t]*[\r\n]/.test(text)),
        (text) => {
          let start = 0;
          for (const block of scan(text)) {
            for (const { span, insertAt, insert } of block.kind === "prose" ? block.traps : []) {
              const at = start + insertAt;
              const line = new LineIndex(text).lineAt(at);
              const fixed = applyEdits(text, [{ span: { start: at, end: at }, text: insert }]);
              const fixedLine = new LineIndex(fixed).lineAt(start + span.start + insert.length);
              const before = consult(text).calculationLines;
              const after = consult(fixed).calculationLines;
              assert.ok(!before.includes(line) && after.includes(fixedLine));
              assert.deepEqual(
                after.filter((other) => other < fixedLine),
                before.filter((other) => other < line),
              );
            }
            start += block.length;
          }
        },
      ),
      { numRuns: howMany(20_000) },
    );
  });
});

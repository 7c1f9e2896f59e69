import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { REFERENCE } from "../../src/findings/catalogue";

describe("the reference of findings", () => {
  it("in DEVELOPERS.md is that of the catalogue", () => {
    const text = readFileSync(join(__dirname, "../../DEVELOPERS.md"), "utf8");
    const section = text.slice(text.indexOf("\n## Findings\n"));
    const lines = section.split("\n").filter((line) => line.startsWith("- `"));
    const expected = REFERENCE.map(({ code, severity, reference }) => `- \`${code}\` (${severity}): ${reference}`);
    assert.deepEqual(lines, expected);
  });
});

import assert from "node:assert/strict";
import { Program } from "../../src/engine/program";
import type { RuleOutcome } from "../../src/engine/outcome";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { rulePhrase } from "../../src/phrases/rule";

/** The rules of a note, in words. */
function phrases(text: string): readonly string[] {
  const program = new Program(WHOLE_PARTS);
  program.setText("n", text);
  program.settle();
  const outcomes = program.snapshot("n")!.rows.map(({ outcome }) => outcome);
  return outcomes.filter((outcome): outcome is RuleOutcome => outcome.kind === "rule").map(rulePhrase);
}

describe("a rule in words", () => {
  it("tells of the row that has the least to spare, in units as in per cent", () => {
    assert.deepEqual(
      phrases(`
| t: | qty | heat [°C] | short |
| - | - | - | - |
| a | 112 | 40 °C | -1 |
| b | 8 | 12 °C | -7 |
| c | 1 | 25 °C | -3 |

    must t.qty > 0
    must t.heat >= 5 °C
    must t.short >= 0
    must t.qty > 0.5
`),
      ["holds, 1 to spare", "holds, 7 K to spare", "fails, b, c and a, 7 short", "holds, 100 % to spare"],
    );
  });
});

import assert from "node:assert/strict";
import { checkFindings } from "../notation";

describe("the notation of findings", () => {
  it("agrees where every finding is drawn", () => {
    checkFindings(`
    a = 2 m
    b = a + 1 s
            ~~~ unit.mismatch
    `);
  });

  it("draws the place that is empty as one tilde", () => {
    checkFindings(`
    a =
       ~ syntax.unexpected
    `);
  });

  const wrong: readonly [reason: string, drawn: string][] = [
    ["a finding that is not drawn", "\n    b = x + 1 s\n"],
    ["a finding that is not there", "\n    b = 1 s\n        ~~~ unit.mismatch\n"],
    ["another place", "\n    b = x + 1 s\n        ~~ name.unknown\n"],
    ["another code", "\n    b = x + 1 s\n        ~ name.doubled\n"],
    ["another severity", "\n    b = x + 1 s\n        ~ name.unknown hint\n"],
    ["another message", "\n    b = x + 1 s\n        ~ name.unknown\n        | All is well.\n"],
    ["one drawn twice", "\n    b = x + 1 s\n        ~ name.unknown\n        ~ name.unknown\n"],
  ];
  for (const [reason, drawn] of wrong) {
    it(`refuses ${reason}`, () => assert.throws(() => checkFindings(drawn), assert.AssertionError));
  }

  it("reads several notes", () => {
    checkFindings(`
    use "other.calcs.md" as other
    a = other.b + c
                  ~ name.unknown
=== other.calcs.md
    b = 3 + d
            ~ name.unknown
`);
  });
});

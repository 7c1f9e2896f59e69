import assert from "node:assert/strict";
import fc from "fast-check";
import { csv } from "../../src/cli/csv";
import { howMany } from "../howMany";

describe("comma-separated values", () => {
  it("end their lines with CRLF and leave out what is not there", () => {
    assert.equal(
      csv([
        ["a", 1, undefined, -2.5e-9],
        ["b", undefined],
      ]),
      "a,1,,-2.5e-9\r\nb,\r\n",
    );
  });

  it("quote what would be read as something else", () => {
    assert.equal(csv([["a,b", 'say "x"', "two\nlines"]]), '"a,b","say ""x""","two\nlines"\r\n');
  });

  const guarded = ["=1+1", "+x", "-x", "@x", "\tx", "-2+3", "-2+3+cmd|' /C calc'!A0", "-1 =x", "-1*A1", '-5 "V"'];
  for (const text of guarded)
    it(`guard ${JSON.stringify(text)} against being run`, () => assert.match(csv([[text]]), /^"?'/));

  const plain = ["-5 V", "-5 .. 15 .. 35 °C", "-1.5e-9 .. 2 W/(m·K)", "-40", "x = 1", "5 - 3"];
  for (const text of plain) it(`leave ${text} as it is`, () => assert.equal(csv([[text]]), `${text}\r\n`));

  it("give back by the rules of RFC 4180 what went in", () => {
    const cell = fc.string({ unit: fc.constantFrom("a", ",", '"', "\r", "\n", " ", "µ") }).map((text) => `x${text}`);
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 4 }), (rows) =>
        assert.deepEqual(readCsv(csv(rows)), rows),
      ),
      { numRuns: howMany(2000) },
    );
  });
});

/** A reader of its own, character by character. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = "";
  for (let at = 0; at < text.length; at++) {
    if (field === "" && text[at] === '"') {
      for (at++; text[at] !== '"' || text[at + 1] === '"'; at++) {
        if (text[at] === '"') at++;
        field += text[at];
      }
    } else if (text[at] === ",") {
      row.push(field);
      field = "";
    } else if (text[at] === "\r" && text[at + 1] === "\n") {
      rows.push([...row, field]);
      [row, field] = [[], ""];
      at++;
    } else field += text[at];
  }
  return rows;
}

import assert from "node:assert/strict";
import type { ProseBlock } from "../../src/note/block";
import { scan } from "../../src/note/scan";
import { applyEdits } from "../../src/text/edit";
import { consult } from "./oracle";

/** The calculation lines of a text. */
function computing(text: string): string[] {
  const lines: string[] = [];
  let start = 0;
  for (const block of scan(text)) {
    if (block.kind === "calculation")
      lines.push(...block.lines.map((span) => text.slice(start + span.start, start + span.end)));
    start += block.length;
  }
  return lines;
}

/** What the prose blocks of a text hold of one kind, each with the piece of text it spans. */
function inProse<Kind extends "headings" | "tasks" | "codeSpans" | "traps">(text: string, kind: Kind) {
  type Item = ProseBlock[Kind][number];
  const items: { item: Item; source: string; start: number }[] = [];
  let start = 0;
  for (const block of scan(text)) {
    const found: readonly Item[] = block.kind === "prose" ? block[kind] : [];
    for (const item of found)
      items.push({ item, source: text.slice(start + item.span.start, start + item.span.end), start });
    start += block.length;
  }
  return items;
}

describe("the lines that compute", () => {
  const cases: readonly (readonly [string, string, readonly string[]])[] = [
    ["those indented by four columns, spaces or tabs", "    a\n\n\tb\n\n  \tc", ["    a", "\tb", "  \tc"]],
    ["not those indented by three", "   a\n", []],
    ["whole runs, blank lines between them or not", "    a\n      b\n\n \n    c\n", ["    a", "      b", "    c"]],
    ["not one that continues a paragraph", "text\n    a\n", []],
    [
      "those right behind a heading or a thematic break",
      "# h\n    a\n***\n    b\nh\n===\n    c",
      ["    a", "    b", "    c"],
    ],
    ["not those in a list", "- x\n\n    a\n\n      b\n", []],
    ["those behind the comment that ends a list", "- x\n\n<!-- -->\n\n    a\n", ["    a"]],
    ["not those in a quote, nor those that continue it", ">     a\n> x\n    b\n", []],
    ["not those in a fence of either kind, closed or not", "```\n    a\n~~~\n    b\n```\n~~~\n    c\n", []],
    ["not those in a comment", "<!--\n\n    a\n-->\n    b\n", ["    b"]],
    ["those behind a blank line in a div", "<div>\n    a\n\n    b\n", ["    b"]],
    ["those right behind a table", "x | y\n--|--\n1 | 2\n    a\n", ["    a"]],
    ["those behind a link definition, which is a block of its own", "[x]: /u\n    a\n", ["    a"]],
    ["not one that is the title of a link definition", "[x]: /u\n    'a'\n    b\n", ["    b"]],
    ["not the front matter, closed by --- or ...", "---\n    a\n---\n    b\n", ["    b"]],
    ["not the front matter closed by dots", "---\n\n    a\n...\n    b\n", ["    b"]],
    ["those behind a thematic break on the first line that nothing closes", "---\n    a\n", ["    a"]],
    ["without their line breaks, of any kind", "    a\r\n    b\r    c\n", ["    a", "    b", "    c"]],
    ["not one behind a byte order mark, which is a character", "\ufeff    a\n", []],
    ["with NULs and lone surrogates as they stand", "    a\0\ud800\n", ["    a\0\ud800"]],
    ["none in an empty text or one of blank lines", "\n  \n", []],
  ];
  for (const [what, text, expected] of cases) it(`are ${what}`, () => assert.deepEqual(computing(text), expected));

  it("are cut off by a line that begins a block inside the margin of a list, as in markdown-it", () => {
    assert.deepEqual(computing("  10. x\n     # a\n"), ["     # a"]);
    assert.deepEqual(computing("  10. x\n     a\n"), []);
  });
});

describe("blocks", () => {
  it("partition the text, each with the blank lines behind it", () => {
    const text = "\n# One\n\ntext\n\n\n    a = 2\n\n- item\n";
    const pieces: string[] = [];
    let start = 0;
    for (const { length } of scan(text)) pieces.push(text.slice(start, (start += length)));
    assert.deepEqual(pieces, ["\n", "# One\n\n", "text\n\n\n", "    a = 2\n\n", "- item\n"]);
  });

  it("begin a new list behind an item that is empty and two blank lines", () => {
    const text = "-\n\n\n- b | c\n--|--\n    a\n";
    assert.equal(consult(text).tables.length, 1);
    assert.deepEqual(
      scan(text).map(({ kind, length }) => [kind, length]),
      [
        ["prose", 4],
        ["prose", 14],
        ["calculation", 6],
      ],
    );
  });

  it("are none in an empty text", () => assert.deepEqual(scan(""), []));
});

describe("headings", () => {
  it("are found with level and text, markers left out", () => {
    const found = inProse("# One #\n\nTwo\nlines\n---\n\n> # not here\n", "headings");
    assert.deepEqual(
      found.map(({ item, source }) => [item.level, item.text, source]),
      [
        [1, "One", "# One #"],
        [2, "Two\nlines", "Two\nlines\n---"],
      ],
    );
  });
});

describe("task items", () => {
  it("carry their box, their opening word and their text", () => {
    const text =
      "- [ ] must: light two bars\n  side by side\n  1. [x] Should : look\n- [X] plain: no\n- [ ]\n- no [ ] box\n";
    assert.deepEqual(
      inProse(text, "tasks").map(({ item: { checked, word, text }, source }) => [checked, word, text, source]),
      [
        [false, "must", "light two bars side by side", "[ ] must: light two bars\n  side by side"],
        [true, "should", "look", "[x] Should : look"],
        [true, undefined, "plain: no", "[X] plain: no"],
      ],
    );
  });

  it("need a list", () => assert.deepEqual(inProse("[ ] text\n", "tasks"), []));
});

describe("code spans", () => {
  const cases: readonly (readonly [string, string, readonly string[]])[] = [
    ["in paragraphs, headings, items and cells", "`a`\n# `b`\n- `c`\n\nx | y\n--|--\n`d` | e\n", ["a", "b", "c", "d"]],
    ["between runs of equal length", "`` a`b `` and ``` `` ```", ["a`b", "``"]],
    ["without the one space that stands on both sides", "` a` `  b  ` ` `", [" a", " b ", " "]],
    ["but not behind a backslash, which escapes only outside", "\\`a` b`\\`", [" b"]],
    ["but not in tags, autolinks and destinations", '<b x="`">`a` <http://x`y>`b` [l](u`v) `c`', ["a", "b", "c"]],
    ["in what only looks like a link, since it holds one", "[a [b](u) c](d`e`)", ["e"]],
    ["but not in code or HTML blocks", "    `a`\n\n```\n`b`\n```\n<div>`c`</div>\n", []],
    ["across the lines of a quote", "> `a\n> b`\n", ["a b"]],
  ];
  for (const [what, text, expected] of cases)
    it(`are found ${what}`, () =>
      assert.deepEqual(
        inProse(text, "codeSpans").map(({ item }) => item.text),
        expected,
      ));

  it("span their content", () => {
    assert.deepEqual(
      inProse("x `` a`b `` y\n\n| p | `q\\|r` |\n|--|--|\n", "codeSpans").map(({ source }) => source),
      ["a`b", "q\\|r"],
    );
  });
});

describe("a trap", () => {
  const cases: readonly (readonly [string, string, string, string])[] = [
    ["a line that continues a paragraph", "text\n    a = 2\n", "afterParagraph", "\n"],
    ["a line that continues a quote", "> text\n    a = 2\n", "afterParagraph", "\n"],
    ["a paragraph in a list", "- x\n\n    a = 2\n", "inList", "<!-- -->\n\n"],
    ["code in a list", "- x\n\n      a = 2\n", "inList", "<!-- -->\n\n"],
    ["a line that continues an item", "- x\n    a = 2\n", "inList", "\n<!-- -->\n\n"],
    ["the same with CRLF", "- x\r\n\r\n    a = 2\r\n", "inList", "<!-- -->\r\n\r\n"],
    ["the same with CR", "text\r    a = 2\r", "afterParagraph", "\r"],
  ];
  for (const [what, text, kind, insert] of cases)
    it(`is ${what}`, () => {
      const [trap, ...others] = inProse(text, "traps");
      assert.deepEqual([trap.item.kind, trap.item.insert, trap.source, others.length], [kind, insert, "a = 2", 0]);
      const at = trap.start + trap.item.insertAt;
      const fixed = applyEdits(text, [{ span: { start: at, end: at }, text: insert }]);
      assert.deepEqual(
        computing(fixed).map((line) => line.trim()),
        ["a = 2"],
      );
      assert.equal(consult(fixed).calculationLines.length, 1);
    });

  it("is no delimiter row, which would make no table behind a blank line", () => {
    assert.deepEqual(inProse("+   text\na | b\n    -- | --\n", "traps"), []);
  });

  it("is no line of a fence, a comment, a table, a nested item or a quote's own", () => {
    const text = "```\n    a\n```\n<!--\n    b\n-->\n- x\n    - y\n    > z\n\n> t\n>     c\n";
    assert.deepEqual(inProse(text, "traps"), []);
  });
});
